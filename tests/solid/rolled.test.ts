import { describe, expect, test } from 'vitest';
import { polygon, rectangle } from '../../src/geometry/loop.ts';
import type { Pose } from '../../src/geometry/pose.ts';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { meshVolume } from '../helpers/rolled-mesh.ts';
import { loadSolids, type Solid, type Solids } from '../helpers/solid.ts';

/**
 * Walls that are rolled, as a solid kernel has them round, of the dimensions that were given: the
 * metal of their blanks is that of the wall, for the middle of the sheet keeps its length. Seams are
 * closed here.
 */
const T = 2;
const SHEET = { thickness: T, material: 's235', cornerGap: 0 };

/** The metal of all blanks, mm3. */
const metalOf = (parts: readonly MadePart[]): number =>
  parts.reduce((sum, part) => {
    expect(rulesOf(part, 'stop')).toEqual([]);
    return sum + part.result.quantity * T * (part.flat?.areaMm2 ?? NaN);
  }, 0);

const meshesOf = (parts: readonly MadePart[]): number =>
  parts.reduce((sum, part) => sum + part.result.quantity * meshVolume(part), 0);

/** The blanks have the kernel's metal but for the arcs that they are cut by, the mesh but for its chords. */
const expectMetal = (parts: readonly MadePart[], volume: number): void => {
  expect(metalOf(parts) / volume).toBeCloseTo(1, 5);
  expect(meshesOf(parts) / volume).toBeCloseTo(1, 3);
};

const UP: Vec3 = [0, 0, 1];

/** A tube along z, from z = -half to half. */
const tube = (solids: Solids, middleMm: number, half: number): Solid =>
  solids.cut(solids.cylinder([0, 0, -half], UP, middleMm + T / 2, 2 * half), [
    solids.cylinder([0, 0, -half - 1], UP, middleMm - T / 2, 2 * half + 2),
  ]);

/** All that lies beyond a plane through the middle of a bend at x = -centre, which rises towards x. */
const beyond = (solids: Solids, centreMm: number, deg: number, far: number): Solid => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  const pose: Pose = { o: [-centreMm, 0, 0], x: [c, 0, s], y: [0, 1, 0], z: [-s, 0, c] };
  const block = solids.prism(rectangle(-far, -far, 2 * far, 2 * far), far);
  return solids.move(block, deg < 0 ? downward(pose) : pose);
};

const downward = ({ o, x, y, z }: Pose): Pose => {
  const back = (v: Vec3): Vec3 => [-v[0], -v[1], -v[2]];
  return { o, x, y: back(y), z: back(z) };
};

describe('by a solid kernel', async () => {
  const withSolids = await loadSolids();

  test.each([
    ['inside', 1, 201],
    ['outside', 2, 199],
  ] as const)('a shell of 400 %s in %i pieces', async (diameterOf, pieces, middleMm) => {
    const inputs = { ...SHEET, diameter: 400, diameterOf, length: 250, pieces };
    const parts = await make('shell', inputs);
    withSolids((solids) => expectMetal(parts, solids.volume(tube(solids, middleMm, 125))));
  });

  test.each([
    [90, 5, 'staggered', 1],
    [120, 4, 'throat', 2],
    [35, 2, 'back', 3],
  ] as const)(
    'an elbow of %f degrees in %i segments',
    async (angle, segments, seamPlace, pieces) => {
      const inputs = { ...SHEET, diameter: 160, diameterOf: 'middle', centreRadius: 220, stub: 20 };
      const parts = await make('elbow', { ...inputs, angle, segments, seamPlace, pieces });
      const backset = angle / (2 * (segments - 1));
      withSolids((solids) => {
        const top = beyond(solids, 220, backset, 2000);
        const end = solids.cut(tube(solids, 80, 400), [
          top,
          solids.prism(rectangle(-500, -500, 1000, 1000), -500),
        ]);
        const between = solids.cut(tube(solids, 80, 400), [
          top,
          beyond(solids, 220, -backset, 2000),
        ]);
        // A stub goes straight on from where the bend begins.
        const stub = solids.volume(tube(solids, 80, 10));
        const one = { end: solids.volume(end) + stub, segment: solids.volume(between) };
        expectMetal(parts, 2 * one.end + (segments - 2) * one.segment);
        for (const kind of ['end', 'segment'] as const) {
          const own = parts.filter(({ result }) => result.piece?.startsWith(kind) === true);
          if (own.length === 0) continue;
          const count = own.reduce((sum, { result }) => sum + result.quantity, 0) / pieces;
          expect(metalOf(own) / count / one[kind]).toBeCloseTo(1, 5);
        }
      });
    },
  );

  test.each([
    [300, 180, 200],
    [500, 120, 60],
  ])('a right cone of %f and %f, %f high', async (largeDiameter, smallDiameter, height) => {
    const inputs = { ...SHEET, largeDiameter, smallDiameter, height, diameterOf: 'middle' };
    const part = await makeOne('cone', inputs);
    // Its section: the slant on the middle of the sheet, half the sheet to either side, square to it.
    const [large, small] = [largeDiameter / 2, smallDiameter / 2];
    const slant = Math.hypot(large - small, height);
    const [u, w] = [(height / slant) * (T / 2), ((large - small) / slant) * (T / 2)];
    withSolids((solids) => {
      const wall = solids.ring(
        polygon([large - u, -w], [large + u, w], [small + u, height + w], [small - u, height - w]),
      );
      expectMetal([part], solids.volume(wall));
    });
  });

  test.each([
    [300, 180, 200, 90, 1],
    [240, 140, 120, 150, 3],
  ])(
    'an oblique cone of %f and %f, %f high, %f aside, in %i pieces',
    async (largeDiameter, smallDiameter, height, offset, pieces) => {
      const inputs = { ...SHEET, largeDiameter, smallDiameter, height, offset, pieces };
      const parts = await make('cone', { ...inputs, diameterOf: 'middle', seamAt: 70 });
      const times = largeDiameter / (largeDiameter - smallDiameter);
      const apex: Vec3 = [offset * times, 0, height * times];
      const radius = largeDiameter / 2;
      withSolids((solids) => {
        const half = (side: number): number =>
          solids.area(
            solids.cone(apex, [
              [radius, 0, 0],
              [0, side * radius, 0],
              [-radius, 0, 0],
            ]),
          );
        // The cone above the small end is the whole one, on a smaller scale.
        const share = 1 - (smallDiameter / largeDiameter) ** 2;
        expectMetal(parts, T * share * (half(1) + half(-1)));
      });
    },
  );
});
