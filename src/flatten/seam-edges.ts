import { type Piece, pieceOf } from '../geometry/piece.ts';
import { along, distance, dot, scale, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { type Draft, foldPieceOf, jointFrom, jointOf, panelOf } from './draft.ts';
import { meetingAt } from './meeting.ts';
import { insetMm } from './seam-cut.ts';
import { drawnLoop } from './split-pieces.ts';

/** A stretch of a seam along a panel's edge, counted from the frame of its joint. */
export interface Reach {
  readonly from: number;
  readonly to: number;
}

/** The edge of a panel at a seam: its place in the outline, and what it covers of the seam. */
export interface SeamEdge extends Reach {
  readonly edge: number;
}

export const edgeAt = (draft: Draft, fold: string, panel: string): SeamEdge => {
  const { parentAt, parentDir } = jointFrom(draft, fold, panel);
  const loop = drawnLoop(panelOf(draft, panel).loop);
  const edge = foldPieceOf(loop, fold);
  const { from, to } = pieceOf(loop, edge);
  return {
    edge,
    from: dot(sub(from, parentAt), parentDir),
    to: dot(sub(to, parentAt), parentDir),
  };
};

/** What both panels have of a seam, seen from one of them. */
const shared = (draft: Draft, fold: string, panel: string): Reach => {
  const { parent, child } = jointOf(draft, fold).fold;
  const own = edgeAt(draft, fold, panel);
  // The edges of the two panels run against each other from the same point.
  const other = edgeAt(draft, fold, parent.panel === panel ? child.panel : parent.panel);
  return { from: Math.max(own.from, -other.to), to: Math.min(own.to, -other.from) };
};

/** The same, less the room at its ends. */
export const usable = (draft: Draft, fold: string, panel: string): Reach => {
  const { from, to } = shared(draft, fold, panel);
  const room = insetMm(jointOf(draft, fold), draft.part.relief);
  return { from: from + room, to: to - room };
};

/**
 * How much room a flange leaves at either end of a seam, seen from one of its panels: none where no
 * other fold begins within that room, and the edge ends in the open.
 */
export const roomAtEnds = (draft: Draft, fold: string, panel: string): Reach => {
  const joint = jointFrom(draft, fold, panel);
  const room = insetMm(joint, draft.part.relief);
  const { from, to } = shared(draft, fold, panel);
  const sides = [
    { id: panel, at: joint.parentAt, dir: joint.parentDir, step: [-1, 1] },
    {
      id: joint.fold.child.panel,
      at: joint.childAt,
      dir: scale(joint.childDir, -1),
      step: [1, -1],
    },
  ] as const;
  const isFree = (c: number, end: 0 | 1): boolean =>
    sides.every(({ id, at, dir, step }) => {
      const { loop } = panelOf(draft, id);
      const edge = foldPieceOf(loop, fold);
      return (
        meetingAt(loop, edge, step[end]) === 'open' &&
        loop.every(
          (v, i) =>
            v.fold === undefined ||
            v.fold === fold ||
            awayFrom(pieceOf(loop, i), along(at, dir, c)) > room,
        )
      );
    });
  return { from: isFree(from, 0) ? 0 : room, to: isFree(to, 1) ? 0 : room };
};

/** How far a point is from a straight piece. */
const awayFrom = ({ from, to }: Piece, p: Vec2): number => {
  const dir = unit(sub(to, from));
  const share = Math.min(distance(from, to), Math.max(0, dot(sub(p, from), dir)));
  return distance(p, along(from, dir, share));
};

/** What both panels have of a seam, less the room that a flange leaves at its ends. */
export const roomyFor = (draft: Draft, fold: string, panel: string): Reach => {
  const { from, to } = shared(draft, fold, panel);
  const room = roomAtEnds(draft, fold, panel);
  return { from: from + room.from, to: to - room.to };
};
