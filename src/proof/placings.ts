import type { Loop } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { type Piece, piecesOf } from '../geometry/piece.ts';
import { SAME_IN_FILE_MM } from '../geometry/tolerance.ts';
import { add, distance, sub, type Vec2 } from '../geometry/vec2.ts';
import { centroidOf } from '../measure/centroid.ts';
import type { Alignment } from '../measure/placing.ts';

/**
 * Lines nearer than this to where they were made count as found, mm; in a file that was scaled down
 * the distance is scaled down with it.
 */
export const ALIGNED_MM = 0.01;

/** Arcs whose bulges differ by less than this may be the same arc. */
const ALIKE_BULGE = 1e-4;

interface Hole {
  readonly at: Vec2;
}

/**
 * Placings that lay the middle of the blank onto that of the file, one of its longest pieces onto
 * those of the file, or two of its middles. Placings that turn nothing come first, because they are
 * the most likely.
 */
export function* placings(
  made: Loop,
  holes: readonly Hole[],
  target: { readonly outline: Loop; readonly holes: readonly Hole[] },
): Generator<Alignment> {
  const { outline } = target;
  const [from, others] = [centroidOf(made), centroidOf(outline)];
  const size = Math.sqrt(signedArea(outline) / signedArea(made));
  for (const scale of [1, size]) {
    for (const mirrored of [false, true])
      yield onto(
        [from, add(from, [1, 0])],
        [others, add(others, [mirrored ? -scale : scale, 0])],
        mirrored,
      );
  }
  const longest = piecesOf(outline).sort(byLength).slice(0, MOST_TRIED);
  for (const p of piecesOf(made).sort(byLength).slice(0, MOST_PIECES)) {
    for (const q of longest) {
      if (Math.abs(p.bulge - q.bulge) > ALIKE_BULGE) continue;
      yield onto([p.from, p.to], [q.from, q.to], false);
      // A mirrored outline that still runs counter-clockwise is gone round the other way.
      yield onto([p.from, p.to], [q.to, q.from], true);
    }
  }
  yield* byHoles(from, others, holes, target.holes);
}

/**
 * Placings by a hole and the middle of the blank; and for an outline that was edited, by the two
 * holes that lie farthest apart.
 */
function* byHoles(
  from: Vec2,
  others: Vec2,
  holes: readonly Hole[],
  there: readonly Hole[],
): Generator<Alignment> {
  const middles = there.slice(0, MOST_TRIED).map(({ at }) => at);
  const pairs = (p: Vec2, q: Vec2, u: Vec2, v: Vec2): Alignment[] => [
    onto([p, q], [u, v], false),
    onto([p, q], [u, v], true),
  ];
  for (const { at: hole } of holes.slice(0, MOST_PIECES)) {
    if (distance(from, hole) < 1) continue;
    for (const at of middles)
      if (distance(others, at) > SAME_IN_FILE_MM) yield* pairs(from, hole, others, at);
  }
  const first = holes[0]?.at;
  if (first === undefined) return;
  const last = holes.reduce(
    (far, { at }) => (distance(first, at) > distance(first, far) ? at : far),
    first,
  );
  const apart = distance(first, last);
  if (apart < 1) return;
  for (const u of middles)
    for (const v of middles)
      if (Math.abs(distance(u, v) - apart) < ALIGNED_MM) yield* pairs(first, last, u, v);
}

const byLength = (p: Piece, q: Piece): number => distance(q.from, q.to) - distance(p.from, p.to);

const MOST_PIECES = 3;
/**
 * The most pieces that are tried, the longest ones, of a file that has more pieces than any blank.
 */
const MOST_TRIED = 300;

/** The placing that takes two points to two others. */
const onto = (
  [p, q]: readonly [Vec2, Vec2],
  [u, v]: readonly [Vec2, Vec2],
  mirrored: boolean,
): Alignment => {
  const [d, e] = [sub(q, p), sub(v, u)];
  const [dx, dy] = [mirrored ? -d[0] : d[0], d[1]];
  const size = dx * dx + dy * dy || 1;
  const [a, b] = [(e[0] * dx + e[1] * dy) / size, (e[1] * dx - e[0] * dy) / size];
  const [px, py] = [mirrored ? -p[0] : p[0], p[1]];
  return {
    mirrored,
    a,
    b,
    x: u[0] - a * px + b * py,
    y: u[1] - b * px - a * py,
    scale: Math.hypot(a, b),
  };
};
