import { differenceD, EndType, FillRule, inflatePathsD, JoinType, type PathsD } from 'clipper2-ts';
import { withChords } from '../../geometry/chords.ts';
import { isInside } from '../../geometry/inside.ts';
import type { Loop } from '../../geometry/loop.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Outline } from '../shapes.ts';
import { simplifiedOutward } from '../simplify.ts';
import { signedArea } from '../strip-task.ts';

/** Metal inside an outline and outside its holes, arcs as they are. */
export interface Metal {
  readonly outline: Loop;
  readonly holes: readonly Loop[];
}

/** Chords leave their arcs by no more than this, mm, in what is laid. */
const LAID_CHORD_MM = 0.05;
/** How finely the rounds are made that growing makes, mm. */
const ROUND_MM = 0.02;
/** Figures are rounded to so many decimals in growing. */
const DECIMALS = 4;
/** Notches and slots narrower than twice this, mm, are filled: no part goes there. */
const FILLED_MM = 3;
/** A corner is drawn out to no more than so many times the distance. */
const MITRE = 2;

/** Outlines of parts are made simpler until they have so many corners. */
const MANY_CORNERS = 20;
/** How far an outline may grow by that, mm: as little as will do. */
const SIMPLER_MM = [0.05, 0.1, 0.2, 0.5, 1];

/** The most that an outline grows beyond the distance asked for, mm, but for drawn-out corners. */
export const GROWN_WITHIN_MM = 1.2;

/**
 * The metal of a part with `byMm` all round it, as a polygon: outside all that lies within that
 * distance, and no more than `GROWN_WITHIN_MM` farther out, but for drawn-out corners and what is
 * narrower than anything laid. Its holes are those that a part of `leastMm` finds room in.
 */
export const grownPart = ({ outline, holes }: Metal, byMm: number, leastMm: number): Outline => {
  const isStraight = [outline, ...holes].every((loop) => loop.every(({ bulge }) => bulge === 0));
  const outward = byMm + (isStraight ? 0 : LAID_CHORD_MM) + FILLED_MM;
  const grown = inflated(pathsOf([outline], holes), outward, JoinType.Miter);
  const rings = ringsOf(inflated(grown, -FILLED_MM, JoinType.Round));
  const outer = rings.filter((ring) => signedArea(ring) > 0).toSorted(byArea)[0] ?? [];
  const inner = rings.filter((ring) => signedArea(ring) < 0).map((ring) => ring.toReversed());
  return {
    outer: simpler(outer),
    holes: inner.filter((ring) => leastSide(ring) > leastMm).map(simplerHole),
  };
};

/**
 * What parts may not lie on, of the rectangle round some metal: all that is not metal, or nearer to
 * its edges than `byMm`, as polygons. Holes are given way to as well.
 */
export const aroundMetal = ({ outline, holes }: Metal, byMm: number): readonly Outline[] => {
  const kept = inflated(pathsOf([outline], []), -(byMm + LAID_CHORD_MM + ROUND_MM), JoinType.Round);
  const taken = inflated(pathsOf(holes, []), byMm + LAID_CHORD_MM + ROUND_MM, JoinType.Round);
  const xs = kept.flat().map(({ x }) => x);
  const ys = kept.flat().map(({ y }) => y);
  const [minX, maxX] = [Math.min(...xs), Math.max(...xs)];
  const [minY, maxY] = [Math.min(...ys), Math.max(...ys)];
  const box = [
    { x: minX, y: minY },
    { x: maxX, y: minY },
    { x: maxX, y: maxY },
    { x: minX, y: maxY },
  ];
  const free = differenceD(kept, taken, FillRule.NonZero, DECIMALS);
  return nested(ringsOf(differenceD([box], free, FillRule.NonZero, DECIMALS)));
};

/** The same round holes alone, for metal that is a rectangle. */
export const aroundHoles = (holes: readonly Loop[], byMm: number): readonly Outline[] =>
  nested(ringsOf(inflated(pathsOf(holes, []), byMm + LAID_CHORD_MM + ROUND_MM, JoinType.Round)));

const pathsOf = (outers: readonly Loop[], holes: readonly Loop[]): PathsD => {
  const path = (loop: Loop) => withChords(loop, LAID_CHORD_MM).map(({ x, y }) => ({ x, y }));
  return [...outers.map(path), ...holes.map((hole) => path(hole).toReversed())];
};

const inflated = (paths: PathsD, byMm: number, join: JoinType): PathsD =>
  paths.length === 0
    ? paths
    : inflatePathsD(paths, byMm, join, EndType.Polygon, MITRE, DECIMALS, ROUND_MM);

/** Areas less than this, mm2, are noise of the figures. */
const NO_AREA_MM2 = 0.01;

const ringsOf = (paths: PathsD): (readonly Vec2[])[] =>
  paths
    .map((path) => path.map(({ x, y }): Vec2 => [x, y]))
    .filter((ring) => Math.abs(signedArea(ring)) > NO_AREA_MM2);

const byArea = (a: readonly Vec2[], b: readonly Vec2[]): number => signedArea(b) - signedArea(a);

/** Each hole goes to the smallest outline round it. */
const nested = (rings: readonly (readonly Vec2[])[]): Outline[] => {
  const outers = rings.filter((ring) => signedArea(ring) > 0).toSorted((a, b) => -byArea(a, b));
  const holesOf = new Map<readonly Vec2[], (readonly Vec2[])[]>(outers.map((o) => [o, []]));
  for (const ring of rings.filter((r) => signedArea(r) < 0)) {
    const round = outers.find((o) => isInside(loopOf(o), ring[0] as Vec2));
    if (round !== undefined) holesOf.get(round)?.push(ring.toReversed());
  }
  return outers.map((outer) => ({ outer, holes: holesOf.get(outer) ?? [] }));
};

const loopOf = (ring: readonly Vec2[]): Loop => ring.map(([x, y]) => ({ x, y, bulge: 0 }));

const simpler = (ring: readonly Vec2[]): readonly Vec2[] => {
  let simple = ring;
  for (const within of SIMPLER_MM) {
    simple = simplifiedOutward(ring, within);
    if (simple.length <= MANY_CORNERS) break;
  }
  return simple;
};

/** A hole is cut smaller: corners that point outwards go, where little is lost. */
const simplerHole = (ring: readonly Vec2[]): readonly Vec2[] => {
  let simple = ring;
  for (const within of SIMPLER_MM) {
    simple = simplifiedInward(ring, within);
    if (simple.length <= MANY_CORNERS) break;
  }
  return simple;
};

const simplifiedInward = (ring: readonly Vec2[], within: number): readonly Vec2[] => {
  const left = [...ring];
  for (let i = 0; i < left.length && left.length > 4;) {
    const [a, b, c] = [left.at(i - 1), left[i], left[(i + 1) % left.length]] as [Vec2, Vec2, Vec2];
    const twice = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);
    const off = twice / Math.hypot(c[0] - a[0], c[1] - a[1]);
    // The next corner stays, so that what two neighbours take away never adds up.
    if (off >= 0 && off <= within) left.splice(i++, 1);
    else i++;
  }
  // Half of the corners of a round go at a time.
  return left.length < ring.length && left.length > MANY_CORNERS
    ? simplifiedInward(left, within)
    : left;
};

const leastSide = (ring: readonly Vec2[]): number => {
  const [xs, ys] = [ring.map(([x]) => x), ring.map(([, y]) => y)];
  return Math.min(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
};
