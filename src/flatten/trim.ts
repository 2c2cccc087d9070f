import { flatMotion, foldPose, type Joint } from '../fold/joint.ts';
import { leftOf, along, cross, dot, scale, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { dot3, length3, scale3, sub3 } from '../geometry/vec3.ts';
import { composePoses, type Pose } from '../geometry/pose.ts';
import { invert, moveVector } from '../geometry/motion2.ts';
import { NEARLY_PARALLEL_SINE, PARALLEL_SINE } from '../geometry/tolerance.ts';
import type { Corner, Part } from '../model/part.ts';
import { vertexAt } from '../geometry/loop.ts';
import { type Draft, foldPieceOf, jointFrom, panelOf } from './draft.ts';
import { meetingAt } from './meeting.ts';
import { cornersOf, type FoldPair, jointsOf } from './fold-pairs.ts';
import { cutPanel, type HalfSpace, squareOff, takesFold, trimPanel } from './cut-panel.ts';

/**
 * Trims neighbouring flanges so that they neither collide when folded nor overlap in the flat, at
 * every corner of every panel where two folds meet.
 */
export const trimCorners = (draft: Draft): void => {
  for (const { panel } of draft.panels.values()) {
    for (const pair of cornersOf(draft, panel.id)) trimPair(draft, pair);
  }
};

/**
 * Trims the flanges at the corners of a seam: those where one of the two folds is welded. They lie
 * apart in the flat, and need room for each other on the finished part alone.
 */
export const trimAtSeams = (draft: Draft, isSeam: (fold: string) => boolean): void => {
  for (const { panel } of draft.panels.values())
    for (const pair of cornersOf(draft, panel.id))
      if (isSeam(pair.before) || isSeam(pair.after)) trimPair(draft, pair, 'apart');
};

const styleOf = (part: Part, { before, after }: FoldPair): Corner => {
  const given = part.corners?.find((c) => c.folds.includes(before) && c.folds.includes(after));
  return given ?? { folds: [before, after], style: 'open' };
};

const trimPair = (draft: Draft, pair: FoldPair, flat: 'joined' | 'apart' = 'joined'): void => {
  const [a, b] = jointsOf(draft, pair);
  // Folds that run into a common point share it, and their panels meet nowhere else.
  if (a.fold.midSurface === true && b.fold.midSurface === true) return;
  if (Math.abs(cross(a.parentDir, b.parentDir)) < PARALLEL_SINE) return;
  const corner = styleOf(draft.part, pair);
  const gap = corner.gapMm ?? draft.part.cornerGapMm;
  const [aRunsOn, bRunsOn] = [runsOn(draft, a, -1), runsOn(draft, b, 1)];
  if (aRunsOn || bRunsOn) {
    if (!bRunsOn) trimBeside(draft, b, a, gap);
    if (!aRunsOn) trimBeside(draft, a, b, gap);
    return;
  }
  if (a.fold.direction === b.fold.direction && a.fold.angleDeg > 0 && b.fold.angleDeg > 0) {
    if (corner.style === 'butt') trimButt(draft, pair, corner.through ?? pair.before, gap);
    else trimOpen(draft, pair, gap);
  }
  if (corner.style === 'open' && flat === 'joined') trimFlat(draft, pair, gap);
};

/**
 * Trims both flanges at the plane that halves the corner, each to half the gap before it. One that
 * has a fold of its own along there runs on as at a butt corner, and the other ends before it.
 */
const trimOpen = (draft: Draft, pair: FoldPair, gap: number): void => {
  const plane = halvingPlane(draft, pair);
  const keep = (side: 1 | -1): HalfSpace => ({
    normal: scale3(plane.normal, side),
    level: side * plane.level + gap / 2,
  });
  const [a, b] = jointsOf(draft, pair);
  const aHolds = takesFold(draft, a, foldPose(a), keep(1));
  if (aHolds !== takesFold(draft, b, foldPose(b), keep(-1))) {
    trimButt(draft, pair, aHolds ? pair.before : pair.after, gap);
    return;
  }
  trimTwins(draft, [a, b], [foldPose(a), foldPose(b)], [keep(1), keep(-1)], gap);
};

/**
 * The plane through the line in which the outside faces of the two flanges meet, at equal angles to
 * both. Where the faces are parallel or nearly so, as on a hem round a corner, it is the upright
 * plane through the corner along its bisector. Its normal points to the side of the flange of
 * `before`.
 */
const halvingPlane = (draft: Draft, pair: FoldPair): HalfSpace => {
  const [a, b] = jointsOf(draft, pair);
  const bisector = unit(sub(b.parentDir, a.parentDir));
  const upright = scale(leftOf(bisector), dot(leftOf(bisector), a.parentDir) < 0 ? 1 : -1);
  const [faceA, faceB] = [outsideFace(a), outsideFace(b)];
  const normal = sub3(faceA.normal, faceB.normal);
  const size = length3(normal);
  const corner = crossingOf([a, b], 0);
  const flat: HalfSpace = { normal: [upright[0], upright[1], 0], level: dot(upright, corner) };
  if (size < NEARLY_PARALLEL_SINE) return flat;
  const sign = dot3(normal, flat.normal) < 0 ? -1 : 1;
  return {
    normal: scale3(normal, sign / size),
    level: (sign * (faceA.level - faceB.level)) / size,
  };
};

/**
 * The outside face of a flange in its parent's coordinates; the metal lies where `normal . p <=
 * level`.
 */
const outsideFace = (joint: Joint): HalfSpace => {
  const pose = foldPose(joint);
  const up = joint.fold.direction === 'up';
  const normal = up ? scale3(pose.z, -1) : pose.z;
  return { normal, level: dot3(normal, pose.o) + (up ? 0 : joint.thicknessMm) };
};

/**
 * Trims a butt corner: the flange of `through` runs on, and the other ends before its inside face.
 */
const trimButt = (draft: Draft, pair: FoldPair, runsThrough: string, gap: number): void => {
  const [a, b] = jointsOf(draft, pair);
  const [through, cut] = runsThrough === pair.after ? [b, a] : [a, b];
  const keep = inFrontOf(through, foldPose(through), gap);
  for (const lip of trimPanel(draft, cut, foldPose(cut), keep)) squareOff(draft, lip);
};

/**
 * Whether the panel that a joint leads to has metal beyond the corner, along its fold or past it: a
 * base whose edge is folded in part only. No plane through the corner may cut it.
 */
const runsOn = (draft: Draft, { fold }: Joint, step: 1 | -1): boolean => {
  const { loop } = panelOf(draft, fold.child.panel);
  const at = foldPieceOf(loop, fold.id);
  return at >= 0 && meetingAt(loop, at, step) === 'metal';
};

/**
 * Trims a flange beside one that runs on past the corner: it ends at the gap before the inside face
 * of that, where both are folded the same way, and in the flat stays clear of the edge that runs on
 * beside the bend. That edge lies on its mould line, a deduction inside the other one.
 */
const trimBeside = (draft: Draft, cut: Joint, through: Joint, gap: number): void => {
  const areTurned = cut.fold.angleDeg > 0 && through.fold.angleDeg > 0;
  const lips =
    areTurned && cut.fold.direction === through.fold.direction
      ? trimPanel(draft, cut, foldPose(cut), inFrontOf(through, foldPose(through), gap))
      : [];
  const normal = leftOf(through.parentDir);
  const clear = Math.max(gap, draft.part.relief.leastSlotMm);
  const level = dot(normal, through.parentAt) + through.figures.deductionMm + clear;
  const motion = flatMotion(cut);
  const own = moveVector(invert(motion), normal);
  lips.push(...cutPanel(draft, cut, own, level - dot(normal, [motion.x, motion.y])));
  for (const lip of lips) squareOff(draft, lip);
};

/**
 * Trims two flanges, each by its half-space, and then whatever is folded on at the ends that were
 * cut.
 */
const trimTwins = (
  draft: Draft,
  [a, b]: readonly [Joint, Joint],
  poses: readonly [Pose, Pose],
  keep: readonly [HalfSpace, HalfSpace],
  gap: number,
): void => {
  const lipsA = trimPanel(draft, a, poses[0], keep[0]);
  const lipsB = trimPanel(draft, b, poses[1], keep[1]);
  for (const lip of [...lipsA, ...lipsB]) squareOff(draft, lip);
  const [lipA, lipB] = [nearestLip(draft, a, -1), nearestLip(draft, b, 1)];
  if (lipA !== undefined && lipB !== undefined && lipA.fold.direction === lipB.fold.direction) {
    const next = [
      composePoses(poses[0], foldPose(lipA)),
      composePoses(poses[1], foldPose(lipB)),
    ] as const;
    return trimTwins(draft, [lipA, lipB], next, keep, gap);
  }
  // A lip without a twin ends before the inside face of the neighbouring flange.
  for (const { joint } of lipsA) trimLip(draft, joint, poses[0], inFrontOf(b, poses[1], gap));
  for (const { joint } of lipsB) trimLip(draft, joint, poses[1], inFrontOf(a, poses[0], gap));
};

/**
 * The fold that comes first on the way round a flange from its own fold, on the side of the corner:
 * backwards on the flange of `before`, forwards on that of `after`. The same side leads from each
 * lip to the next.
 */
const nearestLip = (draft: Draft, { fold }: Joint, step: 1 | -1): Joint | undefined => {
  const { panel, loop } = panelOf(draft, fold.child.panel);
  const own = foldPieceOf(loop, fold.id);
  for (let k = 1; k < loop.length; k++) {
    const next = vertexAt(loop, own + step * k);
    if (next.fold !== undefined) return jointFrom(draft, next.fold, panel.id);
  }
  return undefined;
};

const trimLip = (draft: Draft, lip: Joint, pose: Pose, keep: HalfSpace): void => {
  for (const further of trimPanel(draft, lip, composePoses(pose, foldPose(lip)), keep))
    squareOff(draft, further);
};

/**
 * The space on the inside of a flange that stands at `pose`, beginning at the gap before its inside
 * face.
 */
const inFrontOf = ({ fold, thicknessMm }: Joint, pose: Pose, gap: number): HalfSpace => {
  const up = fold.direction === 'up';
  const normal = up ? pose.z : scale3(pose.z, -1);
  return { normal, level: dot3(normal, pose.o) + (up ? thicknessMm : 0) + gap };
};

/**
 * Keeps each flange on its own side of the corner's bisector through the crossing of the two
 * tangent lines in the flat, with enough distance for the cutter to pass between them.
 */
const trimFlat = (draft: Draft, pair: FoldPair, gap: number): void => {
  const joints = jointsOf(draft, pair);
  const [a, b] = joints;
  const bisector = unit(sub(b.parentDir, a.parentDir));
  const crossing = crossingOf(joints, 1);
  const half = Math.max(gap, draft.part.relief.leastSlotMm) / 2;
  for (const joint of joints) {
    const side =
      dot(leftOf(bisector), joint === a ? scale(a.parentDir, -1) : b.parentDir) < 0 ? -1 : 1;
    const normal = scale(leftOf(bisector), side);
    const motion = flatMotion(joint);
    const own = moveVector(invert(motion), normal);
    const level = dot(normal, crossing) + half - dot(normal, [motion.x, motion.y]);
    for (const lip of cutPanel(draft, joint, own, level)) squareOff(draft, lip);
  }
};

/**
 * The point where the mould lines (share 0) or the tangent lines (share 1) of two folds cross, on
 * the panel they stand on.
 */
const crossingOf = ([a, b]: readonly [Joint, Joint], share: 0 | 1): Vec2 => {
  const onA = along(a.parentAt, leftOf(a.parentDir), share * a.figures.setbackMm);
  const onB = along(b.parentAt, leftOf(b.parentDir), share * b.figures.setbackMm);
  const away = dot(sub(onB, onA), leftOf(b.parentDir)) / dot(a.parentDir, leftOf(b.parentDir));
  return along(onA, a.parentDir, away);
};
