import type { RolledPlace } from '../contract/asked.ts';
import type { RolledMiddle } from '../model/wish.ts';
import type { Loop } from '../geometry/loop.ts';
import { pieceOf, pointOn } from '../geometry/piece.ts';
import { distance, dot, sub, type Vec2 } from '../geometry/vec2.ts';
import { dot3, length3, sub3, type Vec3 } from '../geometry/vec3.ts';
import { type Alignment, placed, placedVector } from './placing.ts';

/**
 * What a place of a rolled wall measures: the outline is rolled up again, point by point, on the
 * surface that was asked for, and measured in space. It works out the development by itself, by
 * summing the true angle between lines of the surface, and shares nothing with what made the blank.
 */
export const rolledMm = (place: RolledPlace, outline: Loop, to: Alignment): number => {
  const roll = rolling(place, to);
  const corner = (at: Vec2): number => nearestVertex(outline, placed(to, at));
  const [from, end] = [corner(place.from), corner(place.to)];
  if (place.what === 'apart')
    return length3(sub3(roll(vertexOf(outline, end)), roll(vertexOf(outline, from))));
  // Turned over, the outline runs the other way round.
  const run = to.mirrored ? samples(outline, end, from) : samples(outline, from, end);
  const off = (p: Vec2): number => Math.abs(dot3(place.normal, sub3(roll(p), place.at)));
  return run.reduce((most, p) => Math.max(most, off(p)), 0);
};

const vertexOf = (outline: Loop, i: number): Vec2 => pieceOf(outline, i).from;

const nearestVertex = (outline: Loop, at: Vec2): number =>
  outline.reduce(
    (best, v, i) => (distance([v.x, v.y], at) < distance(vertexOf(outline, best), at) ? i : best),
    0,
  );

/** Points of each piece between its ends: a straight one too leaves its plane when it is rolled. */
const PER_PIECE = 4;

const samples = (outline: Loop, from: number, to: number): Vec2[] => {
  const n = outline.length;
  const count = (to - from + n) % n;
  return [
    ...Array.from({ length: count }, (_, k) => pieceOf(outline, (from + k) % n)).flatMap((piece) =>
      Array.from({ length: PER_PIECE }, (_, s) => pointOn(piece, s / PER_PIECE)),
    ),
    vertexOf(outline, to),
  ];
};

/** Takes points of the file to space. */
const rolling = ({ frame, shape }: RolledPlace, to: Alignment): ((p: Vec2) => Vec3) => {
  const [at, round, axis] = [
    placed(to, frame.at),
    placedVector(to, frame.round),
    placedVector(to, frame.axis),
  ];
  const local = (p: Vec2): Vec2 => {
    const own = sub(p, at);
    // The vectors are as long as the file is scaled.
    return [dot(own, round) / to.scale ** 2, dot(own, axis) / to.scale ** 2];
  };
  if (shape.kind === 'cylinder') {
    const { radiusMm } = shape;
    return (p) => {
      const [x, y] = local(p);
      return [radiusMm * Math.cos(x / radiusMm), radiusMm * Math.sin(x / radiusMm), y];
    };
  }
  const onCone = coneRolling(shape);
  return (p) => onCone(local(p));
};

type Cone = Extract<RolledMiddle, { readonly kind: 'cone' }>;

/** Steps in which a cone is gone round; the sum is exact beyond any file's figures. */
const STEPS = 2880;

/**
 * Rolls a development about its apex back on an oblique cone. Two lines of the cone enclose in the
 * flat the sum of the angles between neighbouring lines, each taken from its own chord by the law
 * of cosines in its half-angle form; the error of the sum falls with the square of the step, and
 * what two steppings give takes it out (Richardson).
 */
const coneRolling = ({ radiusMm, heightMm, offsetMm, startDeg }: Cone): ((p: Vec2) => Vec3) => {
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
  return ([x, y]) => {
    const far = Math.hypot(x, y);
    const flat = Math.atan2(x, y);
    // The development lies about the middle of its angle, and repeats itself beyond its ends.
    const own = flat < whole / 2 - Math.PI ? flat + 2 * Math.PI : flat;
    const to = sub3(foot(roundAt(own - whole * Math.floor(own / whole))), apex);
    const long = length3(to);
    return [
      apex[0] + (far * to[0]) / long,
      apex[1] + (far * to[1]) / long,
      apex[2] + (far * to[2]) / long,
    ];
  };
};
