import { partBulge, pieceOf } from '../geometry/piece.ts';
import { NO_WIDTH_MM, NOISE_SHARE } from '../geometry/tolerance.ts';
import { dot, leftOf, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { type Loop, vertexAt, wrapped } from '../geometry/loop.ts';
import type { Origin } from '../model/flat.ts';
import type { DraftVertex } from './draft.ts';
import { type CarveProblem, type Carving, type End, findEnd } from './carve-end.ts';

/**
 * Moves the stretch of a fold in from the mould line to the tangent line of the bend. Neighbours
 * are cut where the tangent line meets them. Where the fold ends in metal a relief notch is cut
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
 * A bend that takes up the whole panel, alone or with the bend opposite, leaves nothing to hold.
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

/** The loop with the new tangent line in it, beginning with that line. */
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
  // The path keeps its bulges when it is walked towards the metal: it is mirrored and reversed,
  // which cancel out.
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
