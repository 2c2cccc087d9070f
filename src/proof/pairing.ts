import { BoxGrid, spot } from '../geometry/box-grid.ts';
import { distance, type Vec2 } from '../geometry/vec2.ts';
import { signedArea } from '../geometry/measure.ts';
import type { Asked, AskedBend } from '../contract/asked.ts';
import { centroidOf } from '../measure/centroid.ts';
import type { Contour } from '../measure/contours.ts';
import type { FoldLine } from './file-lines.ts';
import { type Alignment, loopOf, placed } from '../measure/placing.ts';

/**
 * A partner in the second list for each of the first: the nearest pairs come first, and each is
 * taken once. `near` names those of the second that may lie within a distance of one of the first,
 * mm, in their order.
 */
export const paired = (
  from: number,
  to: number,
  far: (i: number, j: number) => number,
  near: (i: number, withinMm: number) => Iterable<number>,
): (number | undefined)[] => {
  const partners: (number | undefined)[] = Array.from({ length: from }, (_, i) =>
    i < to && far(i, i) < SURE_MM ? i : undefined,
  );
  const taken = new Set(partners);
  for (const reach of REACHES_MM) {
    const pairs: { i: number; j: number; d: number }[] = [];
    for (let i = 0; i < from; i++) {
      if (partners[i] !== undefined) continue;
      for (const j of near(i, reach)) {
        const d = taken.has(j) ? Infinity : far(i, j);
        if (d < reach) pairs.push({ i, j, d });
      }
      if (pairs.length > MOST_PAIRS) return partners;
    }
    for (const { i, j } of pairs.sort((p, q) => p.d - q.d)) {
      if (partners[i] !== undefined || taken.has(j)) continue;
      partners[i] = j;
      taken.add(j);
    }
  }
  return partners;
};

/** Pairs are sought within these distances, one after the other, so that most are found at once. */
const REACHES_MM = [1, 10, 100, Infinity];

/** Of thousands that all lie elsewhere no pair means anything, and their number has no end. */
const MOST_PAIRS = 4_000_000;

/** Nothing else lies this near, mm. */
const SURE_MM = 0.01;

/** The hole of the file that each hole as made has become: near its place, and of its size. */
export const pairedHoles = (
  asked: Asked,
  to: Alignment,
  holes: readonly Contour[],
): (Contour | undefined)[] => {
  const size = (area: number): number => Math.sqrt(Math.abs(area));
  const made = asked.cut.holes
    .map(loopOf)
    .map((loop) => ({ at: placed(to, centroidOf(loop)), size: to.scale * size(signedArea(loop)) }));
  const now = holes.map(({ loop, circle }) => ({
    at: circle?.centre ?? centroidOf(loop),
    size: size(signedArea(loop)),
  }));
  const far = (i: number, j: number): number => {
    const [a, b] = [made[i], now[j]];
    return a === undefined || b === undefined
      ? Infinity
      : distance(a.at, b.at) + Math.abs(a.size - b.size);
  };
  const grid = new BoxGrid(now.map(({ at }) => spot(at)));
  const near = (i: number, withinMm: number): number[] =>
    grid.near(spot((made[i] as { readonly at: Vec2 }).at), withinMm);
  return paired(made.length, now.length, far, near).map((j) =>
    j === undefined ? undefined : holes[j],
  );
};

/** A fold line farther from its place than this share of its length is a different one. */
const FAR_SHARE = 0.5;

export const pairedFolds = (
  bends: readonly AskedBend[],
  to: Alignment,
  folds: readonly FoldLine[],
): (FoldLine | undefined)[] => {
  const made = bends.map((b): [Vec2, Vec2] => [
    placed(to, b.centreLine[0]),
    placed(to, b.centreLine[1]),
  ]);
  const far = (i: number, j: number): number => {
    const [ends, fold] = [made[i], folds[j]];
    if (ends === undefined || fold === undefined) return Infinity;
    const apart = Math.min(
      Math.max(distance(ends[0], fold.from), distance(ends[1], fold.to)),
      Math.max(distance(ends[0], fold.to), distance(ends[1], fold.from)),
    );
    return apart > FAR_SHARE * distance(...ends) + 5 ? Infinity : apart;
  };
  return paired(made.length, folds.length, far, () => folds.keys()).map((j) =>
    j === undefined ? undefined : folds[j],
  );
};
