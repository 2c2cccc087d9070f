import { cross3, dot3, length3, NOISE_MM, sub3 } from '../../src/template.ts';
import type { Vec2, Vec3 } from '../../src/template.ts';
import type { Facet } from '../duct-transition/surface.ts';
import { facetFrom } from './chains.ts';
import type { Rim } from './rims.ts';
import { directionOf, turnOf } from './touch.ts';

/** A triangle between the rims: an edge of one from a corner on, and a corner of the other. */
interface Step {
  readonly on: 'near' | 'far';
  readonly near: number;
  readonly far: number;
}

/**
 * The walls between two rims as flat facets in a ring, by triangulation. Each triangle stands on an
 * edge of one rim and has its tip at a corner of the other, and belongs where its plane turns
 * between the two edges at that corner. Triangles that all do so make the hull of two openings that
 * bulge outwards, every fold inwards and no ruling twisted: the developable surface between the two
 * (as for two curves whose tangents lie in one plane; any text on developable surfaces). Where an
 * outline goes in and out there may be none, and the least misfit is taken over the whole ring.
 * Triangles in one plane are one facet.
 */
export const bandOf = (near: Rim, far: Rim): Facet[] =>
  merged(bestSteps(near, far).map((step) => triangleOf(near, far, step)));

const at = <T>(list: readonly T[], i: number): T =>
  list[((i % list.length) + list.length) % list.length] as T;

/** Directions, degrees, in which the edges of a rim face outwards in its plane. */
const facings = ({ flat }: Rim): number[] =>
  flat.map(([x, y], i) => {
    const [nx, ny] = at(flat, i + 1);
    return directionOf([nx - x, ny - y]) - 90;
  });

/**
 * How far a wall that faces `normal` turns beyond the two edges at a corner of a rim, degrees; 0
 * where it lies between them.
 */
const misfitDeg = (
  { end }: Rim,
  faces: readonly number[],
  corner: number,
  normal: Vec3,
): number => {
  const seen: Vec2 = [dot3(normal, end.pose.x), dot3(normal, end.pose.y)];
  const before = at(faces, corner - 1);
  const turn = turnOf(at(faces, corner) - before);
  const off = turnOf(directionOf(seen) - before - turn / 2);
  return Math.max(0, Math.abs(off) - Math.abs(turn) / 2);
};

/** Of walls that fit equally the one with the shorter rulings is taken: a share of the misfit. */
const RULING_SHARE = 1e-9;

type Costs = readonly Float64Array[];

/** What each triangle costs: its misfit squared, for each mm of the edge on which it stands. */
const costsOf = (near: Rim, far: Rim): { readonly onNear: Costs; readonly onFar: Costs } => {
  const [nearFaces, farFaces] = [facings(near), facings(far)];
  const cost = (misfit: number, edge: Vec3, ruling: Vec3): number =>
    misfit * misfit * length3(edge) + RULING_SHARE * dot3(ruling, ruling);
  const onNear = near.points.map((a, i) =>
    Float64Array.from(far.points, (b, j) => {
      const edge = sub3(at(near.points, i + 1), a);
      const normal = cross3(edge, sub3(b, a));
      return cost(misfitDeg(far, farFaces, j, normal), edge, sub3(b, at(near.points, i + 1)));
    }),
  );
  const onFar = near.points.map((a, i) =>
    Float64Array.from(far.points, (b, j) => {
      const edge = sub3(at(far.points, j + 1), b);
      const normal = cross3(edge, sub3(b, a));
      return cost(misfitDeg(near, nearFaces, i, normal), edge, sub3(at(far.points, j + 1), a));
    }),
  );
  return { onNear, onFar };
};

/**
 * The cheapest way round both rims from corner 0 of the near one, over all corners of the far one
 * that it may begin at (dynamic programming; after Fuchs, Kedem and Uselton, 'Optimal surface
 * reconstruction from planar contours', 1977).
 */
