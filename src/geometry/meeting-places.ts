import { arcOf } from './arc.ts';
import type { Loop } from './loop.ts';
import { crossings, type Piece, pieceOf, piecesOf, pointOn, shareAt } from './piece.ts';
import { NOISE_MM } from './tolerance.ts';
import { along, distance, leftOf, sub, type Vec2 } from './vec2.ts';

/** Two curves cut at every place where they meet, so that no stretch of one crosses the other. */
export interface CutCurves {
  readonly first: readonly Stretch[];
  readonly second: readonly Stretch[];
}

/** A stretch of a piece, from one place to another. */
export interface Stretch {
  /**
   * Number of the piece in its loop, and the shares of its length that the stretch runs from and
   * to.
   */
  readonly piece: number;
  readonly from: number;
  readonly to: number;
  /** Numbers of the places that it runs between; equal numbers are one point. */
  readonly start: number;
  readonly end: number;
}

/** Points that are the same but for rounding. */
type Place = readonly Vec2[];

/**
 * Cuts two loops where they cross, touch, or begin to run along each other. Points that are one,
 * but that the arithmetic has made two of, become one place: a crossing and the corner that it
 * falls on, or a corner of one loop that lies on a piece of the other. This is decided once for
 * both loops, so that they cannot contradict each other about it.
 */
export const cutWhereMet = (first: Loop, second: Loop): CutCurves => {
  const places = placesOf(meetingPoints(first, second));
  const cut = (loop: Loop, base: number): Stretch[] => {
    // Corners where the loops do not meet keep numbers of their own.
    const numbers = loop.map(({ x, y }, i) => {
      const place = places.findIndex((members) => members.some((q) => isNear(q, [x, y])));
      return place < 0 ? base + i : place;
    });
    return loop.flatMap((_, i) => {
      const ends = [numbers[i], numbers[(i + 1) % loop.length]] as [number, number];
      return stretchesOf(pieceOf(loop, i), i, ends, places);
    });
  };
  return {
    first: cut(first, places.length),
    second: cut(second, places.length + first.length),
  };
};

/** All points where the loops meet: corners of one that lie on the other, and crossings. */
const meetingPoints = (first: Loop, second: Loop): Vec2[] => {
  const [ours, theirs] = [piecesOf(first), piecesOf(second)];
  const pairs = ours.flatMap((p) => theirs.map((q) => [p, q] as const));
  return [
    ...pairs.flatMap(([p, q]) => (isOn(q, p.from) ? [p.from] : [])),
    ...pairs.flatMap(([p, q]) => (isOn(p, q.from) ? [q.from] : [])),
    ...pairs.flatMap(([p, q]) =>
      crossings(p, q)
        .map(({ a, b }) => [pointOn(p, a), pointOn(q, b)] as const)
        // Circles that are the same but for rounding cross at no definite point.
        .flatMap(([at, same]) => (distance(at, same) <= NOISE_MM ? [at] : [])),
    ),
    ...pairs.flatMap(([p, q]) => tangencies(p, q).filter((at) => isOn(p, at) && isOn(q, at))),
  ];
};

/**
 * The places where an arc and another piece may touch without crossing: on the line through the
 * arc's centre that is square to the other piece. Rounding may show two crossings there, or none.
 */
const tangencies = (p: Piece, q: Piece): Vec2[] => {
  if (p.bulge === 0) return q.bulge === 0 ? [] : tangencies(q, p);
  const { centre, radius } = arcOf(p.from, p.to, p.bulge);
  const way =
    q.bulge === 0 ? leftOf(sub(q.to, q.from)) : sub(arcOf(q.from, q.to, q.bulge).centre, centre);
  const size = Math.hypot(way[0], way[1]);
  return size <= NOISE_MM ? [] : [radius, -radius].map((r) => along(centre, way, r / size));
};

const isOn = (piece: Piece, at: Vec2): boolean => shareAt(piece, at, NOISE_MM) !== undefined;

/**
 * Whether two points are one place. The limit is twice the noise, because each of them may be off
 * by the noise from a third point in which a piece ends.
 */
const isNear = (p: Vec2, q: Vec2): boolean => distance(p, q) <= 2 * NOISE_MM;

/** Groups points that are one place, in a chain where necessary. */
const placesOf = (points: readonly Vec2[]): Place[] =>
  points.reduce<Place[]>((places, point) => {
    const near = places.filter((members) => members.some((q) => isNear(q, point)));
    const [one] = near;
    if (one === undefined) return [...places, [point]];
    const joined = [...near.flat(), point];
    return places.flatMap((members) =>
      members === one ? [joined] : near.includes(members) ? [] : [members],
    );
  }, []);

const stretchesOf = (
  piece: Piece,
  number: number,
  [start, end]: readonly [number, number],
  places: readonly Place[],
): Stretch[] => {
  const inner = places
    .flatMap((members, place) => {
      if (place === start || place === end) return [];
      const share = members.map((at) => shareAt(piece, at, NOISE_MM)).find((s) => s !== undefined);
      return share === undefined ? [] : [{ share, place }];
    })
    .toSorted((a, b) => a.share - b.share);
  const stations = [{ share: 0, place: start }, ...inner, { share: 1, place: end }];
  return stations.slice(1).flatMap((to, k): Stretch[] => {
    const from = stations[k] as (typeof stations)[number];
    // A piece that is itself a point bounds nothing.
    if (from.place === to.place && isNear(piece.from, pointOn(piece, 0.5))) return [];
    return [{ piece: number, from: from.share, to: to.share, start: from.place, end: to.place }];
  });
};
