import { sub, type Vec2 } from '../geometry/vec2.ts';
import { insideRings } from './inside-rings.ts';
import { type Cell, type HalfEdge, ringArea } from './subdivide.ts';

/**
 * The cells that half edges bound; each edge has its cell on its left. Without cuts there is one
 * cell, of region 0.
 */
export const traceCells = (points: readonly Vec2[], edges: readonly HalfEdge[]): Cell[] => {
  const rings = ringsOf(points, edges);
  const outer = rings.filter((r) => r.area > 0).map((r) => ({ ...r, holes: [] as number[][] }));
  for (const hole of rings.filter((r) => r.area <= 0)) {
    const at = points[hole.ring[0] as number] as Vec2;
    const around = outer
      .filter((o) => insideRings([o.ring.map((p) => points[p] as Vec2)], at))
      .toSorted((a, b) => a.area - b.area)[0];
    if (around === undefined) throw new Error(`a hole at ${at.join(', ')} lies in no metal`);
    around.holes.push(hole.ring);
    around.regions.push(...hole.regions);
  }
  return outer.map(({ ring, holes, regions }) => {
    const [region = 0, ...others] = new Set(regions);
    if (others.length > 0)
      throw new Error(`a cell belongs to regions ${[region, ...others].join(' and ')}`);
    return { region, rings: [ring, ...holes] };
  });
};

interface Ring {
  readonly ring: number[];
  readonly area: number;
  readonly regions: number[];
}

const ringsOf = (points: readonly Vec2[], edges: readonly HalfEdge[]): Ring[] => {
  const leaving = new Map<number, number[]>();
  edges.forEach(({ from }, i) => {
    const others = leaving.get(from);
    if (others === undefined) leaving.set(from, [i]);
    else others.push(i);
  });
  const used = edges.map(() => false);
  return edges.flatMap((_, start) => {
    if (used[start] === true) return [];
    const ring: number[] = [];
    const regions: number[] = [];
    for (let at = start; used[at] !== true; at = nextEdge(points, edges, at, leaving)) {
      used[at] = true;
      const { from, region } = edges[at] as HalfEdge;
      ring.push(from);
      if (region !== undefined) regions.push(region);
    }
    return [{ ring, regions, area: ringArea(points, ring) }];
  });
};

/**
 * The edge that follows at a point. Where several leave it, the next one is the first clockwise
 * from the edge by which the point was reached.
 */
const nextEdge = (
  points: readonly Vec2[],
  edges: readonly HalfEdge[],
  at: number,
  leaving: ReadonlyMap<number, readonly number[]>,
): number => {
  const { from, to } = edges[at] as HalfEdge;
  const choices = leaving.get(to) ?? [];
  if (choices.length === 1) return choices[0] as number;
  const heading = (p: number): number => {
    const [x, y] = sub(points[p] as Vec2, points[to] as Vec2);
    return Math.atan2(y, x);
  };
  const back = heading(from);
  let best = -1;
  let least = Infinity;
  for (const choice of choices) {
    const target = (edges[choice] as HalfEdge).to;
    const turn =
      target === from ? 2 * Math.PI : (back - heading(target) + 4 * Math.PI) % (2 * Math.PI);
    if (turn < least) [least, best] = [turn, choice];
  }
  return best;
};
