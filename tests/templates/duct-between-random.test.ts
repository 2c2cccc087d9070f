import fc from 'fast-check';
import { expect, test } from 'vitest';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/** What may well be asked of one another. */
const asked = fc.record({
  near: fc.constantFrom(
    '180 x 120 r12',
    '160 to 110 x 90',
    'oval 180 x 80',
    'round 150',
    '0,0; 180,0; 170,120 r15; 20,130',
    '0,0; 180,0; 180,60; 80,60; 80,150; 0,150 r20',
  ),
  far: fc.constantFrom(
    'round 100',
    'round 160',
    '120 x 70 r10',
    'oval 60 x 110',
    '0,0; 90,10; 80,90 r8; 5,80',
  ),
  length: fc.integer({ min: 60, max: 300 }),
  offsetRight: fc.integer({ min: -120, max: 120 }),
  offsetUp: fc.integer({ min: -120, max: 120 }),
  faceRight: fc.integer({ min: -40, max: 40 }),
  faceUp: fc.integer({ min: -30, max: 30 }),
  farTurn: fc.integer({ min: -90, max: 90 }),
  walls: fc.constantFrom('smooth', 'few-folds'),
  roundEdge: fc.constantFrom('chords', 'circumference'),
  blanks: fc.constantFrom('auto', 'one', 'two', 'three', 'four', 'apart'),
  seamSide: fc.constantFrom('top', 'right', 'bottom', 'left'),
  seamPlace: fc.constantFrom('flat', 'fold'),
  nearLip: fc.constantFrom(0, 20),
  farLip: fc.constantFrom(0, 18),
  lipSides: fc.constantFrom('all', 'all', 'left-right', 'top'),
  lipTo: fc.constantFrom('out', 'in'),
  lipHole: fc.constantFrom(undefined, 5),
  measure: fc.constantFrom('outside', 'inside'),
  thickness: fc.constantFrom(0.8, 1.5),
});

test('a duct of random inputs is whole or says what stops it, and the other hand measures the same', async () => {
  const family = await loadFamily('duct-between');
  let whole = 0;
  fc.assert(
    fc.property(asked, (inputs) => {
      const made = makeParts(family, { ...inputs, material: 'dc01', hand: 'both' }, UNPLANNED);
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      // What can be cut folds to what was asked, by the family's own word too.
      const unproved = made.parts.flatMap(({ result }) =>
        result.findings.filter((f) => f.rule === 'proof-failed').map((f) => f.message),
      );
      expect(unproved).toEqual([]);
      const [lefts, rights] = (['left', 'right'] as const).map((hand) =>
        made.parts.filter((p) => p.result.hand === hand),
      );
      expect(rights?.map((p) => [p.result.piece, p.stopped])).toEqual(
        lefts?.map((p) => [p.result.piece, p.stopped]),
      );
      if (made.parts.some((p) => p.stopped)) return;
      whole += 1;
      for (const [i, left] of lefts?.entries() ?? []) {
        const [a, b] = [left.result, rights?.[i]?.result];
        expect(b?.blank?.areaMm2).toBeCloseTo(a.blank?.areaMm2 ?? 0, 4);
        expect(b?.blank?.cutLengthMm).toBeCloseTo(a.blank?.cutLengthMm ?? 0, 4);
        for (const [k, mm] of (a.folded?.sizeMm ?? []).entries())
          expect(b?.folded?.sizeMm[k]).toBeCloseTo(mm, 5);
      }
    }),
    { numRuns: fuzzRuns(36, 12) },
  );
  expect(whole).toBeGreaterThan(shareOf(4));
});
