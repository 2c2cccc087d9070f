import {
  areaD,
  differenceD,
  EndType,
  FillRule,
  inflatePathsD,
  intersectD,
  JoinType,
  type PathD,
  type PathsD,
  pointInPolygonD,
  PointInPolygonResult,
  simplifyPathsD,
  unionD,
} from 'clipper2-ts';
import { withChords } from '../geometry/chords.ts';
import type { Loop } from '../geometry/loop.ts';
import type { Region } from '../geometry/region.ts';
import { STOCK_CHORD_MM } from './chord.ts';

/** Decimals that corners are rounded to inside; what is laid and taken is far coarser. */
const DECIMALS = 4;

/** A corner is cut off where it would stick out farther than this many times the distance. */
const MITRE_LIMIT = 2;

/** Polygons as the library for them takes them: outlines counter-clockwise, holes clockwise. */
export type Paths = PathsD;

const pathOf = (loop: Loop): PathD =>
  withChords(loop, STOCK_CHORD_MM).map(({ x, y }) => ({ x, y }));

/** A region as polygons. */
export const pathsOf = ({ outline, holes }: Region): Paths => [
  pathOf(outline),
  ...holes.map((hole) => pathOf(hole).reverse()),
];

/**
 * Polygons grown by a distance, or shrunk where it is less than 0. Corners stay corners, so what is
 * grown covers at least all that is so near.
 */
export const grown = (paths: Paths, byMm: number): Paths =>
  inflatePathsD(paths, byMm, JoinType.Miter, EndType.Polygon, MITRE_LIMIT, DECIMALS);

/** What all of them cover together. */
export const together = (paths: Paths): Paths => unionD(paths, [], FillRule.NonZero, DECIMALS);

/** What both cover. */
export const common = (a: Paths, b: Paths): Paths => intersectD(a, b, FillRule.NonZero, DECIMALS);

/** What is left of the first without the second. */
export const without = (paths: Paths, taken: Paths): Paths =>
  differenceD(paths, taken, FillRule.NonZero, DECIMALS);

/** The same with fewer corners, none of which was farther than this from its neighbours' line. */
export const simpler = (paths: Paths, withinMm: number): Paths => simplifyPathsD(paths, withinMm);

/** Polygons as regions, each outline with the holes in it, the largest region first. */
export const regionsOf = (paths: Paths): readonly Region[] => {
  const outlines = paths.filter((path) => areaD(path) > 0).toSorted((a, b) => areaD(b) - areaD(a));
  const holes = outlines.map((): Loop[] => []);
  for (const hole of paths.filter((path) => areaD(path) < 0)) {
    // The smallest outline round it is the last one that holds it.
    const round = outlines.findLastIndex((outline) => isRound(outline, hole));
    holes[round]?.push(loopOf(hole.toReversed()));
  }
  return outlines.map((outline, i) => ({ outline: loopOf(outline), holes: holes[i] ?? [] }));
};

/** A corner on the outline itself tells nothing: the next one decides. */
const isRound = (outline: PathD, hole: PathD): boolean => {
  for (const point of hole) {
    const where = pointInPolygonD(point, outline, DECIMALS);
    if (where !== PointInPolygonResult.IsOn) return where === PointInPolygonResult.IsInside;
  }
  return false;
};

const loopOf = (path: PathD): Loop => path.map(({ x, y }) => ({ x, y, bulge: 0 }));
