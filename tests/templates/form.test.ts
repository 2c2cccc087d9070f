import { describe, expect, test } from 'vitest';
import { anchorsOf } from '../../src/forms/anchors.ts';
import { describeInputs, type InputDescription, readInputs } from '../../src/forms/read.ts';
import type { Template } from '../../src/forms/template.ts';
import { type Condition, inputsIn } from '../../src/forms/when.ts';
import type { Finding } from '../../src/model/finding.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { FAMILIES } from '../../templates/index.ts';
import { examplesIn, inTurns, IS_FULL } from '../helpers/extent.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/** What a form needs beside the inputs themselves: blocks, conditions, and what to point at. */

const TEMPLATES: readonly Template[] = await Promise.all(
  [...FAMILIES.values()].map(async (load) => (await load()).default),
);
type Inputs = Readonly<Record<string, unknown>>;

const conditionsOf = ({ when }: InputDescription): readonly Condition[] =>
  when === undefined ? [] : Array.isArray(when) ? (when as Condition[]) : [when as Condition];

describe.each(TEMPLATES.map((template) => [template.family, template] as const))('%s', (_, t) => {
  const inputs = describeInputs(t);
  const byName = new Map(inputs.map((input) => [input.name, input]));

  test('every input stands in a block, and each block in one place', () => {
    expect(inputs.filter(({ group }) => group === undefined).map(({ name }) => name)).toEqual([]);
    const blocks = inputs.flatMap(({ group }, i) =>
      group === inputs[i - 1]?.group ? [] : [group],
    );
    expect(new Set(blocks).size).toBe(blocks.length);
  });

  test('a condition speaks of inputs that there are, and of words that they may be', () => {
    for (const input of inputs)
      for (const condition of conditionsOf(input))
        for (const [name, wanted] of Object.entries(condition)) {
          const other = byName.get(name);
          expect([input.name, name, other === undefined || name === input.name]).toEqual([
            input.name,
            name,
            false,
          ]);
          if (typeof wanted !== 'string' && other?.choices !== undefined)
            expect(wanted.filter((word) => !other.choices?.includes(String(word)))).toEqual([]);
        }
  });

  /** What is cut, drawn and reported; nothing of a part that is stopped. */
  const outcome = (given: Inputs): string | undefined => {
    const made = makeParts(t, { ...given, name: 'p' }, { foldAt: 'service' });
    if (!made.ok || made.parts.some(({ stopped }) => stopped)) return undefined;
    // A part without bends still says by which rule it would have gone.
    return JSON.stringify([made.parts.map((part) => part.files()), made.reports]).replaceAll(
      /bends by [a-z\d:.]+/g,
      '',
    );
  };
  /** Another value of an input than it has by default. */
  const other = ({
    kind,
    choices = [],
    default: usual,
    example,
    minimum = 0,
    maximum = 0,
  }: InputDescription): unknown => {
    if (kind === 'choice') return choices.find((c) => c !== usual);
    if (kind === 'flag') return usual !== true;
    if (kind !== 'length' && kind !== 'angle' && kind !== 'count') return example;
    const from = Number(usual ?? example);
    return from * 1.1 <= maximum && from !== 0
      ? Math.ceil(from * 1.1)
      : minimum === 0
        ? 1
        : minimum;
  };
  /** Values of other inputs under which a condition is not met. */
  const unmet = (conditions: readonly Condition[]): Inputs =>
    Object.fromEntries(
      conditions.map((condition) => {
        const [name, wanted] = Object.entries(condition).at(-1) as [string, Condition[string]];
        if (wanted === 'given') return [name, undefined];
        if (wanted === 'more than 0') return [name, 0];
        const known = byName.get(name);
        if (known?.kind === 'flag') return [name, false];
        return [name, known?.choices?.find((word) => !wanted.includes(word)) ?? 3];
      }),
    );
  const conditional = inputs.filter(({ when }) => when !== undefined);

  test.each(inTurns(conditional, 0, 2).map((input) => [input.name, input] as const))(
    '%s changes nothing where its condition is not met, or is refused',
    (name, input) => {
      let looked = 0;
      for (const { inputs: given } of t.examples) {
        if (looked > (IS_FULL ? 1 : 0)) break;
        const without: Inputs = {
          ...given,
          ...unmet(conditionsOf(input)),
          ...(!input.required && { [name]: undefined }),
        };
        const before = outcome(without);
        if (before === undefined) continue;
        const after = outcome({ ...without, [name]: other(input) });
        if (after !== undefined) {
          // A note may say that it has no meaning; nothing else may differ.
          expect(after).toBe(before);
        }
        looked += 1;
      }
      expect(looked).toBeGreaterThan(0);
    },
  );

  test.each(conditional.filter(({ required }) => !required).map((i) => [i.name, i] as const))(
    '%s is told where its condition is not met',
    (name, input) => {
      const told = (given: Inputs): readonly Finding[] | undefined => {
        const read = readInputs(t, given);
        return read.ok
          ? read.findings.filter(({ inputs: about }) => about?.includes(name))
          : undefined;
      };
      let looked = 0;
      for (const { inputs: given } of t.examples) {
        const without = { ...given, ...unmet(conditionsOf(input)), [name]: undefined };
        // Not at all, and as it is when it is left out: forms send every input.
        expect(told(without) ?? []).toEqual([]);
        if (input.default !== undefined)
          expect(told({ ...without, [name]: input.default }) ?? []).toEqual([]);
        for (const key of [input.name, input.flag]) {
          const found = told({ ...without, [key]: other(input) });
          if (found === undefined) continue;
          expect(found).toHaveLength(1);
          const [{ rule, severity, message, mends }] = found as [Finding];
          expect([rule, severity, mends]).toEqual([
            'input-unused',
            'note',
            [{ input: name, value: null }],
          ]);
          for (const word of [name, String(other(input)), ...inputsIn(input.when ?? [])])
            expect(message).toContain(word);
          looked += 1;
        }
      }
      expect(looked).toBeGreaterThan(0);
    },
  );

  test('no example gives an input without a meaning', () => {
    for (const { title, inputs: given } of t.examples) {
      const read = readInputs(t, given);
      expect([title, read.ok && read.findings.map(({ message }) => message)]).toEqual([title, []]);
    }
  });

  test('every length and angle says what it measures, by names that the part has', () => {
    const anchors = t.examples.map(({ inputs: given }) => anchorsOf(t, given));
    const lengths = inputs.filter(({ kind }) => ['length', 'angle', 'thickness'].includes(kind));
    const without = lengths.filter(({ name }) => !anchors.some((a) => a[name] !== undefined));
    expect(without.map(({ name }) => name)).toEqual([]);
    for (const [i, { inputs: given }] of t.examples.entries()) {
      const made = madeOnce(t, given, UNPLANNED);
      const panels = made.ok
        ? made.parts.flatMap(({ part }) => part?.panels.map(({ id }) => id) ?? [])
        : [];
      for (const anchor of Object.values(anchors[i] ?? {}).flat()) {
        const named = [
          ...('panel' in anchor && anchor.panel !== undefined ? [anchor.panel] : []),
          ...(anchor.kind === 'angle' ? anchor.panels : []),
          ...(anchor.kind === 'length' ? anchor.between.map(({ panel }) => panel) : []),
        ];
        expect(named.filter((panel) => !panels.includes(panel))).toEqual([]);
      }
    }
  });

  test('a hole that an input gave is what it measures once', () => {
    for (const { inputs: given } of examplesIn(t))
      for (const [name, found] of Object.entries(anchorsOf(t, given))) {
        const cut = found.filter(({ kind }) => kind === 'cut-out').map((a) => JSON.stringify(a));
        expect([name, cut.length]).toEqual([name, new Set(cut).size]);
      }
  });

  test('what is measured as another input is, or on the panel that one names, has that input', () => {
    for (const { anchor } of inputs)
      if (anchor?.kind === 'as' || anchor?.kind === 'panel of')
        expect(byName.has(anchor.input)).toBe(true);
    expect(
      inputs
        .flatMap(({ when }) => (when === undefined ? [] : inputsIn(when)))
        .every((n) => byName.has(n)),
    ).toBe(true);
  });
});
