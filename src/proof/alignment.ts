import type { Loop } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { type Piece, piecesOf } from '../geometry/piece.ts';
import { add, distance, middle, sub, type Vec2 } from '../geometry/vec2.ts';
import type { Asked } from '../contract/asked.ts';
import { centroidOf } from '../measure/centroid.ts';
import type { Contour } from '../measure/contours.ts';
import type { FoldLine, FileLines } from './file-lines.ts';
import { distancesFrom, distanceFromPiece, markersOf } from '../measure/distances.ts';
import { type Alignment, AS_MADE, loopOf, onto, placed } from '../measure/placing.ts';
import { FILE_STEP_MM, NOISE_SHARE, SAME_IN_FILE_MM } from '../geometry/tolerance.ts';

/** Arcs whose bulges differ by less than this may be the same arc. */
const ALIKE_BULGE = 1e-4;

/** A scale nearer to 1 than this comes from an edit, or from nothing at all. */
export const SAME_SCALE = 1e-4;

/**
 * Lines nearer than this to where they were made count as found, mm; in a file that was scaled down
 * the distance is scaled down with it.
 */
const ALIGNED_MM = 0.01;
/**
 * The features that are searched for: points of the outline, middles of holes and of fold lines.
 */
interface Features {
  readonly outline: readonly Vec2[];
  readonly holes: readonly HoleFeature[];
  readonly folds: readonly { readonly at: Vec2; readonly direction: FoldLine['direction'] }[];
  readonly count: number;
}

/**
 * A hole by its middle. A hole that is not round also has points of its edge, which show how it
 * lies.
 */
interface HoleFeature {
  readonly at: Vec2;
  readonly edge: readonly Vec2[];
}

/** How the blank lies in a file, and the share of the features that lie so: 1 for all of them. */
export interface Aligned {
  readonly to: Alignment;
  readonly share: number;
}

/**
 * How the blank lies in the file. It lies as it was made, if everything is there; otherwise it is
 * the placing that explains most of what the file holds. One that only shifts and turns the blank
 * is harmless; one that enlarges or mirrors it is an accident. A shape that is its own mirror image
 * lies equally well either way, and counts as not mirrored.
 */
export const align = (asked: Asked, outline: Contour, sheet: FileLines): Aligned => {
  const made = loopOf(asked.cut.outline);
  const features = featuresOf(asked, made, sheet);
  const all = features.count;
  const most = found(features, outline.loop, sheet, AS_MADE, 0);
  if (most === all) return { to: AS_MADE, share: 1 };
  // A placing that explains only a little more than another one hides an edit.
  const clearly = Math.max(2, all / 20);
  const best: Record<Sort, Scored> = {
    rigid: { to: AS_MADE, score: most },
    scaled: NOTHING,
    mirrored: NOTHING,
  };
  const size = Math.sqrt(signedArea(outline.loop) / signedArea(made));
  let steps = 0;
  for (const to of candidates(made, outline.loop, features, sheet)) {
    steps += outline.loop.length + sheet.holes.length;
    if (steps > MOST_STEPS) break;
    // A small copy of the blank may seem to lie on some part of the file. A blank that was really
    // enlarged has its metal enlarged as well.
    if (sortOf(to) !== 'rigid' && Math.abs(to.scale / size - 1) > SIMILAR) continue;
    const known = best[sortOf(to)];
    const score = found(
      features,
      outline.loop,
      sheet,
      to,
      Math.min(all, Math.max(most + clearly, known.score + 1)),
    );
    if (score <= known.score || score < Math.min(all, most + clearly)) continue;
    best[sortOf(to)] = { to, score };
    if (best.rigid.score === all) break;
  }
  const { to, score } = [best.scaled, best.mirrored].reduce(
    (one, other) => (isBetter(other, one, all, clearly) ? other : one),
    best.rigid,
  );
  return { to, share: score / all };
};

const SIMILAR = 0.05;

/** What a placing does to a blank; the first is the most likely. */
type Sort = 'rigid' | 'scaled' | 'mirrored';

