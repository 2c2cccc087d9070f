import type { RolledPlace } from '../contract/asked.ts';
import type { RolledMiddle } from '../model/wish.ts';
import type { Loop } from '../geometry/loop.ts';
import { pieceOf, piecesOf, pointOn } from '../geometry/piece.ts';
import { distance, dot, sub, type Vec2 } from '../geometry/vec2.ts';
import { dot3, length3, sub3, type Vec3 } from '../geometry/vec3.ts';
import { type Alignment, placed, placedVector } from './placing.ts';

/**
 * What a place of a rolled wall measures: the outline is rolled up again, point by point, on the
 * surface that was asked for, and measured in space. It works out the development by itself, by
 * summing the true angle between lines of the surface, and shares nothing with what made the blank.
 */
export const rolledMm = (place: RolledPlace, outline: Loop, to: Alignment): number => {
  const space = rolledUp(place, to, samplesOf(outline));
  const corner = (at: Vec2): number => PER_PIECE * nearestVertex(outline, placed(to, at));
  const [from, end] = [corner(place.from), corner(place.to)];
  if (place.what === 'apart') return length3(sub3(space[end] as Vec3, space[from] as Vec3));
  // Turned over, the outline runs the other way round.
  const run = to.mirrored ? stretch(space, end, from) : stretch(space, from, end);
  return run.reduce(
    (most, p) => Math.max(most, Math.abs(dot3(place.normal, sub3(p, place.at)))),
    0,
  );
};

const nearestVertex = (outline: Loop, at: Vec2): number =>
  outline.reduce(
    (best, v, i) =>
      distance([v.x, v.y], at) < distance(pieceOf(outline, best).from, at) ? i : best,
    0,
  );

/** Points of each piece before its end: a straight one too leaves its plane when it is rolled. */
const PER_PIECE = 4;

const samplesOf = (outline: Loop): Vec2[] =>
  piecesOf(outline).flatMap((piece) =>
    Array.from({ length: PER_PIECE }, (_, s) => pointOn(piece, s / PER_PIECE)),
  );

/** What lies from one number to another, both taken in; the last is followed by the first. */
const stretch = <T>(all: readonly T[], from: number, end: number): T[] =>
  end >= from ? all.slice(from, end + 1) : [...all.slice(from), ...all.slice(0, end + 1)];

/** Takes points of the file, each some way on round the outline from the last, to space. */
const rolledUp = (
  { frame, shape }: RolledPlace,
  to: Alignment,
  points: readonly Vec2[],
): readonly Vec3[] => {
  const [at, round, axis] = [
    placed(to, frame.at),
    placedVector(to, frame.round),
    placedVector(to, frame.axis),
  ];
  const own = points.map((p): Vec2 => {
    const from = sub(p, at);
    // The vectors are as long as the file is scaled.
    return [dot(from, round) / to.scale ** 2, dot(from, axis) / to.scale ** 2];
  });
  if (shape.kind === 'cone') {
    const roll = rollingOf(shape);
    const turns = turnsOf(own);
    return own.map(([x, y], i) => roll(turns[i] as number, Math.hypot(x, y)));
  }
  const { radiusMm } = shape;
  return own.map(([x, y]) => [
    radiusMm * Math.cos(x / radiusMm),
    radiusMm * Math.sin(x / radiusMm),
    y,
  ]);
};

const TURN = 2 * Math.PI;

/**
 * Angles about the apex from the first line of a cone, radians, gone along the outline from point to
 * point: a wall with its lap may take up nearly all of the round in the flat. It begins at the first
 * line, or a gap away from it.
 */
const turnsOf = (points: readonly Vec2[]): readonly number[] => {
  let last = 0;
  const turns = points.map(([x, y]) => {
    const turn = Math.atan2(x, y) - last;
    last += turn - TURN * Math.round(turn / TURN);
    return last;
  });
  const first = turns.reduce((least, turn) => Math.min(least, turn), Infinity);
  return turns.map((turn) => turn - TURN * Math.round(first / TURN));
};

type Cone = Extract<RolledMiddle, { readonly kind: 'cone' }>;

const rollings = new WeakMap<Cone, ReturnType<typeof coneRolling>>();

/** The wishes of a wall are all about one cone, which is gone round once. */
const rollingOf = (cone: Cone): ReturnType<typeof coneRolling> => {
  const roll = rollings.get(cone) ?? coneRolling(cone);
  rollings.set(cone, roll);
  return roll;
};

/** Steps in which a cone is gone round; the sum is exact beyond any file's figures. */
const STEPS = 2880;

/**
 * Rolls a development about its apex back on an oblique cone. Two lines of the cone enclose in the
 * flat the sum of the angles between neighbouring lines, each taken from its own chord by the law
 * of cosines in its half-angle form; the error of the sum falls with the square of the step, and
 * what two steppings give takes it out (Richardson).
 */
const coneRolling = ({
  radiusMm,
  heightMm,
  offsetMm,
  startDeg,
}: Cone): ((turnRad: number, farMm: number) => Vec3) => {
  const apex: Vec3 = [offsetMm, 0, heightMm];
  const foot = (rad: number): Vec3 => [radiusMm * Math.cos(rad), radiusMm * Math.sin(rad), 0];
  const between = (a: number, b: number): number => {
    const [p, q] = [sub3(foot(a), apex), sub3(foot(b), apex)];
    const [m, n] = [length3(p), length3(q)];
    const chord = length3(sub3(p, q));
    return 2 * Math.asin(Math.sqrt(Math.max(0, (chord * chord - (m - n) ** 2) / (4 * m * n))));
  };
  const start = (startDeg * Math.PI) / 180;
  const step = (2 * Math.PI) / STEPS;
  const angle = (a: number, b: number): number => {
    const middle = (a + b) / 2;
    return (4 * (between(a, middle) + between(middle, b)) - between(a, b)) / 3;
  };
  const sums = [0];
  for (let i = 0; i < STEPS; i++)
    sums.push((sums[i] as number) + angle(start + i * step, start + (i + 1) * step));
  const whole = sums[STEPS] as number;
  const roundAt = (flat: number): number => {
    let [low, high] = [0, STEPS];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if ((sums[middle] as number) > flat) high = middle;
      else low = middle;
    }
    // Within a step the development is as good as even; two corrections make it exact.
    let rad = start + low * step;
    const base = rad;
    for (let k = 0; k < 4; k++)
      rad +=
        (flat - (sums[low] as number) - (rad > base ? angle(base, rad) : 0)) /
        (angle(base, base + step) / step);
    return rad;
  };
  return (turnRad, far) => {
    const to = sub3(foot(roundAt(turnRad - whole * Math.floor(turnRad / whole))), apex);
    const long = length3(to);
    return [
      apex[0] + (far * to[0]) / long,
      apex[1] + (far * to[1]) / long,
      apex[2] + (far * to[2]) / long,
    ];
  };
};
