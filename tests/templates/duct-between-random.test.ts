import fc from 'fast-check';
import { expect, test } from 'vitest';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { askedDuct } from '../helpers/random-ducts.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

test('a duct of random inputs is whole or says what stops it, and the other hand measures the same', async () => {
  const family = await loadFamily('duct-between');
  let whole = 0;
  fc.assert(
    fc.property(askedDuct, (inputs) => {
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
