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

/**
 * Folds a part up. `share` tells for each fold how much of its finished angle it is turned by, 0 to
 * 1; the whole angle by default. The figures of the bends are those of the flat pattern. The proof
 * does not fold by this, but by `measure/folded.ts`, so that the two share no mistake.
 */
export const foldUp = (
  part: Part,
  flat: FlatPattern,
  share: (fold: string) => number = () => 1,
): FoldedBody => {
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
