import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldedSizeMm } from '../../src/fold/size.ts';
import { AT_HOME, type Pose } from '../../src/geometry/pose.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { loadFamily, make } from '../helpers/check-template.ts';
import { type AskedDuct, ductPoses } from '../helpers/duct-box.ts';
import { blankSolid, foldBlank, seatOnLargest } from '../helpers/folded-solid.ts';
import { examplesIn, fuzzRuns, shareOf } from '../helpers/extent.ts';
import { loadSolids, type Solid, type Solids } from '../helpers/solid.ts';

const WALLS = ['bottom', 'right', 'top', 'left'];
const CORNERS = ['bottom-right', 'top-right', 'top-left', 'bottom-left'];

/** Which corners are welded, by the names of the walls beside them. */
const seamsOf = (blanks: string, seam: string): string[] => {
  const j = CORNERS.indexOf(seam);
  return (
    {
      whole: [seam],
      halves: [seam, CORNERS[(j + 2) % 4] as string],
      'top-off': ['top-right', 'top-left'],
    }[blanks] ?? []
  );
};

/** All panels of a duct where they stand when its blanks are folded and put together. */
const standing = (
  solids: Solids,
  parts: readonly MadePart[],
  asked: AskedDuct,
): Map<string, Solid> => {
  const found = new Map<string, Solid>();
  for (const { part, flat } of parts) {
    if (part === undefined || flat === undefined) throw new Error('no flat pattern');
    const { panels } = foldBlank(solids, part, flat);
    const isPlate = part.root === 'end plate';
    // The plate is drawn as seen looking into the aperture.
    const plate: Pose = { ...AT_HOME, o: [0, 0, -asked.depth - part.thicknessMm] };
    const seat = isPlate ? plate : (ductPoses(part, flat, asked).get(part.root) as Pose);
    for (const [id, solid] of panels) found.set(id, solids.move(solid, seat));
  }
  return found;
};

/** Pairs of panels with a fold between them. */
const joinedOf = (parts: readonly MadePart[]): Set<string> =>
  new Set(
    parts.flatMap(({ part }) =>
      (part?.folds ?? []).map((f) => `${f.parent.panel}/${f.child.panel}`),
    ),
  );

const expectClear = (
  solids: Solids,
  panels: ReadonlyMap<string, Solid>,
  seams: readonly string[],
  gap: number,
  joined: ReadonlySet<string>,
  what: string,
): void => {
  const all = [...panels];
  for (const [i, [first, a]] of all.entries()) {
    for (const [second, b] of all.slice(i + 1)) {
      expect(solids.commonVolume(a, b), `${first} in ${second} of ${what}`).toBeLessThan(1e-6);
      // The plate lies on the walls.
      const meet =
        joined.has(`${first}/${second}`) ||
        joined.has(`${second}/${first}`) ||
        first === 'end plate' ||
        second === 'end plate';
      if (!meet)
        expect(solids.distance(a, b), `${first} to ${second} of ${what}`).toBeGreaterThan(
          gap - 1e-6,
        );
    }
  }
  for (const seam of seams) {
    const j = CORNERS.indexOf(seam);
    const [a, b] = [panels.get(WALLS[j] as string), panels.get(WALLS[(j + 1) % 4] as string)];
    if (a === undefined || b === undefined) throw new Error('a wall is missing');
    expect(solids.distance(a, b), `${seam} of ${what}`).toBeCloseTo(gap, 6);
  }
};

describe('duct-box put together by the kernel', async () => {
  const withSolids = await loadSolids();
  const template = await loadFamily('duct-box');

  it.each(examplesIn(template).map((e) => [e.title, e.inputs] as const))(
    '%s: metal of the blank, size as said',
    async (_, inputs) => {
      for (const { part, flat } of await make('duct-box', { ...inputs, rule: 'k:0.5' })) {
        if (part === undefined || flat === undefined) throw new Error('no flat pattern');
        withSolids((solids) => {
          expect(
            solids.volume(blankSolid(solids, flat)) / (flat.areaMm2 * part.thicknessMm),
          ).toBeCloseTo(1, 9);
          const { panels } = foldBlank(solids, part, flat);
          const size = solids.size(
            solids.move(solids.union([...panels.values()]), seatOnLargest(part, flat)),
          );
          // The bends between the panels, slanted as they are, may reach further than they do; not by
          // more than a bend.
          const bend =
            flat.bends.length === 0
              ? 0
              : part.thicknessMm + Math.max(...flat.bends.map((b) => b.insideRadiusMm));
          foldedSizeMm(part, flat).forEach((said, axis) => {
            expect(said).toBeGreaterThan((size[axis] ?? NaN) - 1e-6);
            expect(said).toBeLessThan((size[axis] ?? NaN) + 2 * bend + 1e-6);
          });
          // With the neutral line in mid-sheet the panels hold all of the blank but its bend zones.
          const zones = flat.bends.reduce(
            (sum, b) =>
              sum +
              signedArea(
                [...b.parentTangent, ...b.childTangent.toReversed()].map(([x, y]) => ({
                  x,
                  y,
                  bulge: 0,
                })),
              ),
            0,
          );
          const metal =
            [...panels.values()].reduce((sum, p) => sum + solids.volume(p), 0) / part.thicknessMm;
          expect(metal).toBeLessThan(flat.areaMm2 + 1e-6);
          expect(metal).toBeGreaterThan(flat.areaMm2 - Math.abs(zones) - 1e-6);
        });
      }
    },
  );

  it('walls, lips and plate stand clear of each other, and the seams have their gap', async () => {
    const mm = (min: number, max: number) => fc.integer({ min, max });
    const cases = fc.record({
      width: mm(100, 260),
      height: mm(100, 260),
      endWidth: mm(80, 260),
      endHeight: mm(80, 260),
      offsetRight: mm(-70, 70),
      offsetUp: mm(-70, 70),
      length: mm(80, 300),
      lip: fc.constantFrom(0, 18, 25),
      end: fc.constantFrom('open', 'lip-in', 'lip-out', 'stub', 'stub'),
      plateOn: fc.constantFrom('none', 'bottom', 'right', 'top', 'left'),
      blanks: fc.constantFrom('whole', 'halves', 'top-off'),
      seam: fc.constantFrom(...CORNERS),
      thickness: fc.constantFrom(1, 1.5, 2),
      radius: fc.constantFrom(1, 2, 3),
      cornerGap: fc.constantFrom(0.2, 0.5, 2),
    });
    let made = 0;
    for (const given of fc.sample(cases, { numRuns: fuzzRuns(40, 20), seed: 3 })) {
      const { length, ...rest } = given;
      const parts = await make('duct-box', {
        ...given,
        endLip: 18,
        stub: 40,
        material: 's235',
        rule: 'k:0.5',
      });
      if (parts.some((p) => p.stopped)) continue;
      made++;
      const asked = {
        ...rest,
        depth: length - (given.end === 'stub' && given.plateOn === 'none' ? given.thickness : 0),
      };
      withSolids((solids) =>
        expectClear(
          solids,
          standing(solids, parts, asked),
          seamsOf(given.blanks, given.seam),
          given.cornerGap,
          joinedOf(parts),
          JSON.stringify(given),
        ),
      );
    }
    expect(made).toBeGreaterThan(shareOf(25));
  });
});
