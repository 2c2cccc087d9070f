import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { foldedSizeMm } from '../../src/fold/size.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import { inTurns } from '../helpers/extent.ts';
import { blankSolid, foldBlank, seatOnLargest } from '../helpers/folded-solid.ts';
import { pairsOf } from '../helpers/panel-pairs.ts';
import { loadSolids } from '../helpers/solid.ts';
import { TREES } from '../helpers/trees.ts';

/** With the neutral line in mid-sheet folding keeps the volume. */
const HALF = { id: 'k', k: 0.5 } as const;

/**
 * Trees whose bends are all plain rectangles of the blank, so that the kernel can build the whole
 * of the body.
 */
const WHOLE = [
  'fold lines that are not parallel',
  'flange narrower than its edge, in the middle',
  'flange narrower than its edge, at its end',
  'flange that leaves a tab too narrow to keep',
  'flange on a flange on a flange, changing direction',
  'bend of 1 degree',
  'bend of 179 degrees',
  'bend of 179 degrees down',
  'inside radius 0',
  'child wider than its edge',
  'two folds on one line with a gap',
];

const BOXES = ['box', 'box of inside radius 0', 'inside dimensions'];

const HANDS = inTurns(
  TREES.flatMap(({ name, part }) => [
    { name, hand: 'as given', part },
    { name, hand: 'mirrored', part: mirrorPart(part) },
  ]),
  0,
  5,
);

describe.each(HANDS)('$name, $hand, folded by the kernel', async ({ name, part }) => {
  const withSolids = await loadSolids();
  const flat = flatten(part, HALF);

  it('has no panel in another, its gap at every corner, the metal of its blank, and the size it is said to have', () => {
    withSolids((solids) => {
      const { panels, bends } = foldBlank(solids, part, flat);
      for (const { first, second, joined } of pairsOf(part)) {
        const [a, b] = [panels.get(first), panels.get(second)];
        if (a === undefined || b === undefined)
          throw new Error(`${first} or ${second} is not in the blank`);
        const distance = solids.distance(a, b);
        if (!joined)
          expect(distance, `${first} and ${second}`).toBeGreaterThan(part.cornerGapMm - 1e-6);
        else if (distance < 1e-6)
          expect(solids.commonVolume(a, b), `${first} and ${second}`).toBeLessThan(1e-6);
        // Opposite walls stand further apart than that.
        if (BOXES.includes(name) && !joined && distance < 20)
          expect(distance).toBeCloseTo(part.cornerGapMm, 9);
      }

      const volume = flat.areaMm2 * part.thicknessMm;
      expect(solids.volume(blankSolid(solids, flat)) / volume).toBeCloseTo(1, 9);
      const pieces = [...panels.values(), ...bends.values()];
      const body = solids.union(pieces);
      const size = solids.size(solids.move(body, seatOnLargest(part, flat)));
      const said = foldedSizeMm(part, flat);
      expect(bends.size === flat.bends.length).toBe(WHOLE.includes(name));
      if (!WHOLE.includes(name))
        return said.forEach((v, axis) => expect(v).toBeGreaterThan((size[axis] ?? NaN) - 1e-6));
      expect(pieces.reduce((sum, p) => sum + solids.volume(p), 0) / volume).toBeCloseTo(1, 9);
      // Nothing of it is twice in the same place either.
      expect(solids.volume(body) / volume).toBeCloseTo(1, 9);
      expect(said).toEqual(size.map((v) => expect.closeTo(v, 6)));
    });
  });
});

it('every tree that is to be built whole is there', () => {
  expect(TREES.map((t) => t.name)).toEqual(expect.arrayContaining([...WHOLE, ...BOXES]));
});
