import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldedSizeMm } from '../../src/fold/size.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import template from '../../templates/heel-rest/index.ts';
import { examplesIn, fixedRuns, shareOf } from '../helpers/extent.ts';
import { blankSolid, foldBlank, seatOnLargest } from '../helpers/folded-solid.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { pairsOf } from '../helpers/panel-pairs.ts';
import { loadSolids, type Solids } from '../helpers/solid.ts';

/** With the neutral line in mid-sheet folding keeps the volume. */
const made = (inputs: Readonly<Record<string, unknown>>): readonly MadePart[] => {
  const result = madeOnce(
    template,
    { ...inputs, rule: 'k:0.5' },
    { cutOnly: false, dxfVersion: 'r2000' },
  );
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.parts;
};

/**
 * No panel in another, the gap kept wherever two that no fold joins meet, and as much metal as the
 * blank has.
 */
function expectSound(solids: Solids, { part, flat }: MadePart, said: string): void {
  if (part === undefined || flat === undefined) throw new Error('no flat pattern');
  const { panels, bends } = foldBlank(solids, part, flat);
  for (const { first, second, joined } of pairsOf(part)) {
    const [a, b] = [panels.get(first), panels.get(second)];
    if (a === undefined || b === undefined)
      throw new Error(`${first} or ${second} is not in the blank`);
    const distance = solids.distance(a, b);
    // The leaves of a stop folded hard, and flats joined by a bend, may touch.
    if (joined)
      expect(
        distance < 1e-6 ? solids.commonVolume(a, b) : 0,
        `${first} and ${second}: ${said}`,
      ).toBeLessThan(1e-6);
    else
      expect(distance, `${first} and ${second}: ${said}`).toBeGreaterThan(part.cornerGapMm - 1e-6);
  }
  const volume = flat.areaMm2 * part.thicknessMm;
  expect(solids.volume(blankSolid(solids, flat)) / volume).toBeCloseTo(1, 9);
  const body = solids.union([...panels.values(), ...bends.values()]);
  const size = solids.size(solids.move(body, seatOnLargest(part, flat)));
  const told = foldedSizeMm(part, flat);
  if (bends.size === flat.bends.length) {
    expect(solids.volume(body) / volume, said).toBeCloseTo(1, 9);
    expect(told, said).toEqual(size.map((v) => expect.closeTo(v, 6)));
  } else told.forEach((v, axis) => expect(v, said).toBeGreaterThan((size[axis] ?? NaN) - 1e-6));
}

describe.each(examplesIn(template).map(({ title, inputs }) => ({ title, inputs })))(
  '$title',
  async ({ inputs }) => {
    const withSolids = await loadSolids();
    it('is sound when folded by the kernel', () => {
      for (const part of made(inputs))
        withSolids((solids) => expectSound(solids, part, part.result.name));
    });
    it('without cheeks is one body of the volume of its blank and the size it is said to have', () => {
      for (const part of made({ ...inputs, cheeks: 'none' })) {
        expect(part.stopped).toBe(false);
        withSolids((solids) => {
          expect(
            foldBlank(
              solids,
              part.part as NonNullable<typeof part.part>,
              part.flat as NonNullable<typeof part.flat>,
            ).bends.size,
          ).toBe(part.flat?.bends.length);
          expectSound(solids, part, part.result.name);
        });
      }
    });
  },
);

