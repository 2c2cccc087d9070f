import { circleThrough, type CircleThrough } from '../geometry/circle-through.ts';
import { type Loop, type Vertex, vertexAt } from '../geometry/loop.ts';
import { PROOF_MM, SAME_TURN_RAD } from '../geometry/tolerance.ts';
import { cross, distance, sub, type Vec2 } from '../geometry/vec2.ts';

/**
 * Rounded coordinates leave their circle by no more than this, mm; the corners of a real polygon
 * leave it by more.
 */
const ON_CIRCLE_MM = 0.001;
/** A run of fewer chords than this may be a polygon. */
const LEAST_CHORDS = 5;

/**
 * A loop with arcs in place of runs of chords. A run is five or more straight pieces in a row whose
 * ends lie on one circle, none of which leaves it by more than a file may be wrong. Programs that
 * have no arcs write them this way.
 */
export const withArcs = (loop: Loop): Loop => {
  if (loop.length < LEAST_CHORDS) return loop;
  const from = startOf(loop);
  const turned = loop.map((_, i) => vertexAt(loop, from + i));
  const arcs: Vertex[] = [];
  for (let i = 0; i < turned.length;) {
    const end = runEnd(turned, i);
    arcs.push(...arcVertices(turned, i, end));
    i = end;
  }
  return arcs.length === loop.length ? loop : arcs;
};

const at = (loop: Loop, i: number): Vec2 => {
  const { x, y } = vertexAt(loop, i);
  return [x, y];
};

/**
 * A vertex that no run passes through: the one after the piece that differs most in length from the
 * next one.
 */
const startOf = (loop: Loop): number => {
  const lengths = loop.map((v, i) =>
    v.bulge === 0 ? distance(at(loop, i), at(loop, i + 1)) : Infinity,
  );
  let best = 0;
  let most = -1;
  for (const [i, length] of lengths.entries()) {
    const next = lengths[(i + 1) % lengths.length] as number;
    const differs = length === next ? 0 : Math.abs(length - next);
    if (differs > most) [most, best] = [differs, i];
  }
  return best + 1;
};

/** The vertex at which the run of chords that starts at `i` ends; `i + 1` where none starts. */
const runEnd = (loop: Loop, i: number): number => {
  let [end, beyond] = [i + 1, loop.length + 1];
  const reaches = (j: number): boolean => isStraight(loop, end - 1, j) && isRun(loop, i, j);
  for (let j = i + LEAST_CHORDS; j < beyond;) {
    if (reaches(j)) {
      end = j;
      j += step(j - i);
    } else beyond = j;
  }
  if (end === i + 1) return end;
  // The run ends somewhere within the last stride, which is halved, because a circle may have many
  // chords.
  while (beyond - end > 1) {
    const j = Math.floor((end + beyond) / 2);
    if (reaches(j)) end = j;
    else beyond = j;
  }
  return end;
};

/**
 * Length of the stride in which a long run is searched, so that the time for a circle of many
 * chords does not grow with the square of their number.
 */
const step = (length: number): number => Math.max(1, Math.floor(length / 4));

const isStraight = (loop: Loop, from: number, to: number): boolean =>
  loop.slice(from, to).every((v) => v.bulge === 0);

/** Whether the chords between two vertices lie on one arc. */
const isRun = (loop: Loop, from: number, to: number): boolean => {
  const circle = circleOfRun(loop, from, to);
  if (circle === undefined) return false;
  const { centre, radius } = circle;
  for (let k = from; k < to; k++) {
    const [a, b] = [at(loop, k), at(loop, k + 1)];
    if (Math.abs(distance(b, centre) - radius) > ON_CIRCLE_MM) return false;
    const half = distance(a, b) / 2;
    if (half >= radius || radius - Math.sqrt(radius * radius - half * half) > PROOF_MM)
      return false;
    if (k > from && cross(sub(a, at(loop, k - 1)), sub(b, a)) > 0 !== circle.isLeft) return false;
  }
  return true;
};

/**
 * The circle through the ends of a run and its middle. Where the run goes nearly all round, its
 * ends say little, and three of its points are used.
 */
const circleOfRun = (loop: Loop, from: number, to: number): CircleThrough | undefined => {
  const share = (of: number): Vec2 => at(loop, from + Math.round((to - from) * of));
  const a = at(loop, from);
  const isNearlyRound = distance(a, at(loop, to)) < distance(a, share(1 / 2)) / 2;
  return isNearlyRound
    ? circleThrough(a, share(1 / 3), share(2 / 3))
    : circleThrough(a, share(1 / 2), share(1));
};

/** A run as one arc, or as two where it goes more than half round. */
const arcVertices = (loop: Loop, from: number, to: number): Vertex[] => {
  if (to - from < LEAST_CHORDS) return [vertexAt(loop, from)];
  const { isLeft, radius } = circleOfRun(loop, from, to) as CircleThrough;
  const sweep = (a: number, b: number): number => {
    let sum = 0;
    for (let k = a; k < b; k++)
      sum += 2 * Math.asin(Math.min(1, distance(at(loop, k), at(loop, k + 1)) / (2 * radius)));
    return sum;
  };
  const vertex = (a: number, b: number): Vertex => ({
    ...vertexAt(loop, a),
    bulge: Math.tan(sweep(a, b) / 4) * (isLeft ? 1 : -1),
  });
  if (sweep(from, to) <= Math.PI + SAME_TURN_RAD) return [vertex(from, to)];
  const middle = from + Math.round((to - from) / 2);
  return [vertex(from, middle), vertex(middle, to)];
};
