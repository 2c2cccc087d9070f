import { expect, test } from 'vitest';
import { makeInStages } from '../../src/use/make/make-in-stages.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { FAMILIES } from '../../templates/index.ts';
import { examplesIn, inTurns } from '../helpers/extent.ts';

/** Parts made stage by stage: the end is what `makeParts` gives at once, and each stage knows its own. */

const templateOf = async (family: string) =>
  (await (FAMILIES.get(family) as NonNullable<ReturnType<typeof FAMILIES.get>>)()).default;

/** Functions are told apart by what they give. */
const told = (value: unknown): string =>
  JSON.stringify(value, (_, one: unknown) =>
    typeof one === 'function' ? 'function' : one instanceof Map ? [...one] : one,
  );

test.each(inTurns([...FAMILIES.keys()], 1, 4))(
  '%s: stage by stage it is the same',
  async (family) => {
    const template = await templateOf(family);
    for (const { inputs } of examplesIn(template)) {
      const stages = makeInStages(template, inputs, { fit: {} }, 'seat 7');
      const seen: string[] = [];
      for (;;) {
        const { done, value } = stages.next();
        if (done === true) {
          const whole = makeParts(template, inputs, { fit: {} });
          if (!value.ok || !whole.ok) throw new Error(family);
          expect(told(value.parts.map(({ result }) => result))).toBe(
            told(whole.parts.map(({ result }) => result)),
          );
          expect(value.parts.map((one) => one.files())).toEqual(
            whole.parts.map((one) => one.files()),
          );
          break;
        }
        expect(value.stamp).toBe('seat 7');
        seen.push(value.stage);
        for (const { laid, blank, proof } of value.blanks) {
          expect(laid.flat.widthMm).toBeCloseTo(blank.widthMm, 6);
          expect(proof === undefined).toBe(value.stage !== 'proof');
          expect(value.stage === 'plan' || laid.plan === undefined).toBe(true);
        }
      }
      expect(seen).toEqual(['shape', 'checks', 'proof', 'plan']);
    }
  },
);

test('whoever wants no more has stopped the work: nothing is planned before it is asked for', async () => {
  const template = await templateOf('tray');
  const inputs = template.examples[0]?.inputs ?? {};
  const stages = makeInStages(template, inputs);
  const first = stages.next();
  expect(first.done).toBe(false);
  expect(stages.return(undefined as never).done).toBe(true);
  expect(stages.next().done).toBe(true);
});

test('what is wrong with the inputs is returned at once', async () => {
  const template = await templateOf('tray');
  const { done, value } = makeInStages(template, { length: 'long' }).next();
  expect(done).toBe(true);
  expect(value).toMatchObject({ ok: false });
});