it('random ones are sound, and their cheeks stand close to the riser', async () => {
  const withSolids = await loadSolids();
  const inputs = fc.record({
    floorAngle: fc.integer({ min: -30, max: 30 }),
    treadAngle: fc.integer({ min: -20, max: 20 }),
    width: fc.constant(90),
    treadDepth: fc.integer({ min: 70, max: 160 }),
    riserAngle: fc.oneof(fc.constant(90), fc.integer({ min: 60, max: 120 })),
    lift: fc.oneof(fc.constant(0), fc.integer({ min: 25, max: 50 })),
    lipHeight: fc.constantFrom(0, 22),
    lipPlace: fc.constantFrom('low', 'front', 'rear'),
    flangeFront: fc.constantFrom(0, 25),
    flangeRear: fc.constantFrom(0, 25),
    cheeks: fc.constantFrom('both', 'both', 'left'),
    cheekFlange: fc.constantFrom(0, 22),
    measure: fc.constantFrom('outside', 'inside'),
    thickness: fc.constantFrom(1, 2, 3),
    radius: fc.constantFrom(0, 1, 3),
    hemRadius: fc.constantFrom(0.5, 2),
    cornerGap: fc.constantFrom(0.5, 1),
  });
  let whole = 0;
  for (const given of fc.sample(inputs, { numRuns: fixedRuns(24), seed: 5 })) {
    const [part] = made(given);
    if (part === undefined || part.stopped) continue;
    whole++;
    withSolids((solids) => {
      expectSound(solids, part, JSON.stringify(given));
      if (given.riserAngle < 90 || part.part === undefined || part.flat === undefined) return;
      // Where the cheek need not keep clear of its neighbour in the flat, the seam is as wide as
      // asked.
      const { panels } = foldBlank(solids, part.part, part.flat);
      const [cheek, riser] = [
        panels.get('left cheek'),
        panels.get(`${given.treadAngle >= given.floorAngle ? 'front' : 'rear'} riser`),
      ];
      if (cheek === undefined || riser === undefined) throw new Error('no cheek or no riser');
      expect(solids.distance(cheek, riser), JSON.stringify(given)).toBeLessThan(
        given.cornerGap + 1e-6,
      );
    });
  }
  expect(whole).toBeGreaterThan(shareOf(12));
});

it('reach as far along the floor as the report says', async () => {
  const withSolids = await loadSolids();
  const inputs = fc.record({
    floorAngle: fc.integer({ min: -30, max: 30 }),
    treadAngle: fc.integer({ min: -20, max: 20 }),
    width: fc.constant(40),
    treadDepth: fc.integer({ min: 70, max: 160 }),
    riserAngle: fc.integer({ min: 60, max: 120 }),
    lift: fc.constantFrom(0, 30),
    lipHeight: fc.constantFrom(0, 22),
    lipPlace: fc.constantFrom('low', 'front', 'rear'),
    hem: fc.constantFrom(0, 9),
    hemRadius: fc.constantFrom(0.5, 2),
    flangeFront: fc.constantFrom(0, 25),
    flangeRear: fc.constantFrom(0, 25),
    measure: fc.constantFrom('outside', 'inside'),
    thickness: fc.constantFrom(1, 3),
    radius: fc.constantFrom(0, 3),
    cheeks: fc.constant('none'),
  });
  let whole = 0;
  for (const given of fc.sample(inputs, { numRuns: fixedRuns(24), seed: 3 })) {
    const result = madeOnce(
      template,
      { ...given, rule: 'k:0.5' },
      { cutOnly: false, dxfVersion: 'r2000' },
    );
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    const [{ part, flat, stopped } = { stopped: true }] = result.parts;
    if (stopped || part === undefined || flat === undefined) continue;
    whole++;
    withSolids((solids) => {
      const { panels, bends } = foldBlank(solids, part, flat);
      const turn = ((given.floorAngle - given.treadAngle) * Math.PI) / 180;
      const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
      const onFloor = solids.move(solids.union([...panels.values(), ...bends.values()]), {
        o: [0, 0, 0],
        x: [1, 0, 0],
        y: [0, cos, -sin],
        z: [0, sin, cos],
      });
      const told = result.reports[0]?.figures.find(
        (f) => f.name === 'length along the floor',
      )?.value;
      expect(told, JSON.stringify(given)).toBeCloseTo(solids.size(onFloor)[1], 6);
    });
  }
  expect(whole).toBeGreaterThan(shareOf(15));
});
