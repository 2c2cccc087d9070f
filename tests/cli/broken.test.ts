import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Template } from '../../src/forms/template.ts';
import { describeInputs, type InputDescription } from '../../src/forms/read.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { FAMILIES } from '../../templates/index.ts';
import { blankwright, json, names, type Problems, tempFolder } from '../helpers/command.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

const TEMPLATES = await Promise.all(
  [...FAMILIES.values()].map(async (load) => (await load()).default),
);

/** Texts that are no value of any kind of input but a name. */
const RUBBISH = [
  '1,5',
  'NaN',
  'Infinity',
  '-Infinity',
  '-',
  '+',
  '5 apples',
  '((',
  '1/0',
  '1e999',
  '0x',
  '12 mm mm',
  '"',
  'left left',
  ';;',
  '🔧',
  'constructor',
  '__proto__',
  '3..4',
  'mm',
  '1.2.3',
  'null',
  'ten',
];

/** What no input of that kind takes, as flags give it. */
const brokenText = (input: InputDescription): fc.Arbitrary<string> => {
  const rubbish = fc.constantFrom(...RUBBISH);
  if (input.minimum === undefined || input.maximum === undefined) return rubbish;
  const beyond = fc.oneof(
    fc.double({ min: input.maximum * 1.0001 + 1e-6, max: 1e7, noNaN: true }),
    fc.double({ min: -1e7, max: input.minimum - 0.001, noNaN: true }),
  );
  return fc.oneof(
    rubbish,
    beyond.map((n) => n.toFixed(6)),
    fc.nat().map((n) => `${input.minimum}..${n}`),
  );
};

/** The same as a file may give it, with all that YAML and JSON know. */
const brokenValue = (input: InputDescription): fc.Arbitrary<unknown> =>
  fc.oneof(
    brokenText(input),
    fc.constantFrom<unknown>(
      null,
      input.kind === 'flag' ? 2 : true,
      Number.NaN,
      Infinity,
      -Infinity,
      { length: 60 },
      [[60]],
      new Date(0),
      10n ** 30n,
      () => 60,
    ),
    fc.constant({ __proto__: null }),
  );

interface Broken {
  readonly template: Template;
  readonly input: string;
  readonly flag: string;
  readonly value: unknown;
  readonly inputs: Readonly<Record<string, unknown>>;
}

/**
 * An example of a family with one input spoilt; texts are left alone, for any text will do for a
 * name.
 */
const broken = (values: (input: InputDescription) => fc.Arbitrary<unknown>): fc.Arbitrary<Broken> =>
  fc.constantFrom(...TEMPLATES).chain((template) =>
    fc
      .tuple(
        fc.constantFrom(...describeInputs(template).filter((i) => i.kind !== 'text')),
        fc.constantFrom(...template.examples),
      )
      .chain(([input, example]) =>
        values(input).map((value) => ({
          template,
          input: input.name,
          flag: input.flag,
          value,
          inputs: { ...example.inputs, [input.name]: value },
        })),
      ),
  );

describe('broken inputs', () => {
  test('one that is spoilt is named, and no other; never a throw, never a part', () => {
    fc.assert(
      fc.property(broken(brokenValue), ({ template, input, inputs }) => {
        const made = makeParts(template, inputs, UNPLANNED);
        if (made.ok) throw new Error('a part came of it');
        expect([...new Set(made.problems.map((p) => p.input))]).toEqual([input]);
        for (const { given, allowed } of made.problems)
          expect(Math.min(given.length, allowed.length)).toBeGreaterThan(0);
      }),
      { numRuns: fuzzRuns(5000) },
    );
  });

  test('whatever is given under whatever name, there is an answer', () => {
    const anything = fc.dictionary(
      fc.oneof(
        fc.string(),
        fc.constantFrom(
          'legA',
          'leg-b',
          'width',
          'thickness',
          'holesA',
          'name',
          'hand',
          '__proto__',
          'toString',
        ),
      ),
      fc.anything(),
      { noNullPrototype: false },
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...TEMPLATES),
        anything,
        fc.boolean(),
        (template, inputs, whole) => {
          const made = makeParts(
            template,
            whole ? { ...template.examples[0]?.inputs, ...inputs } : inputs,
            UNPLANNED,
          );
          if (made.ok) return;
          expect(made.problems.length).toBeGreaterThan(0);
          for (const p of made.problems) {
            expect(typeof p.input).toBe('string');
            expect(`${p.given}${p.allowed}${p.mend ?? ''}`).not.toMatch(/\n/);
          }
        },
      ),
      { numRuns: fuzzRuns(3000) },
    );
  });

  test('through the command: exit 2, the input named, no file', async () => {
    const samples = fc.sample(broken(brokenText), { numRuns: 36, seed: 2 });
    for (let i = 0; i < samples.length; i += 4) {
      await Promise.all(
        samples.slice(i, i + 4).map(async ({ template, input, flag, value }) => {
          const cwd = tempFolder();
          const example = template.examples[0]?.inputs ?? {};
          const flags = describeInputs(template)
            .filter((d) => example[d.name] !== undefined && d.name !== input)
            .map((d) => `--${d.flag}=${String(example[d.name])}`);
          const ran = await blankwright(
            ['make', template.family, ...flags, `--${flag}=${String(value)}`, '--json'],
            cwd,
          );
          expect([ran.code, ran.err, names(cwd)]).toEqual([2, '', []]);
          expect(json<Problems>(ran).problems.map((p) => p.input)).toEqual([input]);
        }),
      );
    }
  });
});
