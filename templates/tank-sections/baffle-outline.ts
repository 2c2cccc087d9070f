import {
  add,
  clip,
  cross,
  distance,
  dot,
  leftOf,
  NOISE_MM,
  scale,
  signedArea,
  sub,
  unit,
} from '../../src/template.ts';
import type { Loop, Vec2, Vertex } from '../../src/template.ts';
import { LEAST_UP } from './fittings.ts';
import type { TankSections } from './inputs.ts';
import { after } from './sections.ts';
import { type Bay, isAtCorner, type WallFacet } from './surface.ts';
import { facetName } from './wall.ts';

/** How far a baffle is cut at a corner along both its edges there. */
const cutMm = (v: TankSections, { facets }: Bay, i: number): number => {
  const ups = [facets.at(i - 1), facets[i]].map((facet) => (facet as WallFacet).plane.normal[2]);
  if (ups.some((up) => up > LEAST_UP)) return v.limber;
  // Any other corner clears the inside of the bend.
  return ups.some((up) => up < -LEAST_UP) ? v.vent : v.insideRadiusMm;
};

/** The plate with its corners cut off; missing where cuts leave too little of a wall. */
export const cornersCut = (
  v: TankSections,
  bay: Bay,
  corners: readonly Vec2[],
): Loop | undefined => {
  const n = corners.length;
  const at = (i: number): Vec2 => corners[(i + n) % n] as Vec2;
  const starts = corners.flatMap((_, i) => (isAtCorner(bay, i) ? [i] : []));
  const cuts = starts.map((i) =>
    cross(sub(at(i), at(i - 1)), sub(at(i + 1), at(i))) > 0 ? cutMm(v, bay, i) : 0,
  );
  const walls = starts.map((from, k) => {
    const to = starts[k + 1] ?? n;
    const along = Array.from({ length: to - from + 1 }, (_, i) => at(from + i));
    return trimmed(along, cuts[k] as number, after(cuts, k), v);
  });
  if (walls.some((along) => along === undefined)) return undefined;
  return walls.flatMap((along = [], k) => {
    const edges = along.map((_, i) => facetName(bay, Math.min((starts[k] as number) + i, n - 1)));
    // Where a corner is cut the end of a wall begins the cut; else the next wall begins there.
    const kept = after(cuts, k) > 0 ? along : along.slice(0, -1);
    return kept.map(([x, y], i): Vertex => ({
      x,
      y,
      bulge: 0,
      edge: i === along.length - 1 ? `cut ${((k + 1) % starts.length) + 1}` : (edges[i] as string),
    }));
  });
};

/**
 * A wall from corner to corner with so much cut off both its ends, the corner at its crease left out
 * where that lies in the cut or nearer to it than the plate stays off the wall; missing where too
 * little is left.
 */
const trimmed = (
  along: readonly Vec2[],
  startMm: number,
  endMm: number,
  { thicknessMm, baffleGap }: TankSections,
): Vec2[] | undefined => {
  const done = along.map((_, i) =>
    along.slice(1, i + 1).reduce((sum, p, k) => sum + distance(along[k] as Vec2, p), 0),
  );
  const last = (done.at(-1) as number) - endMm;
  if (last - startMm < 4 * thicknessMm) return undefined;
  const placeAt = (mm: number): Vec2 => {
    const i = Math.max(
      1,
      done.findIndex((to) => to >= mm),
    );
    const [from, to] = [along[i - 1], along[i]] as [Vec2, Vec2];
    const share = (mm - (done[i - 1] as number)) / distance(from, to);
    return add(from, scale(sub(to, from), share));
  };
  const between = along.filter((_, i) => {
    const mm = done[i] as number;
    return mm > startMm + baffleGap && mm < last - baffleGap;
  });
  return [placeAt(startMm), ...between, placeAt(last)];
};

/** What is left of a loop when it is cut along one edge at each corner that points inwards. */
export const convexIn = (loop: Loop): Loop => {
  const at = (i: number): Vec2 => {
    const { x, y } = loop[(i + loop.length) % loop.length] as Vertex;
    return [x, y];
  };
  // Where the corner before lies on the outer side of an edge.
  const i = loop.findIndex(
    (_, k) => dot(leftOf(unit(sub(at(k + 1), at(k)))), sub(at(k - 1), at(k))) < -NOISE_MM,
  );
  if (i < 0) return loop;
  const parts = [i - 1, i].flatMap((edge) => {
    const into = leftOf(unit(sub(at(edge + 1), at(edge))));
    return clip(loop, into, dot(into, at(edge)), ([x, y]): Vertex => ({ x, y, bulge: 0 }));
  });
  return convexIn(parts.reduce((a, b) => (signedArea(b) > signedArea(a) ? b : a)));
};
