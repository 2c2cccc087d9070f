import type { Pose } from '../geometry/pose.ts';
import type { Vec3 } from '../geometry/vec3.ts';

/**
 * Where a piece of a part list stands in the whole that its pieces are joined to, and how it is
 * joined. All pieces of a list share one right-handed frame, mm; what is meant to be up is z.
 */
export interface Standing {
  /**
   * Poses of its root panel: they take the coordinates of that panel, folded, to those of the
   * whole. One for each of its quantity in one set.
   */
  readonly poses: readonly Pose[];
  /**
   * When it is joined to those that stand already: 1 first, and 1 when left out. Pieces of one turn
   * are joined in the order of the list.
   */
  readonly turn?: number;
  /**
   * Ids of the pieces that it is welded to, where that is not every one that it lies along; none
   * for a lid that is lifted off again.
   */
  readonly weldedTo?: readonly string[];
  /**
   * Its blank, a rectangle along x, is not folded but rolled into a tube whose inside is its upper
   * face, over so many equal flats as the end that it is joined to has. `poses` are those of the
   * flat at its left end.
   */
  readonly rolledOver?: number;
  /**
   * How far round each of those flats goes, degrees, from the left end of the blank on; all alike
   * when left out.
   */
  readonly flatsDeg?: readonly number[];
}

/** The same in the other hand: the mirror image in the plane x = 0 of the whole and of each panel. */
export const mirrorStanding = (standing: Standing): Standing => ({
  ...standing,
  poses: standing.poses.map(({ o, x, y, z }) => ({
    o: flip(o),
    x: back(flip(x)),
    y: flip(y),
    z: flip(z),
  })),
});

const flip = ([x, y, z]: Vec3): Vec3 => [x === 0 ? 0 : -x, y, z];

const back = (v: Vec3): Vec3 => v.map((c) => (c === 0 ? 0 : -c)) as unknown as Vec3;
