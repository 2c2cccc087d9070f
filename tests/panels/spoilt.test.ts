import { describe, expect, test } from 'vitest';
import { readInputs } from '../../src/forms/read.ts';
import type { Template } from '../../src/forms/template.ts';
import type { GivenFlangeMap } from '../../src/panels/given.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import panels from '../../templates/panels/index.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/**
 * A part that is built from other figures than those that were asked for folds up exactly, to the
 * wrong thing: the proof has to see each figure of each flange that is its own.
 */

type Values = Parameters<typeof panels.build>[0];

const valuesOf = (inputs: Readonly<Record<string, unknown>>): Values => {
  const read = readInputs(panels, { ...inputs, hand: 'left' });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.values as unknown as Values;
};

/** What stops the example when it is built from these flanges, and asked for as it is. */
const stopsWith = (
  inputs: Readonly<Record<string, unknown>>,
  flanges: readonly GivenFlangeMap[],
): readonly string[] => {
  const values = valuesOf(inputs);
  const wanted = panels.build(values).part?.wishes ?? [];
  const built = panels.build({ ...values, flanges });
  // No flange is turned by more than 180 degrees.
  if (built.part === undefined) return [];
  const wrong = {
    ...panels,
    build: () => ({
      ...built,
      ...(built.part !== undefined && { part: { ...built.part, wishes: wanted } }),
    }),
  } as unknown as Template;
  const made = makeParts(wrong, { ...inputs, hand: 'left' }, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts.flatMap(({ result }) =>
    result.findings.filter(({ severity }) => severity === 'stop').map(({ rule }) => rule),
  );
};

describe.each(panels.examples.filter(({ inputs }) => inputs['base'] !== undefined))(
  '$title',
  ({ inputs }) => {
    const { flanges } = valuesOf(inputs);
    const figures = flanges.flatMap((flange, i) =>
      (['height', 'angle'] as const)
        .filter((key) => flange[key] !== undefined && !Number.isNaN(Number(flange[key])))
        .map((key) => [flange.name, key, i] as const),
    );

    test('as it is, nothing stops it', () => expect(stopsWith(inputs, flanges)).toEqual([]));

    test.each(figures)('%s: another %s is seen', (_, key, i) => {
      const spoilt = [0.4, -0.4].map((by) =>
        stopsWith(
          inputs,
          flanges.map((flange, j) =>
            i === j ? { ...flange, [key]: Number(flange[key]) + by } : flange,
          ),
        ),
      );
      // One way in which it is seen to be wrong is enough; some are none that could be cut.
      expect(spoilt.flat()).toContain('proof-failed');
    });
  },
);
