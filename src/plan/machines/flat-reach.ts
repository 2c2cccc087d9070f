import { composePoses, invertPose, type Pose, posePoint } from '../../geometry/pose.ts';
import type { FoldNet, NetFold } from './net.ts';
import { foldBits } from './pre-fold.ts';
import type { Side } from './stroke-rules.ts';
import { type Step, stepPose } from './net-steps.ts';

/** Sheet that reaches this far from a fold while none of the folds of `path` is made. */
export interface Reach {
  readonly path: number;
  readonly mm: number;
}

interface StripQuestion {
  readonly fold: number;
  readonly side: Side;
  readonly inStroke: (fold: number) => boolean;
  readonly sides: readonly Side[];
}

/**
 * Sheet that lies flat with the panel at the fold, across folds that are not made yet; the widest
 * first.
 */
export function reachesOf(
  net: FoldNet,
  steps: readonly (readonly Step[])[],
  { fold, side, inStroke, sides }: StripQuestion,
): readonly Reach[] {
  const { panels, frames } = net.folds[fold] as NetFold;
  const end = sides[panels[0]] === side ? 0 : 1;
  const reaches: Reach[] = [];
  const visit = (panel: number, pose: Pose, path: number, from: number): void => {
    let mm = 0;
    for (const { corners } of (net.panels[panel] as FoldNet['panels'][number]).solids)
      for (const corner of corners) mm = Math.max(mm, -posePoint(pose, corner)[0]);
    reaches.push({ path, mm });
    for (const step of steps[panel] as readonly Step[]) {
      if (step.fold === from || inStroke(step.fold)) continue;
      visit(
        step.to,
        composePoses(pose, stepPose(net, step, undefined, 0)),
        path | foldBits(net, step.fold),
        step.fold,
      );
    }
  };
  visit(panels[end], invertPose(frames[end]), 0, fold);
  return reaches.toSorted((a, b) => b.mm - a.mm);
}
