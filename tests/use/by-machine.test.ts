import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { makeParts, type MakeOptions } from '../../src/use/make/make-parts.ts';
import { planParts } from '../../src/use/plan/plan-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';

type Inputs = Readonly<Record<string, unknown>>;

/** A hopper mouth of 200 x 200: in one blank its walls are deeper than the fingers. */
const CHUTE = {
  width: 200,
  height: 200,
  endWidth: 100,
  endHeight: 100,
  length: 150,
  lip: 0,
  material: 'dc01',
  thickness: 1.5,
};

const made = async (family: string, inputs: Inputs, options: MakeOptions = {}) => {
  const found = makeParts(await loadFamily(family), inputs, {
    shop: DEFAULT_SHOP,
    byMachineOnly: true,
    ...options,
  });
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return found.parts.map(({ result, stopped }) => ({
    piece: result.piece,
    isFoldable: !stopped && (result.foldPlan?.feasible ?? true),
    isProved: (result.proof?.worstMm ?? 1) < 0.01,
    chosen: result.findings
      .filter(({ rule }) => rule === 'chosen-by-machine')
      .map(({ inputs: names, message }) => [names, /Give (--\S+ \S+)/.exec(message)?.[1]]),
  }));
};

const saddle = async (): Promise<Inputs> => {
  const { hand: _, ...inputs } = (await loadFamily('tank')).examples[2]?.inputs ?? {};
  return inputs;
};

describe('what is left to the program is decided by the machines of the shop', () => {
  test('a duct that no machine folds in one blank comes in halves, and says so', async () => {
    const parts = await made('duct-box', CHUTE);
    expect(parts).toHaveLength(2);
    for (const part of parts)
      expect(part).toMatchObject({
        isFoldable: true,
        isProved: true,
        chosen: [[['blanks'], '--blanks halves']],
      });
  });

  test('so does the wrap of a tank, and each piece stands where its panels stood', async () => {
    const parts = await made('tank', await saddle());
    expect(parts.filter(({ piece }) => piece?.startsWith('wrap')).map((p) => p.piece)).toEqual([
      'wrap-floor',
      'wrap-deep',
    ]);
    for (const part of parts) {
      expect(part).toMatchObject({ isFoldable: true, isProved: true });
      expect(part.chosen).toEqual([[['wrap'], '--wrap deep-off']]);
    }
  });

  test.each([
    ['a choice that was made is kept', { blanks: 'whole' }, {}],
    ['what is folded elsewhere is as the family makes it', {}, { foldAt: 'service' }],
  ] as const)('%s', async (_, inputs, options) => {
    const parts = await made('duct-box', { ...CHUTE, ...inputs }, options);
    expect(parts).toHaveLength(1);
    expect(parts[0]?.chosen).toEqual([]);
  });

  test('what a machine of the shop folds as the family makes it stays so', async () => {
    const parts = await made('tank', (await loadFamily('tank')).examples[0]?.inputs ?? {});
    expect(parts.map(({ piece }) => piece)).toContain('wrap');
    for (const { isFoldable, chosen } of parts) {
      expect(isFoldable).toBe(true);
      expect(chosen).toEqual([]);
    }
  });

  test('the plan is of the same blanks', async () => {
    const planned = planParts({
      template: await loadFamily('tank'),
      inputs: await saddle(),
      byMachineOnly: true,
    });
    if (!planned.ok) throw new Error('problems');
    expect(planned.isFoldable).toBe(true);
    expect(planned.result.parts.map(({ name }) => name)).toContain('saddle-tank-wrap-deep');
    expect(planned.findings.map(({ rule }) => rule)).toContain('chosen-by-machine');
  });
});
