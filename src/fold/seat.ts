import { composePoses, invertPose, type Pose, flatPose } from '../geometry/pose.ts';
import type { FlatPattern } from '../model/flat.ts';
import { SAME_AREA_SHARE } from '../geometry/tolerance.ts';

/**
 * Takes a folded part from the coordinates of its root panel to those in which it is viewed, where
 * the largest panel lies as it lies in the drawing. Of equal panels it is the first, in either
 * hand.
 */
export const foldedSeat = (flat: FlatPattern, poses: ReadonlyMap<string, Pose>): Pose => {
  const most = Math.max(...flat.panels.map((p) => p.areaMm2));
  const largest = flat.panels.find(
    (p) => p.areaMm2 > most * (1 - SAME_AREA_SHARE),
  ) as FlatPattern['panels'][number];
  return composePoses(flatPose(largest.placement), invertPose(poses.get(largest.id) as Pose));
};
