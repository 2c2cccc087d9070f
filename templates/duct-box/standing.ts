import type { Pose, Standing, Vec3 } from '../../src/template.ts';
import { type Shell, wallAt } from './shell.ts';

/**
 * The duct with x to the right and y up as seen looking into the aperture, z towards whoever looks;
 * the aperture lies at z = 0, with its axis through the origin. What is given is the wall that is
 * the root of its blank.
 */
export const wallsStanding = (shell: Shell, root: number): Standing => {
  const { reachMm, sin, cos } = wallAt(shell, root);
  const out = OUTWARD[root % 4] as Vec3;
  const [ox, oy] = out;
  const pose: Pose = {
    o: [reachMm * ox, reachMm * oy, 0],
    // Seen from inside, its right is a quarter turn on from the way out.
    x: [0 - oy, ox, 0],
    y: [-sin * ox, -sin * oy, -cos],
    z: [-cos * ox, -cos * oy, sin],
  };
  return { poses: [pose] };
};

/** Ways out of the duct at the bottom, right, top and left wall. */
const OUTWARD: readonly Vec3[] = [
  [0, -1, 0],
  [1, 0, 0],
  [0, 1, 0],
  [-1, 0, 0],
];

/** The plate that closes the end, on the ends of the walls. */
export const plateStanding = (shell: Shell, thicknessMm: number): Standing => ({
  poses: [{ o: [0, 0, -shell.depthMm - thicknessMm], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] }],
  turn: 2,
});

/** The ring of the lips, its front in the plane of the aperture. */
export const ringStanding = (thicknessMm: number): Standing => ({
  poses: [{ o: [0, 0, -thicknessMm], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] }],
});
