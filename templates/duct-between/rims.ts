import {
  arcOf,
  cosDeg,
  NOISE_DEG,
  pieceOf,
  piecesOf,
  pointOn,
  sinDeg,
  wholeUp,
} from '../../src/template.ts';
import type { OutlinePiece, Vec2, Vec3 } from '../../src/template.ts';
import { type DuctEnd, type DuctEnds, type EndName, placedAt } from './ends.ts';
import type { DuctBetween } from './inputs.ts';
import { directionOf, sidesOf, tangentAt, touchDeg } from './touch.ts';

/** The corners of an end between which its walls are flat, counter-clockwise. */
export interface Rim {
  readonly end: DuctEnd;
  readonly flat: readonly Vec2[];
  readonly points: readonly Vec3[];
  /** Whether the edge from each corner to the next is a straight side, not a chord of a round. */
  readonly isSide: readonly boolean[];
}

/** Directions in which both ends face where one flat wall touches both. */
interface Event {
  readonly near: number;
  readonly far: number;
}

/**
 * Both ends as polygons. Rounds are divided where they face as the other end does, so that chords
 * of both lie in one plane and one facet goes from the one to the other.
 */
export const rimsOf = (v: DuctBetween, ends: DuctEnds): Readonly<Record<EndName, Rim>> => {
  const events = eventsOf(ends);
  const rim = (name: EndName): Rim => {
    const end = ends[name];
    const facing = divided(v, ends, events, name);
    const made = end.isRound ? roundRim(v, end, facing) : outlineRim(v, end, facing);
    return { end, ...made, points: made.flat.map((p) => placedAt(end.pose, p)) };
  };
  return { near: rim('near'), far: rim('far') };
};

/** Where walls stand on the straight sides of either end; a tangent where there are none. */
const eventsOf = ({ near, far }: DuctEnds): Event[] => {
  const onNear = sidesOf(near).map((side): Event => {
    const touch = touchDeg(far, side);
    return { near: side.facesDeg, far: touch ?? NaN };
  });
  const onFar = sidesOf(far).map((side): Event => ({
    near: touchDeg(near, side) ?? NaN,
    far: side.facesDeg,
  }));
  const events = [...onNear, ...onFar].filter((e) => !Number.isNaN(e.near + e.far));
  if (events.length > 0) return events;
  // Two rounds: the walls begin where they lean towards each other.
  const { z } = far.pose;
  const start = Math.hypot(z[0], z[1]) < LEAST_LEAN ? -90 : directionOf([z[0], z[1]]);
  return [{ near: start, far: touchDeg(far, tangentAt(near, start)) ?? start }];
};

/** Planes that lean less, as a sine, are parallel to whoever divides a circle. */
const LEAST_LEAN = 1e-6;

const around = (deg: number): number => deg - 360 * Math.floor(deg / 360);

/** Radius of the round of an end in a direction; 0 at a corner. */
const radiusAt = (end: DuctEnd, deg: number): number =>
  Math.max(
    0,
    ...piecesOf(end.loop).flatMap(({ from, to, bulge }) => {
      if (bulge <= 0) return [];
      const { radius, startRad, sweepRad } = arcOf(from, to, bulge);
      const past = around(deg - (startRad * 180) / Math.PI);
      return past * Math.PI < sweepRad * 180 ? [radius] : [];
    }),
  );

/** The greatest turn from facet to facet on rounds of a radius, degrees. */
const stepDeg = (v: DuctBetween, radiusMm: number): number =>
  v.walls === 'smooth'
    ? 360 / v.divisions
    : // The rise of a chord over half its turn a is r (1 - cos a).
      Math.min(
        MOST_STEP_DEG,
        (Math.acos(Math.max(-1, 1 - v.chordOff / Math.max(radiusMm, v.chordOff))) * 360) / Math.PI,
      );

/** No fewer than four flats to a circle. */
const MOST_STEP_DEG = 90;

