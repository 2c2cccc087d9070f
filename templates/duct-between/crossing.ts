import { cross3, dot3, NOISE_MM, sub3 } from '../../src/template.ts';
import type { Vec3 } from '../../src/template.ts';
import type { Facet } from '../duct-transition/surface.ts';

type Triangle = readonly [Vec3, Vec3, Vec3];

/** The first place where two walls run through each other; neighbours meet along their fold. */
export const firstCrossing = (ring: readonly Facet[]): Vec3 | undefined => {
  const walls = ring.map(({ points }) => ({ triangles: fan(points), box: boxOf(points) }));
  for (const [i, a] of walls.entries())
    for (const b of walls.slice(i + 1)) {
      if (!boxesMeet(a.box, b.box)) continue;
      for (const p of a.triangles)
        for (const q of b.triangles) {
          const found = pierced(p, q) ?? pierced(q, p);
          if (found !== undefined) return found;
        }
    }
  return undefined;
};

const fan = (points: readonly Vec3[]): Triangle[] =>
  points.slice(2).map((p, i): Triangle => [points[0] as Vec3, points[i + 1] as Vec3, p]);

type Box = readonly (readonly [number, number])[];

const boxOf = (points: readonly Vec3[]): Box =>
  [0, 1, 2].map((k) => {
    const along = points.map((p) => p[k] as number);
    return [Math.min(...along), Math.max(...along)] as const;
  });

const boxesMeet = (a: Box, b: Box): boolean =>
  a.every(([low, high], k) => {
    const [from, to] = b[k] as readonly [number, number];
    return low <= to && from <= high;
  });

/**
 * Where an edge of the first triangle goes through the second, well within both (signs of volumes of
 * tetrahedra). Edges and corners that touch, as those of neighbours do, do not go through.
 */
const pierced = (edges: Triangle, [a, b, c]: Triangle): Vec3 | undefined => {
  const normal = cross3(sub3(b, a), sub3(c, a));
  const size = Math.sqrt(dot3(normal, normal));
  for (const [i, p] of edges.entries()) {
    const q = edges[(i + 1) % 3] as Vec3;
    const [above, below] = [dot3(normal, sub3(p, a)) / size, dot3(normal, sub3(q, a)) / size];
    if (Math.min(Math.abs(above), Math.abs(below)) < CLEAR_MM || above * below > 0) continue;
    const share = above / (above - below);
    const at = p.map((x, k) => x + share * ((q[k] as number) - x)) as unknown as Vec3;
    const isWithin = [
      [a, b],
      [b, c],
      [c, a],
    ].every(([from, to]) => {
      const [f, t] = [from, to] as [Vec3, Vec3];
      const across = cross3(normal, sub3(t, f));
      return dot3(across, sub3(at, f)) > CLEAR_MM * Math.sqrt(dot3(across, across));
    });
    if (isWithin) return at;
  }
  return undefined;
};

/** What touches within this, mm, meets at a common corner or edge; rounding is far less. */
const CLEAR_MM = 1e4 * NOISE_MM;
