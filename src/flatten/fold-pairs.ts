import type { Joint } from '../fold/joint.ts';
import { dot, leftOf, sub, type Vec2 } from '../geometry/vec2.ts';
import { levelCrossings, type Piece, pieceOf, pointOn } from '../geometry/piece.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { type Loop, vertexAt } from '../geometry/loop.ts';
import { meetingAt } from './meeting.ts';
import { type Draft, type DraftVertex, jointFrom, panelOf } from './draft.ts';

/**
 * Two folds that share a corner of a panel: `before` ends where `after` begins, counter-clockwise.
 * Anything that lies between them is so short that their bends take all of it. Metal that continues
 * along a fold's own line stays, with a relief beside it.
 */
export interface FoldPair {
  readonly panel: string;
  readonly before: string;
  readonly after: string;
}

/** The pairs of folds that share a corner of a panel. */
export const cornersOf = (draft: Draft, panel: string): FoldPair[] => {
  const { loop } = panelOf(draft, panel);
  return loop.flatMap((v, i) => {
    if (v.fold === undefined) return [];
    const run = runToNextFold(loop, i);
    if (run === undefined) return [];
    const pair = { panel, before: v.fold, after: run.fold };
    if (
      run.between.length > 0 &&
      (meetingAt(loop, i, 1) === 'metal' || meetingAt(loop, run.at, -1) === 'metal')
    )
      return [];
    return isTakenByBends(jointsOf(draft, pair), run.between) ? [pair] : [];
  });
};

/** The next fold round the loop, and the pieces on the way to it. */
const runToNextFold = (
  loop: Loop<DraftVertex>,
  at: number,
): { readonly fold: string; readonly at: number; readonly between: Piece[] } | undefined => {
  const between: Piece[] = [];
  for (let k = 1; k < loop.length; k++) {
    const { fold } = vertexAt(loop, at + k);
    if (fold !== undefined) return { fold, at: (at + k) % loop.length, between };
    between.push(pieceOf(loop, at + k));
  }
  return undefined;
};

/** Whether the first bend takes all of the pieces, or all up to where the second takes the rest. */
const isTakenByBends = ([a, b]: readonly [Joint, Joint], pieces: readonly Piece[]): boolean => {
  const into = leftOf(a.parentDir);
  for (const [i, piece] of pieces.entries()) {
    const [share] = levelCrossings(piece, into, dot(a.parentAt, into) + a.figures.setbackMm);
    if (share === undefined) continue;
    return [pointOn(piece, share), ...pieces.slice(i).map((p) => p.to)].every((p) =>
      isInBend(b, p),
    );
  }
  return true;
};

/** Whether a point of the panel lies between the mould line and the tangent line of a fold. */
const isInBend = (j: Joint, p: Vec2): boolean =>
  dot(sub(p, j.parentAt), leftOf(j.parentDir)) < j.figures.setbackMm - NOISE_MM;

/** Both folds of a pair as they stand on the panel. */
export const jointsOf = (
  draft: Draft,
  { panel, before, after }: FoldPair,
): readonly [Joint, Joint] => [jointFrom(draft, before, panel), jointFrom(draft, after, panel)];