interface Scored {
  readonly to: Alignment;
  readonly score: number;
}

const NOTHING: Scored = { to: AS_MADE, score: 0 };

const sortOf = ({ mirrored, scale }: Alignment): Sort =>
  mirrored ? 'mirrored' : Math.abs(scale - 1) < SAME_SCALE ? 'rigid' : 'scaled';

/** Whether a less likely placing explains everything where the other does not, or clearly more. */
const isBetter = (less: Scored, more: Scored, all: number, clearly: number): boolean =>
  (less.score === all && more.score < all) || less.score >= more.score + clearly;

/**
 * The most corners and holes that are compared in all. A blank has some hundred, but a file may
 * have a hundred thousand.
 */
const MOST_STEPS = 3_000_000;

const featuresOf = ({ cut, bends }: Asked, made: Loop, { folds }: FileLines): Features => {
  const points = { outline: markersOf(made), holes: cut.holes.map(holeFeature) };
  // The cut lines alone identify a file without fold lines.
  const lines =
    folds.length === 0
      ? []
      : bends.map(({ centreLine, direction }) => ({ at: middle(...centreLine), direction }));
  return {
    ...points,
    folds: lines,
    count: points.outline.length + points.holes.length + lines.length,
  };
};

const holeFeature = (vertices: Asked['cut']['holes'][number]): HoleFeature => {
  const loop = loopOf(vertices);
  const isRound = loop.length === 2 && loop.every((v) => v.bulge === 1);
  return { at: centroidOf(loop), edge: isRound ? [] : markersOf(loop) };
};

/**
 * How many of the features lie where a placing says; it gives up as soon as `least` is out of
 * reach.
 */
const found = (
  features: Features,
  outline: Loop,
  sheet: FileLines,
  to: Alignment,
  least: number,
): number => {
  const near = Math.max(ALIGNED_MM * to.scale, FILE_STEP_MM);
  let reachable = features.count;
  const count = <T>(all: readonly T[], far: (one: T) => number): void => {
    for (const one of all) {
      if (reachable < least) return;
      if (!(far(one) < near)) reachable -= 1;
    }
  };
  const fromOutline = distancesFrom(outline, near / 2);
  count(features.outline, (p) => fromOutline(placed(to, p)));
  count(features.holes, (hole) =>
    sheet.holes.reduce((nearest, h) => Math.min(nearest, farFrom(h, hole, to, near)), Infinity),
  );
  count(features.folds, ({ at, direction }) =>
    sheet.folds.reduce(
      (nearest, f) =>
        f.direction === direction
          ? Math.min(
              nearest,
              distanceFromPiece(placed(to, at), { from: f.from, to: f.to, bulge: 0 }),
            )
          : nearest,
      Infinity,
    ),
  );
  return reachable;
};

const middleOf = ({ circle, loop }: Contour): Vec2 => circle?.centre ?? centroidOf(loop);

/**
 * How far a hole of the file is from the place where one was made. For a hole that lies there
 * askew, it is the distance of the point that is farthest off.
 */
const farFrom = (h: Contour, { at, edge }: HoleFeature, to: Alignment, near: number): number => {
  const far = distance(middleOf(h), placed(to, at));
  if (far >= near || edge.length === 0) return far;
  const fromEdge = distancesFrom(h.loop, near / 2);
  return edge.reduce((most, p) => Math.max(most, fromEdge(placed(to, p))), far);
};

/**
 * Placings that lay the middle of the blank onto that of the file, one of its longest pieces onto
 * those of the file, or two of its middles. Placings that turn nothing come first, because they are
 * the most likely.
 */
function* candidates(
  made: Loop,
  outline: Loop,
  features: Features,
  sheet: FileLines,
): Generator<Alignment> {
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
  yield* byHoles(from, others, features, sheet);
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
  { holes }: Features,
  sheet: FileLines,
): Generator<Alignment> {
  const middles = sheet.holes.slice(0, MOST_TRIED).map(middleOf);
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
