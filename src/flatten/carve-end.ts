import { backwards, levelCrossings, type Piece, pieceOf, pointOn } from '../geometry/piece.ts';
import { NO_WIDTH_MM, NOISE_MM } from '../geometry/tolerance.ts';
import { along, distance, dot, leftOf, scale, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { type Loop, vertexAt } from '../geometry/loop.ts';
import type { DraftVertex } from './draft.ts';
import { meetingAt } from './meeting.ts';
import { notchPath, type NotchSize } from './notch.ts';

/** What one fold takes from the edge of a panel. */
export interface Carving {
  readonly fold: string;
  readonly panel: string;
  readonly setbackMm: number;
  /** Absent on a fold of no angle, because it tears nothing. */
  readonly notch: NotchSize | undefined;
  /** Setback of a neighbouring fold, needed where two folds meet at an inner corner. */
  readonly setbackOf: (fold: string) => number;
}

/** Why a folded edge cannot be moved in. */
export type CarveProblem =
  /** The panel does not reach as far as the bend takes. */
  | { readonly kind: 'panel-too-short'; readonly reachMm: number }
  /** Another fold's edge would be cut away. */
  | { readonly kind: 'swallows'; readonly other: string }
  /** Nothing of the tangent line is left between its neighbours. */
  | { readonly kind: 'edge-vanishes' }
  /** Two folds on one line stand closer than a relief is wide. */
  | { readonly kind: 'no-room-for-relief'; readonly needMm: number };

/**
 * The place where the rest of the loop continues beyond one end of the fold, walked from the fold
 * outwards.
 */
export interface End {
  /** Index of the piece that is cut, and the share of it that is gone, seen from the fold. */
  readonly index: number;
  readonly gone: number;
  /**
   * The way from the cut in to the tangent line, without its last point; each point has the bulge
   * of the piece after it.
   */
  readonly path: readonly { readonly at: Vec2; readonly bulge: number }[];
  readonly tangent: Vec2;
}

/** Directions at one end of a fold: along the edge away from the fold, and into the panel. */
interface EndFrame {
  readonly at: Vec2;
  readonly out: Vec2;
  readonly into: Vec2;
}

const seen = (loop: Loop, i: number, step: 1 | -1): Piece =>
  step === 1 ? pieceOf(loop, i) : backwards(pieceOf(loop, i));

/**
 * The place where the loop continues at one end of the fold at piece `at`, backwards from it (-1)
 * or forwards (1).
 */
export const findEnd = (
  loop: Loop<DraftVertex>,
  at: number,
  step: 1 | -1,
  how: Carving,
): End | CarveProblem => {
  const piece = pieceOf(loop, at);
  const dir = unit(sub(piece.to, piece.from));
  const frame = {
    at: step === 1 ? piece.to : piece.from,
    out: scale(dir, step),
    into: leftOf(dir),
  };
  const joined = joinAlready(loop, at, step);
  if (joined !== undefined) return joined;
  const meeting = meetingAt(loop, at, step);
  if (meeting === 'inner corner of folds') return innerCorner(loop, at, step, frame, how);
  if (meeting === 'metal') {
    return how.notch === undefined
      ? { index: at + step, gone: 0, path: [], tangent: frame.at }
      : notchEnd(loop, at, step, frame, how.setbackMm, how.notch);
  }
  const depth = how.setbackMm;
  const hit = walkTo(loop, at, step, (p) => firstReach(p, frame, frame.into, depth));
  if (hit === undefined) return tooShort(loop, at, frame);
  const passed = passedFold(loop, at, step, hit);
  if (passed !== undefined) return { kind: 'swallows', other: passed };
  return { index: hit.index, gone: hit.share, path: [], tangent: hit.point };
};

/**
 * The panel ends before the tangent line, either by itself or because the bend opposite has already
 * taken its part.
 */
const tooShort = (
  loop: Loop<DraftVertex>,
  at: number,
  { at: end, into }: EndFrame,
): CarveProblem => {
  const other = loop.find((v, i) => i !== at && v.carved === true)?.fold;
  if (other !== undefined) return { kind: 'swallows', other };
  return {
    kind: 'panel-too-short',
    reachMm: Math.max(...loop.map((v) => dot(sub([v.x, v.y], end), into))),
  };
};

interface Hit {
  readonly index: number;
  readonly share: number;
  readonly point: Vec2;
}

/**
 * Walks away from the fold until `reach` finds a share on a piece, but not past the fold itself.
 */
const walkTo = (
  loop: Loop,
  at: number,
  step: 1 | -1,
  reach: (p: Piece) => number | undefined,
): Hit | undefined => {
  for (let k = 1; k < loop.length; k++) {
    const index = at + step * k;
    const p = seen(loop, index, step);
    const share = reach(p);
    if (share !== undefined) return { index, share, point: pointOn(p, share) };
  }
  return undefined;
};

/**
 * The first share of a piece, seen from the fold, at which it is `level` away from the fold's end
 * along `axis`.
 */
const firstReach = (p: Piece, frame: EndFrame, axis: Vec2, level: number): number | undefined => {
  const height = dot(sub(p.from, frame.at), axis) - level;
  if (height >= -NOISE_MM) return 0;
  const [t] = levelCrossings(p, axis, dot(frame.at, axis) + level);
  if (t !== undefined) return t;
  return dot(sub(p.to, frame.at), axis) - level >= -NOISE_MM ? 1 : undefined;
};

/**
 * A fold that would be cut away entirely, or all but a splinter, if the loop were cut at the hit.
 */
const passedFold = (
  loop: Loop<DraftVertex>,
  at: number,
  step: 1 | -1,
  hit: Hit,
): string | undefined => {
  for (let i = at + step; i !== hit.index; i += step) {
    const { fold } = vertexAt(loop, i);
    if (fold !== undefined) return fold;
  }
  const last = seen(loop, hit.index, step);
  return distance(hit.point, last.to) < NO_WIDTH_MM ? vertexAt(loop, hit.index).fold : undefined;
};

/**
 * Ends at a corner that the neighbour has already made, because it was moved in first; see
 * `innerCorner`.
 */
const joinAlready = (loop: Loop<DraftVertex>, at: number, step: 1 | -1): End | undefined => {
  const next = vertexAt(loop, at + step);
  if (next.origin.kind !== 'strip' || next.fold !== undefined) return undefined;
  const p = seen(loop, at + step, step);
  return { index: at + step, gone: 1, path: [], tangent: p.to };
};

/**
 * The end at an inner corner of two folds, where the tangent lines, extended, cross inside the
 * metal.
 */
const innerCorner = (
  loop: Loop<DraftVertex>,
  at: number,
  step: 1 | -1,
  frame: EndFrame,
  how: Carving,
): End => {
  const other = seen(loop, at + step, step);
  const v = vertexAt(loop, at + step);
  const otherDir = scale(unit(sub(other.to, other.from)), step);
  const mine = along(frame.at, frame.into, how.setbackMm);
  const theirs = along(other.from, leftOf(otherDir), how.setbackOf(v.fold as string));
  const away = dot(sub(theirs, mine), leftOf(otherDir)) / dot(frame.out, leftOf(otherDir));
  const tangent = along(mine, frame.out, away);
  return { index: at + step, gone: 0, path: [{ at: frame.at, bulge: 0 }], tangent };
};

/**
 * The end with a notch beside the strip; a tab beyond it that is too narrow to keep is cut away
 * with it.
 */
const notchEnd = (
  loop: Loop<DraftVertex>,
  at: number,
  step: 1 | -1,
  frame: EndFrame,
  setbackMm: number,
  notch: NotchSize,
): End | CarveProblem => {
  const { widthMm, depthMm, leastTabMm } = notch;
  const depth = setbackMm + depthMm;
  const wide = walkTo(loop, at, step, (p) => firstReach(p, frame, frame.out, widthMm + leastTabMm));
  const deep = walkTo(loop, at, step, (p) => firstReach(p, frame, frame.into, depth));
  const tangent = along(frame.at, frame.into, setbackMm);
  const needMm = 2 * widthMm + leastTabMm;
  const keepsTab = wide !== undefined && (deep === undefined || isNearer(step, wide, deep));
  const hit = keepsTab
    ? walkTo(loop, at, step, (p) => firstReach(p, frame, frame.out, widthMm))
    : deep;
  if (hit === undefined) return tooShort(loop, at, frame);
  const standsOnFold = keepsTab && vertexAt(loop, hit.index).fold !== undefined;
  if (standsOnFold || passedFold(loop, at, step, hit) !== undefined)
    return { kind: 'no-room-for-relief', needMm };
  if (keepsTab && dot(sub(hit.point, frame.at), frame.into) < -widthMm)
    return { kind: 'no-room-for-relief', needMm };
  const path = notchPath(notch, depth, keepsTab).map((n) => ({
    at: along(along(frame.at, frame.out, n.out), frame.into, n.into),
    bulge: n.bulge,
  }));
  return {
    index: hit.index,
    gone: hit.share,
    path: [{ at: hit.point, bulge: 0 }, ...path],
    tangent,
  };
};

const isNearer = (step: 1 | -1, a: Hit, b: Hit): boolean =>
  a.index === b.index ? a.share <= b.share : (b.index - a.index) * step > 0;
