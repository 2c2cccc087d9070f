import type { FlatPattern } from '../../src/model/flat.ts';
import { distance, type Vec2 } from '../../src/geometry/vec2.ts';
import { foldedPlaces } from './witness.ts';

export type Point = readonly [number, number, number];

export const apart = (a: Point, b: Point): number =>
  Math.hypot(...a.map((v, i) => v - (b[i] as number)));

/** Lengths of the straight pieces of a blank's outline. */
export const edgesOf = ({ outline }: FlatPattern): number[] =>
  outline.map((v, i) => {
    const next = outline[(i + 1) % outline.length] ?? v;
    return distance([v.x, v.y], [next.x, next.y]);
  });

/**
 * The points of a polygon in the frame of the edge that starts at one of them, beginning with it.
 */
export const seenFromFirst = (points: readonly Vec2[], start: number): Vec2[] => {
  const turned = points.map((_, i) => points[(start + i) % points.length] as Vec2);
  const [[x, y], [nx, ny]] = turned as unknown as [Vec2, Vec2];
  const l = Math.hypot(nx - x, ny - y);
  const [ux, uy] = [(nx - x) / l, (ny - y) / l];
  return turned.map(([px, py]) => [(px - x) * ux + (py - y) * uy, (py - y) * ux - (px - x) * uy]);
};

export const FANS = ['front-right', 'back-right', 'back-left', 'front-left'];

/** The flat facets of one corner in their order, each as its points in the drawing. */
export const fanOf = (flat: FlatPattern, corner: string): Vec2[][] =>
  flat.panels
    .filter(({ id }) => id.startsWith(`${corner} `))
    .map(({ placement: m, region }) =>
      region.map(({ x, y }): Vec2 => [m.c * x - m.s * y + m.x, m.s * x + m.c * y + m.y]),
    );

/** The point that all facets of a fan share. */
export const apexOf = (fan: readonly (readonly Vec2[])[]): Vec2 =>
  (fan[0] as readonly Vec2[]).find((p) =>
    fan.every((facet) => facet.some((q) => distance(p, q) < 1e-6)),
  ) as Vec2;

/**
 * Places of the blank's points when it is folded, on the middle of the sheet; points that coincide
 * are one.
 */
export const foldedTransition = (
  flat: FlatPattern,
  root: string,
): { all: Point[]; corners: Point[]; divisions: Point[] } => {
  const places = foldedPlaces(flat, root);
  const place = (panel: string, [x, y]: Vec2): Point =>
    places.get(panel)?.([x, y, flat.thicknessMm / 2]) as Point;
  const distinct = (points: readonly Point[]): Point[] =>
    points.filter((p, i) => points.findIndex((q) => apart(p, q) < 1e-6) === i);
  const all = flat.panels.flatMap(({ id, placement: m, region }) =>
    region.map(({ x, y }) => place(id, [m.c * x - m.s * y + m.x, m.s * x + m.c * y + m.y])),
  );
  const fans = FANS.map((corner) => fanOf(flat, corner));
  const corners = fans.map((fan, i) => place(`${FANS[i]} 1`, apexOf(fan)));
  const divisions = fans.flatMap((fan, i) =>
    fan.map((facet, k) => {
      const [neighbour, apex] = [fan[k + 1] ?? (fan[k - 1] as Vec2[]), apexOf(fan)];
      const shared = facet.find(
        (p) => distance(p, apex) > 1e-6 && neighbour.some((q) => distance(p, q) < 1e-6),
      ) as Vec2;
      const other = facet.find(
        (p) => distance(p, apex) > 1e-6 && distance(p, shared) > 1e-6,
      ) as Vec2;
      // The first division of a facet is the one that it does not share with the next.
      return place(`${FANS[i]} ${k + 1}`, fan[k + 1] === undefined ? shared : other);
    }),
  );
  return { all: distinct(all), corners, divisions };
};
