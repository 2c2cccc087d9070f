import { composePoses, type Pose, AT_HOME } from '../geometry/pose.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import { foldPose, type Joint, makeJoint } from './joint.ts';

/**
 * The part folded up to some stage: the place of each panel, in the coordinates of the root panel.
 */
export interface FoldedBody {
  readonly joints: readonly Joint[];
  readonly poses: ReadonlyMap<string, Pose>;
}

/** How much of its finished angle a fold is turned by: 0 flat, 1 finished, more where it is overbent. */
export type FoldShare = (fold: string) => number;

/** Every fold finished. */
export const WHOLE: FoldShare = () => 1;

/**
 * Folds a part up as far as `share` says, to the end by default. The figures of the bends are those of the flat pattern. The proof
 * does not fold by this, but by `measure/folded.ts`, so that the two share no mistake.
 */
export const foldUp = (part: Part, flat: FlatPattern, share: FoldShare = WHOLE): FoldedBody => {
  const joints = part.folds.map((f) => {
    const bend = flat.bends.find((b) => b.id === f.id);
    if (bend === undefined) throw new Error(`${part.name}: no bend ${f.id} in the flat pattern`);
    return makeJoint(part, f, bend);
  });
  const poses = new Map([[part.root, AT_HOME]]);
  for (let added = true; added;) {
    added = false;
    for (const j of joints) {
      const parent = poses.get(j.fold.parent.panel);
      if (parent === undefined || poses.has(j.fold.child.panel)) continue;
      poses.set(j.fold.child.panel, composePoses(parent, foldPose(j, share(j.fold.id))));
      added = true;
    }
  }
  return { joints, poses };
};
