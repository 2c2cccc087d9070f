import { commonStretches, type Doubled, CUT_AS_ONE_MM } from '../dxf/contours/overlap.ts';
import { forNeighbours } from '../dxf/contours/neighbours.ts';
import { crossings, type Piece, pointOn } from '../geometry/piece.ts';
import { distance, middle, type Vec2 } from '../geometry/vec2.ts';

/** A place where two pieces cross, or where one ends on the other. */
export interface Meeting {
  readonly a: number;
  readonly b: number;
  readonly at: Vec2;
  readonly kind: 'cross' | 'touch';
}

export interface Meetings {
  readonly doubled: readonly Doubled[];
  readonly meetings: readonly Meeting[];
  /** False when there were too many pairs to search. */
  readonly isComplete: boolean;
}

/** The most meetings that are kept; more of them tell nothing new. */
const MOST = 200_000;

/** The places where pieces lie on one another, cross, or touch other than at ends of both. */
export const meetingsOf = (pieces: readonly Piece[]): Meetings => {
  const doubled: Doubled[] = [];
  const meetings: Meeting[] = [];
  const isComplete = forNeighbours(pieces, CUT_AS_ONE_MM, (a, b) => {
    if (doubled.length + meetings.length > MOST) return;
    const [p, q] = [pieces[a] as Piece, pieces[b] as Piece];
    const common = commonStretches(p, q);
    for (const stretch of common) doubled.push({ kept: a, piece: b, stretch });
    if (common.length === 0)
      meetings.push(...crossingsOf(p, q).map((found) => ({ a, b, ...found })));
  });
  return { doubled, meetings, isComplete: isComplete && doubled.length + meetings.length <= MOST };
};

/** Ends that lie on the other piece within this, mm, touch it. */
const TOUCH_MM = 2 * CUT_AS_ONE_MM;

/**
 * Pieces that run into one another smoothly seem to cross a little beside their common end, because
 * files round it.
 */
const GRAZE_MM = 0.25;

const crossingsOf = (p: Piece, q: Piece): { at: Vec2; kind: Meeting['kind'] }[] => {
  const sharedEnds = [p.from, p.to].filter((end) =>
    [q.from, q.to].some((other) => distance(end, other) < TOUCH_MM),
  );
  return crossings(p, q).flatMap((c): { at: Vec2; kind: Meeting['kind'] }[] => {
    const at = middle(pointOn(p, c.a), pointOn(q, c.b));
    const isEnd = (piece: Piece): boolean =>
      Math.min(distance(piece.from, at), distance(piece.to, at)) < TOUCH_MM;
    const [endOfP, endOfQ] = [isEnd(p), isEnd(q)];
    if (sharedEnds.some((end) => distance(end, at) < GRAZE_MM)) return [];
    return endOfP && endOfQ ? [] : [{ at, kind: endOfP || endOfQ ? 'touch' : 'cross' }];
  });
};