const bestSteps = (near: Rim, far: Rim): Step[] => {
  const { onNear, onFar } = costsOf(near, far);
  let best:
    { readonly total: number; readonly start: number; readonly took: Uint8Array } | undefined;
  for (let start = 0; start < far.points.length; start++) {
    const most = (best?.total ?? Infinity) * (1 - RULING_SHARE);
    const way = cheapest(onNear, onFar, start, most);
    if (way !== undefined) best = { ...way, start };
  }
  if (best === undefined) throw new Error('a rim without corners');
  const [n, m] = [near.points.length, far.points.length];
  const steps: Step[] = [];
  for (let [i, j] = [n, m]; i > 0 || j > 0;) {
    if (best.took[i * (m + 1) + j] === FROM_NEAR) {
      i -= 1;
      steps.push({ on: 'near', near: i, far: best.start + j });
    } else {
      j -= 1;
      steps.push({ on: 'far', near: i, far: best.start + j });
    }
  }
  return steps.reverse();
};

const FROM_NEAR = 1;
const FROM_FAR = 2;

/** The cheapest way from a beginning, or nothing as soon as it cannot cost less than `most`. */
const cheapest = (
  onNear: Costs,
  onFar: Costs,
  start: number,
  most: number,
): { readonly total: number; readonly took: Uint8Array } | undefined => {
  const [n, m] = [onNear.length, (onNear[0] as Float64Array).length];
  const cost = new Float64Array((n + 1) * (m + 1)).fill(Infinity);
  const took = new Uint8Array((n + 1) * (m + 1));
  cost[0] = 0;
  for (let i = 0; i <= n; i++) {
    // Every way passes through each row, and none gets cheaper on it.
    let least = i === 0 ? 0 : Infinity;
    for (let j = 0; j <= m; j++) {
      const k = i * (m + 1) + j;
      const b = (start + j) % m;
      const near =
        i === 0
          ? Infinity
          : (cost[k - m - 1] as number) + ((onNear[i - 1] as Float64Array)[b] as number);
      const far =
        j === 0
          ? Infinity
          : (cost[k - 1] as number) +
            ((onFar[i % n] as Float64Array)[(start + j - 1) % m] as number);
      if (i + j === 0) continue;
      cost[k] = Math.min(near, far);
      took[k] = near <= far ? FROM_NEAR : FROM_FAR;
      least = Math.min(least, cost[k]);
    }
    if (least >= most) return undefined;
  }
  const total = cost.at(-1) as number;
  return total < most ? { total, took } : undefined;
};

/** A run of edges of both rims in one plane, from one ruling to another. */
interface WallPanel {
  readonly near: readonly Vec3[];
  readonly far: readonly Vec3[];
}

const triangleOf = (near: Rim, far: Rim, { on, near: i, far: j }: Step): WallPanel =>
  on === 'near'
    ? { near: [at(near.points, i), at(near.points, i + 1)], far: [at(far.points, j)] }
    : { near: [at(near.points, i)], far: [at(far.points, j), at(far.points, j + 1)] };

/** Neighbours in one plane joined; the ring begins where two are not. */
const merged = (triangles: readonly WallPanel[]): Facet[] => {
  const first = triangles.findIndex((after, i) => !inOnePlane(at(triangles, i - 1), after));
  const turned = triangles.map((_, i) => at(triangles, i + Math.max(0, first)));
  const panels: WallPanel[] = [];
  for (const after of turned) {
    const before = panels.at(-1);
    if (before !== undefined && inOnePlane(before, after))
      panels[panels.length - 1] = {
        near: [...before.near, ...after.near.slice(1)],
        far: [...before.far, ...after.far.slice(1)],
      };
    else panels.push(after);
  }
  return panels.map(facetOf);
};

/** Whether all points of the later panel lie in the plane of the earlier one. */
const inOnePlane = (before: WallPanel, after: WallPanel): boolean => {
  const [a, b, c] = facetOf(before, 0).points as [Vec3, Vec3, Vec3];
  const normal = cross3(sub3(b, a), sub3(c, a));
  const size = length3(normal);
  const isFlat = [...after.near, ...after.far].every(
    (p) => Math.abs(dot3(normal, sub3(p, a))) <= NOISE_MM * size,
  );
  if (!isFlat) return false;
  const [d, e, f] = facetOf(after, 0).points as [Vec3, Vec3, Vec3];
  return dot3(normal, cross3(sub3(e, d), sub3(f, d))) > 0;
};

/** The panel as a facet. */
const facetOf = ({ near, far }: WallPanel, i: number): Facet => ({
  id: `wall ${i + 1}`,
  ...facetFrom(near, far),
});
