import { cosDeg, sinDeg, tanDeg } from '../../geometry/degrees.ts';
import { AT_HOME, composePoses, invertPose, type Pose } from '../../geometry/pose.ts';
import type { FoldNet, NetFold, PreFold } from './net.ts';
import { NO_SHEET } from './stroke-rules.ts';

/** A pose that turns towards +y about the z axis. */
export const turnPose = (deg: number): Pose => {
  const [c, s] = [cosDeg(deg), sinDeg(deg)];
  return { ...AT_HOME, x: [c, s, 0], y: [-s, c, 0] };
};

export const HALF_TURN: Pose = { o: [0, 0, 0], x: [-1, 0, 0], y: [0, 1, 0], z: [0, 0, -1] };

/**
 * The pose from the child's coordinates to the parent's, turned by an angle about frames that lie
 * on each other.
 */
export const turnedAbout = ([here, there]: readonly [Pose, Pose], deg: number): Pose =>
  composePoses(composePoses(composePoses(here, turnPose(deg)), HALF_TURN), invertPose(there));

/**
 * The largest angle, degrees, for which the crossing of the outside faces is worked out. Larger
 * bends take the crossing of this one, since it goes to infinity at 180.
 */
export const STEEPEST_DEG = 150;

/**
 * Distance from the middle of a bend to where the outside faces cross once it is turned by `deg`.
 * The crossing is (r + t) tan(A/2) from the tangent lines, which lie half an allowance from the
 * middle. The share of the allowance that is bent by then is the share of the angle.
 */
export const crossingMm = (net: FoldNet, fold: NetFold, deg: number): number => {
  const { thicknessMm, insideRadiusMm } = net.isSolid
    ? { thicknessMm: net.thicknessMm, insideRadiusMm: fold.insideRadiusMm }
    : NO_SHEET;
  return (
    (thicknessMm + insideRadiusMm) * tanDeg(Math.min(deg, STEEPEST_DEG) / 2) -
    ((fold.allowanceMm ?? 0) * deg) / fold.angleDeg / 2
  );
};

/**
 * The same part with some folds made in two strokes: first to a share of their angle, then to the
 * end.
 */
export const withPreFolds = (net: FoldNet, folds: readonly number[], share: number): FoldNet => ({
  ...net,
  preFolds: folds.map((number): PreFold => {
    const fold = net.folds[number] as NetFold;
    const angleDeg = fold.angleDeg * share;
    const nearer = crossingMm(net, fold, angleDeg) - crossingMm(net, fold, fold.angleDeg);
    const frame = (pose: Pose): Pose => composePoses(pose, { ...AT_HOME, o: [nearer, 0, 0] });
    const frames = [frame(fold.frames[0]), frame(fold.frames[1])] as const;
    return {
      fold: number,
      pose: turnedAbout(frames, angleDeg),
      made: {
        ...fold,
        angleDeg,
        frames,
        ...(fold.allowanceMm !== undefined && { allowanceMm: fold.allowanceMm * share }),
        ...(fold.overbendDeg !== undefined && { overbendDeg: fold.overbendDeg * share }),
      },
    };
  }),
});

/**
 * The number of bits in a state: one for each fold, and one more for each that is made in two
 * strokes.
 */
export const bitsOf = ({ folds, preFolds = [] }: FoldNet): number => folds.length + preFolds.length;

/** The bit which says that a fold is made in part; 0 for a fold that is made at one stroke. */
export const preBit = ({ folds, preFolds = [] }: FoldNet, fold: number): number => {
  const at = preFolds.findIndex((p) => p.fold === fold);
  return at < 0 ? 0 : 1 << (folds.length + at);
};

/**
 * The fold of a stroke as that stroke makes it. The first stroke of a fold that is made in two ends
 * at the smaller angle.
 */
export const bentFold = (
  net: FoldNet,
  { folds, bits }: { readonly folds: readonly number[]; readonly bits: number },
): NetFold => {
  const fold = folds[0] as number;
  const first = net.preFolds?.find((p) => p.fold === fold && preBit(net, fold) === bits);
  return first?.made ?? (net.folds[fold] as NetFold);
};

/** The bits of a state that say how far a fold is made. */
export const foldBits = (net: FoldNet, fold: number): number => (1 << fold) | preBit(net, fold);

/** The pose from the child's coordinates to the parent's in a state. */
export const foldedPose = (net: FoldNet, fold: number, made: number): Pose => {
  const { flat, folded } = net.folds[fold] as NetFold;
  if ((made & (1 << fold)) !== 0) return folded;
  return (made & preBit(net, fold)) === 0
    ? flat
    : (net.preFolds?.find((p) => p.fold === fold)?.pose ?? flat);
};
