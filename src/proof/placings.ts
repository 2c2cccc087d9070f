import type { Loop } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { type Piece, piecesOf } from '../geometry/piece.ts';
import { NOISE_SHARE, SAME_IN_FILE_MM } from '../geometry/tolerance.ts';
import { add, distance, sub, type Vec2 } from '../geometry/vec2.ts';
import { centroidOf } from '../measure/centroid.ts';
import { type Alignment, onto } from '../measure/placing.ts';

/**
 * Lines nearer than this to where they were made count as found, mm; in a file that was scaled down
 * the distance is scaled down with it.
 */
export const ALIGNED_MM = 0.01;

/** Sizes that differ by no more than this share may be those of one part. */
export const SIMILAR = 0.05;

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
  const pairs = pairsOf(made, outline);
  for (const [p, q] of pairs) {
    yield onto([p.from, p.to], [q.from, q.to], false);
    // A mirrored outline that still runs counter-clockwise is gone round the other way.
    yield onto([p.from, p.to], [q.to, q.from], true);
  }
  yield* byHoles(from, others, holes, target.holes);
  for (const [p, q] of pairs) {
    yield* inItsLength(p, q.from, q.to, false);
    yield* inItsLength(p, q.to, q.from, true);
  }
}

/** The longest pieces that were made, each with those of the file that it may have become. */
const pairsOf = (made: Loop, outline: Loop): (readonly [Piece, Piece])[] => {
  const longest = piecesOf(outline).sort(byLength).slice(0, MOST_TRIED);
  return piecesOf(made)
    .sort(byLength)
    .slice(0, MOST_PIECES)
    .flatMap((p) =>
      longest.flatMap((q) => (Math.abs(p.bulge - q.bulge) > ALIKE_BULGE ? [] : [[p, q] as const])),
    );
};

/**
 * Placings that lay a piece onto one of the file that was lengthened a little, in its own length from
 * either end.
 */
function* inItsLength(
  { from, to }: Piece,
  u: Vec2,
  v: Vec2,
  mirrored: boolean,
): Generator<Alignment> {
  const times = distance(from, to) / distance(u, v);
  if (Math.abs(times - 1) > SIMILAR || Math.abs(times - 1) < NOISE_SHARE) return;
  const [x, y] = sub(v, u);
  yield onto([from, to], [u, add(u, [x * times, y * times])], mirrored);
  yield onto([from, to], [sub(v, [x * times, y * times]), v], mirrored);
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
