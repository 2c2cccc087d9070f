import type { BendFigures } from '../bending/bend.ts';
import { setbackMm } from '../bending/setback.ts';
import { foldPose, makeJoint } from '../fold/joint.ts';
import { AT_HOME, composePoses, type Pose } from '../geometry/pose.ts';
import type { Fold, Part } from '../model/part.ts';

/**
 * Where the panels of a part lie when it is folded, in the coordinates of its root. No bend rule is
 * needed for that: lengths of a part are those of the folded one.
 */
export const finishedPoses = (part: Part): ReadonlyMap<string, Pose> => {
  const poses = new Map([[part.root, AT_HOME]]);
  for (let size = 0; size < poses.size;) {
    size = poses.size;
    for (const fold of part.folds) {
      const pose = poses.get(fold.parent.panel);
      if (pose === undefined || poses.has(fold.child.panel)) continue;
      const joint = makeJoint(part, fold, figuresOf(part, fold));
      poses.set(fold.child.panel, composePoses(pose, foldPose(joint)));
    }
  }
  return poses;
};

/** The setback is all that the finished place of a panel depends on. */
const figuresOf = (part: Part, fold: Fold): BendFigures => ({
  allowanceMm: 0,
  setbackMm:
    fold.midSurface === true
      ? 0
      : setbackMm(fold.angleDeg, fold.insideRadiusMm, part.thicknessMm, part.measure),
  deductionMm: 0,
  kFactor: 0.5,
  rule: 'none',
});
