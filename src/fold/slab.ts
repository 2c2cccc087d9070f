import type { Box3 } from '../geometry/convex-solid.ts';
import { withChords } from '../geometry/chords.ts';
import { loopExtents } from '../geometry/extents.ts';
import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import { type Piece, piecesOf } from '../geometry/piece.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import { length3, sub3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatPanel } from '../model/flat.ts';
import { PANEL_CHORD_MM } from '../geometry/tolerance.ts';

/** A panel as a body in its own coordinates, arcs as chords, and the box round it. */
export interface Slab extends Box3 {
  readonly id: string;
  readonly outline: Loop;
  readonly pieces: readonly Piece[];
  readonly thicknessMm: number;
}

export const slabOf = ({ id, region }: FlatPanel, thicknessMm: number): Slab => {
  const { minX, minY, maxX, maxY } = loopExtents(region) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const outline = withChords(region, PANEL_CHORD_MM);
  return {
    id,
    outline,
    pieces: piecesOf(outline),
    thicknessMm,
    low: [minX, minY, 0],
    high: [maxX, maxY, thicknessMm],
  };
};

/**
 * The point of a panel that is nearest to a given one; the given point itself when it lies in the
 * panel. Holes count as metal.
 */
export const nearestOf = (slab: Slab, [x, y, z]: Vec3): Vec3 => {
  const [u, v] = isInside(slab.outline, [x, y]) ? [x, y] : nearestOnOutline(slab, [x, y]);
  return [u, v, Math.min(slab.thicknessMm, Math.max(0, z))];
};

export const distanceToSlab = (slab: Slab, p: Vec3): number => length3(sub3(nearestOf(slab, p), p));

/**
 * Whether a point lies no farther than `mm` from a panel; the box rules out most points quickly.
 */
export const isWithin = (slab: Slab, p: Vec3, mm: number): boolean =>
  ([2, 0, 1] as const).every((i) => p[i] >= slab.low[i] - mm && p[i] <= slab.high[i] + mm) &&
  distanceToSlab(slab, p) <= mm;

/**
 * The nearest point on the outline. It uses plain numbers, because it is called for many points.
 */
const nearestOnOutline = ({ pieces }: Slab, [x, y]: Vec2): Vec2 => {
  let [bestX, bestY, least] = [x, y, Infinity];
  for (const { from, to } of pieces) {
    const [wx, wy] = [to[0] - from[0], to[1] - from[1]];
    const share = Math.min(
      1,
      Math.max(0, ((x - from[0]) * wx + (y - from[1]) * wy) / (wx * wx + wy * wy)),
    );
    const [u, v] = [from[0] + share * wx, from[1] + share * wy];
    const far = (u - x) ** 2 + (v - y) ** 2;
    if (far < least) [bestX, bestY, least] = [u, v, far];
  }
  return [bestX, bestY];
};
