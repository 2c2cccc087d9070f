import { endDirection, pieceOf, startDirection } from '../geometry/piece.ts';
import { type Loop, vertexAt } from '../geometry/loop.ts';
import { cross } from '../geometry/vec2.ts';
import type { DraftVertex } from './draft.ts';
import { PARALLEL_SINE } from '../geometry/tolerance.ts';

/**
 * What a folded stretch meets at one of its ends: an edge that turns away and leaves the bend in
 * the `open`; `metal` that continues beside it; or another fold, at an outer corner (also `open`,
 * because the tangent lines simply cross) or at an inner one.
 */
export type Meeting = 'open' | 'metal' | 'inner corner of folds';

export const meetingAt = (loop: Loop<DraftVertex>, at: number, step: 1 | -1): Meeting => {
  const own = pieceOf(loop, at);
  const next = vertexAt(loop, at + step);
  const other = pieceOf(loop, at + step);
  const turn =
    step === 1
      ? cross(endDirection(own), startDirection(other))
      : cross(endDirection(other), startDirection(own));
  const isOuter = turn > PARALLEL_SINE || (turn >= -PARALLEL_SINE && other.bulge > 0);
  if (isOuter) return 'open';
  if (next.fold !== undefined && turn < -PARALLEL_SINE) return 'inner corner of folds';
  return 'metal';
};
