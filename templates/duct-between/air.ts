import {
  along3,
  cross3,
  dot3,
  length3,
  mix3,
  roundAreaMm2,
  sub3,
  unit3,
} from '../../src/template.ts';
import type { Vec3 } from '../../src/template.ts';
import type { Facet } from '../duct-transition/surface.ts';
import { outwardOf } from './chains.ts';
import type { DuctEnds, EndName } from './ends.ts';
import type { Rim } from './rims.ts';

/**
 * A section of the duct, in a plane that turns evenly from that of the one end to one square to the
 * line of middles halfway, and on to that of the other end.
 */
export interface Section {
  /** Share of the way from the near opening to the far one. */
  readonly share: number;
  /** Length of the way to it along the line of middles, mm. */
  readonly alongMm: number;
  /** Between the inner faces of the walls. */
  readonly clearMm2: number;
  /** Diameter of the circle of that area. */
  readonly roundMm: number;
}

/** Sections are looked at in so many places along the duct, one of them halfway. */
const STATIONS = 10;

export const sectionsOf = (
  { near, far }: DuctEnds,
  rims: Readonly<Record<EndName, Rim>>,
  ring: readonly Facet[],
  thicknessMm: number,
): Section[] => {
  const [start, end] = [middleOf(rims.near.points), middleOf(rims.far.points)];
  const axis = sub3(end, start);
  const across = unit3(axis);
  return Array.from({ length: STATIONS + 1 }, (_, i): Section => {
    const share = i / STATIONS;
    const normal =
      share < 1 / 2
        ? mix3(near.pose.z, 1 - 2 * share, across, 2 * share)
        : mix3(across, 2 - 2 * share, far.pose.z, 2 * share - 1);
    const round =
      i === 0
        ? rims.near.points
        : i === STATIONS
          ? rims.far.points
          : cutBy(ring, along3(start, axis, share), normal);
    const area = length3(doubledArea(round)) / 2;
    const edge = round.reduce(
      (sum, p, k) => sum + length3(sub3(round[(k + 1) % round.length] as Vec3, p)),
      0,
    );
    const clearMm2 = Math.max(0, area - (edge * thicknessMm) / 2);
    return {
      share,
      alongMm: share * length3(axis),
      clearMm2,
      roundMm: Math.sqrt(clearMm2 / roundAreaMm2(1)),
    };
  });
};

/**
 * Where a plane cuts the walls, in their order round the duct; where it passes through an opening
 * the straight line between two of these is its edge.
 */
const cutBy = (ring: readonly Facet[], through: Vec3, normal: Vec3): Vec3[] =>
  ring.flatMap(({ points, edges }) => {
    const heights = points.map((p) => dot3(normal, sub3(p, through)));
    const exit = points[edges.indexOf('exit')] as Vec3;
    const way = sub3(exit, points[0] as Vec3);
    return points
      .flatMap((p, i) => {
        const next = (i + 1) % points.length;
        const [a, b] = [heights[i] as number, heights[next] as number];
        if (a < 0 === b < 0) return [];
        return [along3(p, sub3(points[next] as Vec3, p), a / (a - b))];
      })
      .toSorted((p, q) => dot3(way, p) - dot3(way, q));
  });

const doubledArea = (points: readonly Vec3[]): Vec3 => {
  const [a] = points as [Vec3];
  return points.reduce<Vec3>(
    (sum, p, i) =>
      along3(sum, cross3(sub3(p, a), sub3(points[(i + 1) % points.length] as Vec3, a)), 1),
    [0, 0, 0],
  );
};

/** Middle of the area of a flat polygon in space. */
export const middleOf = (points: readonly Vec3[]): Vec3 => {
  const [a] = points as [Vec3];
  const whole = unit3(doubledArea(points));
  let [sum, area]: [Vec3, number] = [[0, 0, 0], 0];
  for (const [i, p] of points.slice(0, -1).entries()) {
    const q = points[i + 1] as Vec3;
    const part = dot3(whole, cross3(sub3(p, a), sub3(q, a)));
    area += part;
    for (const corner of [a, p, q]) sum = along3(sum, corner, part / 3);
  }
  return along3([0, 0, 0], sum, 1 / area);
};

/**
 * The steepest widening between two sections in the way of the air, as the whole angle of the cone
 * of the same areas, degrees; 0 where it narrows throughout.
 */
export const diffuserDeg = (sections: readonly Section[], isFromNear: boolean): number =>
  Math.max(
    0,
    ...sections.slice(1).map((after, i) => {
      const before = sections[i] as Section;
      const wider = (isFromNear ? 1 : -1) * (after.roundMm - before.roundMm);
      return (Math.atan2(wider / 2, after.alongMm - before.alongMm) * 360) / Math.PI;
    }),
  );

/** How far the steepest wall leans out of the line of middles, degrees. */
export const steepestDeg = (
  rims: Readonly<Record<EndName, Rim>>,
  ring: readonly Facet[],
): number => {
  const axis = unit3(sub3(middleOf(rims.far.points), middleOf(rims.near.points)));
  return Math.max(
    ...ring.map(
      (facet) => (Math.asin(Math.min(1, Math.abs(dot3(outwardOf(facet), axis)))) * 180) / Math.PI,
    ),
  );
};

/** Speed of so much air through a section, m/s. */
export const speedMs = (flowM3h: number, clearMm2: number): number =>
  flowM3h / SECONDS_IN_HOUR / (clearMm2 * M2_IN_MM2);

const SECONDS_IN_HOUR = 3600;
const M2_IN_MM2 = 1e-6;
