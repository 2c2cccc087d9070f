import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { foldedSizeMm } from '../../src/fold/size.ts';
import type { Part } from '../../src/model/part.ts';
import { loadFamily, make } from '../helpers/check-template.ts';
import { examplesIn } from '../helpers/extent.ts';
import { blankSolid, foldBlank, seatOnLargest } from '../helpers/folded-solid.ts';
import { pairsOf } from '../helpers/panel-pairs.ts';
import { loadSolids } from '../helpers/solid.ts';

/** With the neutral line in mid-sheet folding keeps the volume. */
const HALF = { id: 'k', k: 0.5 } as const;

const examples = examplesIn(await loadFamily('strut-brace'));
const PLATE = {
  material: 's235',
  thickness: 3,
  radius: 3,
  boltHole: 10,
  outline: '0,0; 200,0; 200,80; 0,80',
  points: 'A: 60,40; B: 140,40',
};

const CASES = [
  ...examples,
  {
    title: 'return in two, leaning towards each other',
    inputs: {
      ...PLATE,
      crease: '100,10 100,60',
      creaseAngle: 40,
      return: 'bottom',
      returnHeight: 40,
    },
  },
  {
    title: 'return in two, leaning apart',
    inputs: {
      ...PLATE,
      crease: '100,10 100,60',
      creaseAngle: 40,
      creaseDirection: 'down',
      return: 'bottom',
      returnHeight: 40,
    },
  },
  {
    title: 'return in two beside a slanting crease',
    inputs: {
      ...PLATE,
      crease: '80,0 120,80',
      creaseAngle: 20,
      return: 'bottom',
      returnHeight: 30,
    },
  },
  {
    title: 'return from end to end of a tangent',
    inputs: {
      ...PLATE,
      outline: undefined,
      points: 'A: 0,0; B: 120,0; C: 60,90',
      return: 'B-C',
      returnInset: 0,
    },
  },
];

/** Slots take the tangent lines away by which the pieces of the blank are known. */
const withoutSlots = (part: Part): Part => ({
  ...part,
  folds: part.folds.map((fold) => {
    const whole = { ...fold };
    delete whole.slots;
    return whole;
  }),
});

describe.each([...CASES])('$title, folded by the kernel', async ({ inputs }) => {
  const withSolids = await loadSolids();
  const parts = (await make('strut-brace', inputs)).map((p) => p.part as Part);

  it('has the metal of its blank, no panel in another, and the size it is said to have', () => {
    expect(parts.length).toBeGreaterThan(0);
    for (const part of parts) {
      const cut = flatten(part, HALF);
      const flat = flatten(withoutSlots(part), HALF);
      withSolids((solids) => {
        expect(
          solids.volume(blankSolid(solids, cut)) / (cut.areaMm2 * part.thicknessMm),
        ).toBeCloseTo(1, 9);
        const { panels, bends } = foldBlank(solids, part, flat);
        for (const { first, second, joined } of pairsOf(part)) {
          const [a, b] = [panels.get(first), panels.get(second)];
          if (a === undefined || b === undefined)
            throw new Error(`${first} or ${second} is not in the blank`);
          if (joined)
            expect(solids.commonVolume(a, b), `${first} and ${second}`).toBeLessThan(1e-6);
          else
            expect(solids.distance(a, b), `${first} and ${second}`).toBeGreaterThan(
              part.cornerGapMm - 1e-6,
            );
        }
        const volume = flat.areaMm2 * part.thicknessMm;
        const pieces = [...panels.values(), ...bends.values()];
        const body = solids.union(pieces);
        // What the kernel puts together out of separate pieces is nowhere twice in one place.
        expect(solids.volume(body)).toBeCloseTo(
          pieces.reduce((sum, p) => sum + solids.volume(p), 0),
          3,
        );
        // A crease's bend with slanted ends is no surface the kernel has: then its panels alone are
        // measured.
        if (bends.size === flat.bends.length)
          expect(solids.volume(body) / volume).toBeCloseTo(1, 9);
        const size = solids.size(solids.move(body, seatOnLargest(part, flat)));
        foldedSizeMm(part, flat).forEach((v, axis) =>
          expect(v).toBeGreaterThan((size[axis] ?? NaN) - 1e-6),
        );
        const widest = Math.max(
          ...foldedSizeMm(part, flat).map((v, axis) => v - (size[axis] ?? NaN)),
        );
        expect(widest).toBeLessThan(bends.size === flat.bends.length ? 1e-6 : 1);
      });
    }
  });
});
