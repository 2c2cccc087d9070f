import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { describeInputs } from '../../../src/forms/read.ts';
import { flatten } from '../../../src/flatten/flatten.ts';
import { dimensionedBlank } from '../../../src/paper/draw/dimensioned-blank.ts';
import type { FlatPattern } from '../../../src/model/flat.ts';
import { type Datum, usualDatum } from '../../../src/paper/sizes/datum.ts';
import { makeParts } from '../../../src/use/make/make-parts.ts';
import { FAMILIES } from '../../../templates/index.ts';
import { expectRebuilt, fieldFor } from '../../helpers/expect-rebuilt.ts';
import { examplesIn, fuzzRuns } from '../../helpers/extent.ts';
import { offPage, overlapping, paintedOf, struckThrough } from '../../helpers/legible.ts';
import { madeOnce } from '../../helpers/made-once.ts';
import { inputsOf } from '../../helpers/random-inputs.ts';
import { randomPart } from '../../helpers/random-part.ts';
import { UNPLANNED } from '../../helpers/unplanned.ts';

/** The drawing of a blank has all its sizes, and nothing of it lies on anything else. */
const expectDrawn = (
  flat: FlatPattern,
  datum: Datum,
  { place, isChain }: { readonly place: number; readonly isChain: boolean },
): void => {
  const drawn = dimensionedBlank(flat, datum, fieldFor(flat, place), [], { isChain });
  expectRebuilt(drawn);
  const painted = paintedOf(drawn.picture);
  expect([
    ...offPage(drawn.picture, painted),
    ...overlapping(painted),
    ...struckThrough(painted),
  ]).toEqual([]);
};

let turn = 0;

const NAMED = 'all of a blank can be rebuilt from the figures of its drawing, and each can be read';

describe.each([...FAMILIES])('%s', async (family, load) => {
  const template = (await load()).default;

  test.each(examplesIn(template))(`${NAMED}: $title`, ({ inputs }) => {
    const made = madeOnce(template, { ...inputs }, { foldAt: 'service' });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    // Of each blank one field from the datum and another in chains: all fields come to their turn.
    for (const [i, { stopped, result, flat, datum }] of made.parts.entries()) {
      if (stopped) throw new Error(`${result.name} is stopped`);
      for (const isChain of [false, true])
        try {
          expectDrawn(flat, datum, { place: i + turn + (isChain ? 1 : 0), isChain });
        } catch (error) {
          const where = `${result.name}${isChain ? ' in chains' : ''}`;
          throw new Error(`${where}: ${String(error)}`, { cause: error });
        }
      turn += 1;
    }
  });

  // Inputs of panels are a notation of their own: random ones stand in tests/panels.
  if (family === 'panels') return;
  test(`${NAMED}: random inputs`, () => {
    fc.assert(
      fc.property(inputsOf(describeInputs(template)), fc.nat(5), (inputs, i) => {
        const made = makeParts(template, { ...inputs, cornerChamfer: undefined }, UNPLANNED);
        if (!made.ok) return;
        for (const part of made.parts)
          if (!part.stopped) expectDrawn(part.flat, part.datum, { place: i, isChain: i % 2 === 1 });
      }),
      { numRuns: fuzzRuns(60, 20) },
    );
  });
});

test(`${NAMED}: random parts of panels with flanges at odd angles`, () => {
  fc.assert(
    fc.property(randomPart(fc.integer({ min: 5, max: 120 })), fc.nat(5), (part, i) => {
      const flat = flatten(part, { id: 'k', k: 0.42 });
      if (flat.findings.some((f) => f.severity === 'stop') || flat.outline.length === 0) return;
      expectDrawn(flat, usualDatum(flat), { place: i, isChain: i % 2 === 1 });
    }),
    { numRuns: fuzzRuns(200, 10) },
  );
});
