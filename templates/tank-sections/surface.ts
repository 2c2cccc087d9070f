import { cross3, dot3, sub3, unit3 } from '../../src/template.ts';
import type { Vec2, Vec3 } from '../../src/template.ts';
import { type Body, type Plane, turnOfDeg } from '../tank-plan/solid.ts';

/**
 * The frame of all that follows: x along the stations, y and z those of the sections, as they are
 * seen from the last station. Sections run counter-clockwise there.
 */
export const inSpace = (stationMm: number, [x, y]: Vec2): Vec3 => [stationMm, x, y];

/** A section at its station, counter-clockwise. */
export interface SectionAt {
  readonly atMm: number;
  readonly corners: readonly Vec2[];
}

/** A straight line in a wall, from the section at which a bay begins to that at which it ends. */
export interface Ruling {
  readonly near: Vec3;
  readonly far: Vec3;
}

/**
 * A flat piece of a wall between two rulings, in the order round the sections; where a wall is
 * warped it has two, triangles that share a diagonal. The normal points into the tank.
 */
export interface WallFacet {
  /** Counted from 0: it runs from the corner of that number to the next. */
  readonly side: number;
  readonly entry: Ruling;
  readonly exit: Ruling;
  readonly plane: Plane;
}

/** The diagonal of a warped wall: from its first corner, or its last, at the near section. */
export type Diagonal = 'first' | 'last';

/** What is between two sections that follow each other. */
export interface Bay {
  readonly fromMm: number;
  readonly toMm: number;
  readonly facets: readonly WallFacet[];
}

/** How far four corners may lie off a plane that a wall through them is one flat sheet, mm: noise. */
const FLAT_MM = 1e-6;

/** The wall on a side between two sections as facets; one where it is flat. */
export const wallFacets = (
  near: SectionAt,
  far: SectionAt,
  side: number,
  diagonal: Diagonal | undefined,
): WallFacet[] => {
  const next = (side + 1) % near.corners.length;
  const [a, d] = [side, next].map((i) => inSpace(near.atMm, near.corners[i] as Vec2)) as [
    Vec3,
    Vec3,
  ];
  const [b, c] = [side, next].map((i) => inSpace(far.atMm, far.corners[i] as Vec2)) as [Vec3, Vec3];
  const [entry, exit]: [Ruling, Ruling] = [
    { near: a, far: b },
    { near: d, far: c },
  ];
  if (diagonal === undefined) return [{ side, entry, exit, plane: planeOf(a, b, c) }];
  const crease: Ruling = diagonal === 'first' ? { near: a, far: c } : { near: d, far: b };
  const [one, other] =
    diagonal === 'first'
      ? [planeOf(a, b, c), planeOf(a, c, d)]
      : [planeOf(a, b, d), planeOf(d, b, c)];
  return [
    { side, entry, exit: crease, plane: one },
    { side, entry: crease, exit, plane: other },
  ];
};

const planeOf = (a: Vec3, b: Vec3, c: Vec3): Plane => {
  const normal = unit3(cross3(sub3(b, a), sub3(c, a)));
  return { normal, atMm: dot3(normal, a) };
};

/** How far the corner of a wall at the far section, behind it, lies off the plane of the others, mm. */
export const warpMm = (near: SectionAt, far: SectionAt, side: number): number => {
  const [{ exit, plane }] = wallFacets(near, far, side, undefined) as [WallFacet];
  return dot3(plane.normal, exit.near) - plane.atMm;
};

/** The bay between two sections, its warped walls creased along these diagonals. */
export const bayOf = (
  near: SectionAt,
  far: SectionAt,
  diagonals: readonly (Diagonal | undefined)[],
): Bay => ({
  fromMm: near.atMm,
  toMm: far.atMm,
  facets: near.corners.flatMap((_, side) => wallFacets(near, far, side, diagonals[side])),
});

/**
 * The diagonal of each wall between two sections that is warped: that along which it is creased
 * into the tank, so that it stays clear of what stands beside it, or out of it.
 */
export const diagonalsOf = (
  near: SectionAt,
  far: SectionAt,
  way: 'in' | 'out',
): (Diagonal | undefined)[] =>
  near.corners.map((_, side) => {
    if (Math.abs(warpMm(near, far, side)) <= FLAT_MM) return undefined;
    const [one, other] = wallFacets(near, far, side, 'first') as [WallFacet, WallFacet];
    return turnAtDeg(one, other) < 0 === (way === 'in') ? 'first' : 'last';
  });

/**
 * How far a facet is turned against the one before it, degrees; below 0 where the corner between
 * them points into the tank.
 */
export const turnAtDeg = (before: WallFacet, after: WallFacet): number => {
  const size = turnOfDeg(before.plane, after.plane);
  const beyond = [after.exit.near, after.exit.far].reduce(
    (sum, p) => sum + dot3(before.plane.normal, p) - before.plane.atMm,
    0,
  );
  return beyond < 0 ? -size : size;
};

/** A place on a ruling at a station. */
export const onRuling = ({ near, far }: Ruling, stationMm: number): Vec3 => {
  const share = (stationMm - near[0]) / (far[0] - near[0]);
  return [stationMm, near[1] + share * (far[1] - near[1]), near[2] + share * (far[2] - near[2])];
};

/** The bay at a station; the first or the last for what lies before or behind. */
export const bayAt = (bays: readonly Bay[], stationMm: number): Bay =>
  bays.find(({ toMm }) => stationMm < toMm) ?? (bays.at(-1) as Bay);

/** Whether a facet begins where its wall does, and not at the crease of that. */
export const isAtCorner = ({ facets }: Bay, i: number): boolean =>
  (facets.at(i - 1) as WallFacet).side !== (facets[i] as WallFacet).side;

/** The inside of a tank between two stations as a body. */
export const bodyBetween = (bays: readonly Bay[], fromMm: number, toMm: number): Body => {
  const end = (stationMm: number): Vec3[] =>
    bayAt(bays, stationMm).facets.map(({ entry }) => onRuling(entry, stationMm));
  const walls = bays.flatMap(({ facets, fromMm: first, toMm: last }, bay) => {
    const [from, to] = [Math.max(first, fromMm), Math.min(last, toMm)];
    return from >= to
      ? []
      : facets.map(({ side, entry, exit }) => ({
          name: `wall ${side + 1} of bay ${bay + 1}`,
          points: [
            onRuling(entry, from),
            onRuling(entry, to),
            onRuling(exit, to),
            onRuling(exit, from),
          ],
        }));
  });
  return [
    { name: 'first end', points: end(fromMm) },
    { name: 'last end', points: end(toMm).toReversed() },
    ...walls,
  ];
};
