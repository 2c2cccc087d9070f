import { arcOf, NOISE_DEG, piecesOf, wholeUp } from '../../src/template.ts';
import type { Vec2 } from '../../src/template.ts';
import type { DuctEnd, DuctEnds, EndName } from './ends.ts';
import type { DuctBetween } from './inputs.ts';
import { directionOf, sidesOf, tangentAt, touchDeg } from './touch.ts';

/**
 * A stretch of both ends between two flat walls that touch both: the directions in which each end
 * faces where its rounds are divided, rising, from the one wall up to the other.
 */
export interface Span {
  readonly near: readonly number[];
  readonly far: readonly number[];
}

/** Directions in which both ends face where one flat wall touches both. */
interface Event {
  readonly near: number;
  readonly far: number;
}

/** The stretches of both ends, one after the other round the duct. */
export const spansOf = (v: DuctBetween, ends: DuctEnds): Span[] => {
  const events = eventsOf(ends).toSorted((a, b) => around(a.near) - around(b.near));
  const gaps = events.map((event, i) => {
    const next = events[(i + 1) % events.length] as Event;
    const whole = events.length === 1 ? 360 : 0;
    return {
      event,
      near: whole + around(next.near - event.near),
      far: whole + around(next.far - event.far),
    };
  });
  // Outlines that go in and out may meet their walls in another order; each is divided by itself.
  const turn = gaps.reduce((sum, { far }) => sum + far, 0);
  if (Math.abs(turn - 360) > NOISE_DEG * events.length) return apart(v, ends, events);
  return gaps.map(({ event, near, far }) => {
    const rounds = [
      roundAt(ends.near, event.near + near / 2),
      roundAt(ends.far, event.far + far / 2),
    ];
    const step = stepDeg(v, Math.max(...rounds.map((round) => round?.radius ?? 0)));
    // Two chords can be laid in one plane with two others; of one with one other that would be two
    // facets too.
    const isTwisted = !rounds.includes(undefined) && lean(ends) > LEAST_LEAN;
    const least = isTwisted && Math.min(near, far) > SLIVER * step ? 2 : 1;
    const parts = Math.max(least, wholeUp(Math.max(near, far) / step));
    const evenly = (from: number, gap: number): number[] =>
      Array.from({ length: parts + 1 }, (_, k) => from + (gap * k) / parts);
    return { near: evenly(event.near, near), far: evenly(event.far, far) };
  });
};

const apart = (v: DuctBetween, ends: DuctEnds, events: readonly Event[]): Span[] => {
  const own = (name: EndName): number[][] => {
    const degs = events.map((event) => around(event[name])).toSorted((a, b) => a - b);
    return degs.map((deg, i) => {
      const gap = around((degs[(i + 1) % degs.length] as number) - deg);
      const step = stepDeg(v, roundAt(ends[name], deg + gap / 2)?.radius ?? 0);
      const parts = Math.max(1, wholeUp(gap / step));
      return Array.from({ length: parts + 1 }, (_, k) => deg + (gap * k) / parts);
    });
  };
  const [near, far] = [own('near'), own('far')];
  return near.map((degs, i) => ({ near: degs, far: far[i] ?? [] }));
};

/** Where walls stand on the straight sides of either end; a tangent where there are none. */
const eventsOf = ({ near, far }: DuctEnds): Event[] => {
  const onNear = sidesOf(near).map((side): Event => ({
    near: side.facesDeg,
    far: touchDeg(far, side) ?? NaN,
  }));
  const onFar = sidesOf(far).map((side): Event => ({
    near: touchDeg(near, side) ?? NaN,
    far: side.facesDeg,
  }));
  const events = [...onNear, ...onFar].filter((e) => !Number.isNaN(e.near + e.far));
  if (events.length > 0) return withoutTwins(events);
  // Two rounds: the walls begin where they lean towards each other.
  const { z } = far.pose;
  const start = lean({ near, far }) < LEAST_LEAN ? -90 : directionOf([z[0], z[1]]);
  return [{ near: start, far: touchDeg(far, tangentAt(near, start)) ?? start }];
};

/** Sides of both ends that lie in one wall are one event. */
const withoutTwins = (events: readonly Event[]): Event[] =>
  events.filter(
    (a, i) => !events.slice(0, i).some((b) => isSame(a.near, b.near) && isSame(a.far, b.far)),
  );

const isSame = (a: number, b: number): boolean => {
  const off = around(a - b);
  return Math.min(off, 360 - off) < NOISE_DEG;
};

const lean = ({ far: { pose } }: DuctEnds): number => Math.hypot(pose.z[0], pose.z[1]);

/** Planes that lean less, as a sine, are parallel to whoever divides a circle. */
const LEAST_LEAN = 1e-6;

/** An angle brought to 0 and less than 360 degrees. */
export const around = (deg: number): number => deg - 360 * Math.floor(deg / 360);

/** A round of an end. */
export interface Round {
  readonly centre: Vec2;
  readonly radius: number;
}

/** The outward round of an end that faces a direction; `undefined` at a corner. */
export const roundAt = (end: DuctEnd, deg: number): Round | undefined => {
  for (const { from, to, bulge } of piecesOf(end.loop)) {
    if (bulge <= 0) continue;
    const { centre, radius, startRad, sweepRad } = arcOf(from, to, bulge);
    if (around(deg - (startRad * 180) / Math.PI) * Math.PI < sweepRad * 180)
      return { centre, radius };
  }
  return undefined;
};

/** The greatest turn from facet to facet on rounds of a radius, degrees. */
export const stepDeg = (v: DuctBetween, radiusMm: number): number =>
  v.walls === 'smooth'
    ? 360 / v.divisions
    : // The rise of a chord over half its turn a is r (1 - cos a).
      Math.min(
        MOST_STEP_DEG,
        (Math.acos(Math.max(-1, 1 - v.chordOff / Math.max(radiusMm, v.chordOff))) * 360) / Math.PI,
      );

/** No fewer than four flats to a circle. */
const MOST_STEP_DEG = 90;

/** Divisions nearer than this share of a step to another are left out: a facet would be a sliver. */
export const SLIVER = 0.2;
