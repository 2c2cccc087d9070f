import { BoxGrid, spot } from '../geometry/box-grid.ts';
import type { Loop } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { distance, middle, type Vec2 } from '../geometry/vec2.ts';
import type { Asked } from '../contract/asked.ts';
import { centroidOf } from '../measure/centroid.ts';
import type { Contour } from '../measure/contours.ts';
import type { FoldLine, FileLines } from './file-lines.ts';
import { distancesFrom, distanceFromPiece, markersOf } from '../measure/distances.ts';
import { type Alignment, AS_MADE, loopOf, placed } from '../measure/placing.ts';
import { ALIGNED_MM, placings, SIMILAR } from './placings.ts';
import { FILE_STEP_MM } from '../geometry/tolerance.ts';

/** A scale nearer to 1 than this comes from an edit, or from nothing at all. */
export const SAME_SCALE = 1e-4;

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

/** What the features are searched for in: the blank of a file, its holes by where they are. */
interface Target {
  readonly outline: Loop;
  readonly holes: readonly { readonly at: Vec2; readonly loop: Loop }[];
  readonly byPlace: BoxGrid;
  readonly folds: FileLines['folds'];
}

const targetOf = (outline: Loop, sheet: FileLines): Target => {
  const holes = sheet.holes.map((h) => ({ at: middleOf(h), loop: h.loop }));
  return {
    outline,
    holes,
    byPlace: new BoxGrid(holes.map(({ at }) => spot(at))),
    folds: sheet.folds,
  };
};

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
  const target = targetOf(outline.loop, sheet);
  const most = found(features, target, AS_MADE, 0);
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
  for (const to of placings(made, features.holes, target)) {
    steps += outline.loop.length + sheet.holes.length;
    if (steps > MOST_STEPS) break;
    // A small copy of the blank may seem to lie on some part of the file. A blank that was really
    // enlarged has its metal enlarged as well.
    if (sortOf(to) !== 'rigid' && Math.abs(to.scale / size - 1) > SIMILAR) continue;
    const known = best[sortOf(to)];
    const score = found(
      features,
      target,
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
  { outline, holes, byPlace, folds }: Target,
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
  count(features.holes, (hole) => {
    const at = placed(to, hole.at);
    return byPlace
      .near(spot(at), near)
      .reduce(
        (nearest, i) =>
          Math.min(nearest, farFrom(holes[i] as Target['holes'][number], at, hole.edge, to, near)),
        Infinity,
      );
  });
  count(features.folds, ({ at, direction }) =>
    folds.reduce(
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
const farFrom = (
  there: Target['holes'][number],
  at: Vec2,
  edge: HoleFeature['edge'],
  to: Alignment,
  near: number,
): number => {
  const far = distance(there.at, at);
  if (far >= near || edge.length === 0) return far;
  const fromEdge = distancesFrom(there.loop, near / 2);
  return edge.reduce((most, p) => Math.max(most, fromEdge(placed(to, p))), far);
};