/** Directions of an end, rising from its first event, by which its rounds are divided. */
const divided = (
  v: DuctBetween,
  ends: DuctEnds,
  events: readonly Event[],
  name: EndName,
): number[] => {
  const other = name === 'near' ? 'far' : 'near';
  const sorted = events
    .map((e) => ({ own: around(e[name]), other: e[other] }))
    .toSorted((a, b) => a.own - b.own);
  return sorted.flatMap(({ own, other: at }, i) => {
    const next = sorted[(i + 1) % sorted.length] as (typeof sorted)[number];
    const whole = sorted.length === 1 ? 360 : 0;
    const gap = whole + around(next.own - own);
    const beyond = whole + around(next.other - at);
    const radius = Math.max(
      radiusAt(ends[name], own + gap / 2),
      radiusAt(ends[other], at + beyond / 2),
    );
    // Where the outlines run otherwise round each other the other gap means nothing.
    const most = beyond > gap + 90 ? gap : Math.max(gap, beyond);
    const parts = Math.max(1, wholeUp(most / stepDeg(v, radius)));
    return Array.from({ length: parts }, (_, k) => own + (gap * k) / parts);
  });
};

/** Divisions nearer than this share of a step to another are left out: a facet would be a sliver. */
const SLIVER = 0.2;

/**
 * A circle divided in those directions. n chords are together shorter than it; chords that add up
 * to its circumference stand on a circle somewhat larger.
 */
const roundRim = (
  v: DuctBetween,
  { loop }: DuctEnd,
  facing: readonly number[],
): Pick<Rim, 'flat' | 'isSide'> => {
  const { from, to, bulge } = pieceOf(loop, 0);
  const { centre, radius } = arcOf(from, to, bulge);
  const least = SLIVER * stepDeg(v, radius);
  const kept = facing.filter((deg, i) => i === 0 || deg - (facing[i - 1] as number) > least);
  const last = 360 + (kept[0] ?? 0) - (kept.at(-1) ?? 0);
  const degs = kept.length > 3 && last < least ? kept.slice(0, -1) : kept;
  const chords = degs.map((deg, i) => sinDeg(((degs[i + 1] ?? (degs[0] ?? 0) + 360) - deg) / 2));
  const grown =
    v.roundEdge === 'chords' ? radius : (Math.PI * radius) / chords.reduce((a, b) => a + b, 0);
  return {
    flat: degs.map((deg) => [centre[0] + grown * cosDeg(deg), centre[1] + grown * sinDeg(deg)]),
    isSide: degs.map(() => false),
  };
};

const outlineRim = (
  v: DuctBetween,
  { loop }: DuctEnd,
  facing: readonly number[],
): Pick<Rim, 'flat' | 'isSide'> => {
  const corners = piecesOf(loop).flatMap((piece) =>
    [piece.from, ...inside(v, piece, facing)].map((at) => ({ at, isSide: piece.bulge === 0 })),
  );
  return { flat: corners.map(({ at }) => at), isSide: corners.map(({ isSide }) => isSide) };
};

/** Points that divide a round. */
const inside = (v: DuctBetween, piece: OutlinePiece, facing: readonly number[]): Vec2[] => {
  if (piece.bulge === 0) return [];
  const { radius, startRad, sweepRad } = arcOf(piece.from, piece.to, piece.bulge);
  const [start, sweep] = [(startRad * 180) / Math.PI, (Math.abs(sweepRad) * 180) / Math.PI];
  const step = stepDeg(v, radius);
  if (piece.bulge < 0) {
    const parts = wholeUp(sweep / step);
    return Array.from({ length: parts - 1 }, (_, k) => pointOn(piece, (k + 1) / parts));
  }
  const least = Math.max(NOISE_DEG, SLIVER * Math.min(step, sweep));
  const kept: number[] = [];
  for (const turn of facing.map((deg) => around(deg - start)).toSorted((a, b) => a - b))
    if (turn - (kept.at(-1) ?? 0) > least && sweep - turn > least) kept.push(turn);
  return kept.map((turn) => pointOn(piece, turn / sweep));
};
