import {
  backwards,
  levelCrossings,
  partBulge,
  type Piece,
  pieceOf,
  pointOn,
} from '../geometry/piece.ts';
import { NOISE_MM, NO_WIDTH_MM, NOISE_SHARE } from '../geometry/tolerance.ts';
import { along, distance, dot, leftOf, scale, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { type Loop, vertexAt, wrapped } from '../geometry/loop.ts';
import type { Origin } from '../model/flat.ts';
import type { DraftVertex } from './draft.ts';
import { meetingAt } from './meeting.ts';
import { type NotchSize, notchPath } from './notch.ts';

/** What one fold takes from the edge of a panel. */
export interface Carving {
  readonly fold: string;
  readonly panel: string;
  readonly setbackMm: number;
  /** Absent on a fold of no angle: it tears nothing. */
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
 * Moves the stretch of a fold in from the mould line to the tangent line of the bend. Neighbours
 * are cut where the tangent line meets them; where the fold ends in metal a relief notch is cut
 * beside it, deeper than the bend zone.
 */
export const carve = (
  loop: Loop<DraftVertex>,
  at: number,
  how: Carving,
): Loop<DraftVertex> | CarveProblem => {
  const start = findEnd(loop, at, -1, how);
  if ('kind' in start) return start;
  const end = findEnd(loop, at, 1, how);
  if ('kind' in end) return end;
  const piece = pieceOf(loop, at);
  const used = usedUp(loop, at, how.setbackMm);
  if (used !== undefined) return used;
  if (dot(sub(end.tangent, start.tangent), sub(piece.to, piece.from)) <= 0)
    return { kind: 'edge-vanishes' };
  return rebuild(loop, at, how, start, end);
};

/**
 * A bend that takes the panel exactly up, alone or with the bend opposite, leaves nothing to hold.
 */
const usedUp = (
  loop: Loop<DraftVertex>,
  at: number,
  setbackMm: number,
): CarveProblem | undefined => {
  const { from, to } = pieceOf(loop, at);
  const into = leftOf(unit(sub(to, from)));
  const beyond = (v: DraftVertex): number => dot(sub([v.x, v.y], from), into) - setbackMm;
  if (
    setbackMm === 0 ||
    loop.some((v, i) => beyond(v) > NO_WIDTH_MM || pieceOf(loop, i).bulge !== 0)
  )
    return undefined;
  const other = loop.find(
    (v, i) => i !== at && v.fold !== undefined && Math.abs(beyond(v)) <= NO_WIDTH_MM,
  )?.fold;
  return other === undefined
    ? { kind: 'panel-too-short', reachMm: setbackMm }
    : { kind: 'swallows', other };
};

/** Where the rest of the loop goes on beyond one end of the fold. Walked from the fold outwards. */
interface End {
  /** Index of the piece that is cut, and how much of it is gone, as a share seen from the fold. */
  readonly index: number;
  readonly gone: number;
  /**
   * From the cut in to the tangent line, the last point excluded; each with the bulge of the piece
   * after it.
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

const findEnd = (
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
 * The panel ends before the tangent line: by itself, or because the bend opposite has taken its
 * part already.
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

/** Walks away from the fold until `reach` finds a share on a piece; not past the fold itself. */
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

/** A fold that would be cut away whole, or but for a splinter, when the loop is cut at the hit. */
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

/** The neighbour was moved in first and has already made the corner; see `innerCorner`. */
const joinAlready = (loop: Loop<DraftVertex>, at: number, step: 1 | -1): End | undefined => {
  const next = vertexAt(loop, at + step);
  if (next.origin.kind !== 'strip' || next.fold !== undefined) return undefined;
  const p = seen(loop, at + step, step);
  return { index: at + step, gone: 1, path: [], tangent: p.to };
};

/** Two folds at an inner corner: the tangent lines, drawn on, cross inside the metal. */
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

/** A notch beside the strip; a tab too narrow to keep beyond it goes with it. */
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

/** The loop with the new tangent line in it, beginning with it. */
const rebuild = (
  loop: Loop<DraftVertex>,
  at: number,
  how: Carving,
  start: End,
  end: End,
): DraftVertex[] => {
  const own = vertexAt(loop, at);
  const relief: Origin = { kind: 'relief', panel: how.panel };
  const made: DraftVertex[] = [];
  const push = (p: Vec2, bulge: number, rest: Omit<DraftVertex, 'x' | 'y' | 'bulge'>): void => {
    made.push({ ...rest, x: p[0], y: p[1], bulge });
  };
  push(start.tangent, 0, { origin: own.origin, fold: how.fold, carved: true });
  const join: Origin = { kind: 'strip', fold: how.fold };
  // Walked towards the metal the path keeps the bulges: it is mirrored and turned round, which
  // cancels out.
  const back = [...end.path].reverse();
  let from = end.tangent;
  for (const p of back) {
    push(from, p.bulge, { origin: back.length === 1 ? join : relief });
    from = p.at;
  }
  const last = wrapped(loop, start.index);
  for (
    let i = wrapped(loop, end.index), isFirst = true;
    ;
    i = wrapped(loop, i + 1), isFirst = false
  ) {
    const v = vertexAt(loop, i);
    const [t0, t1] = [isFirst ? end.gone : 0, i === last ? 1 - start.gone : 1];
    if (t1 - t0 > NOISE_SHARE)
      push(isFirst ? from : [v.x, v.y], partBulge(v.bulge, t0, t1), tags(v));
    if (i === last) break;
  }
  for (const p of start.path)
    push(p.at, p.bulge, { origin: start.path.length === 1 ? join : relief });
  return made;
};

const tags = (v: DraftVertex): Omit<DraftVertex, 'x' | 'y' | 'bulge'> => ({
  origin: v.origin,
  ...(v.fold === undefined ? {} : { fold: v.fold }),
  ...(v.carved === undefined ? {} : { carved: v.carved }),
});
