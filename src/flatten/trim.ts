import { flatMotion, foldPose, type Joint } from '../fold/joint.ts';
import { clip } from '../geometry/clip.ts';
import { leftOf, along, cross, dot, scale, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { dot3, length3, scale3, sub3, type Vec3 } from '../geometry/vec3.ts';
import { composePoses, type Pose } from '../geometry/pose.ts';
import { levelCrossings, type Piece, pieceOf, pointOn } from '../geometry/piece.ts';
import { invert, moveVector } from '../geometry/motion2.ts';
import { NOISE_MM, NEARLY_PARALLEL_SINE, PARALLEL_SINE } from '../geometry/tolerance.ts';
import type { Finding } from '../model/finding.ts';
import type { Corner, Part } from '../model/part.ts';
import { type Loop, vertexAt } from '../geometry/loop.ts';
import { foldName, foundOn } from '../model/found-on.ts';
import { meetingAt } from './meeting.ts';
import { type Draft, type DraftVertex, foldPieceOf, foldsOn, jointFrom, panelOf } from './draft.ts';

/**
 * Trims neighbouring flanges so that they neither collide when folded nor overlap in the flat: for
 * every corner of every panel at which two folds meet.
 */
export const trimCorners = (draft: Draft): void => {
  for (const { panel } of draft.panels.values()) {
    for (const pair of cornersOf(draft, panel.id)) trimPair(draft, pair);
  }
};

/**
 * Two folds that share a corner of a panel: `before` ends where `after` begins, counter-clockwise.
 * What lies between them, if anything, is so short that their bends take all of it; metal that goes
 * on along a fold's own line stays, with a relief beside it.
 */
interface FoldPair {
  readonly panel: string;
  readonly before: string;
  readonly after: string;
}

const cornersOf = (draft: Draft, panel: string): FoldPair[] => {
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

/**
 * Whether the first bend takes all of the pieces, or all up to where the second one takes the rest.
 */
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

const jointsOf = (draft: Draft, { panel, before, after }: FoldPair): readonly [Joint, Joint] => [
  jointFrom(draft, before, panel),
  jointFrom(draft, after, panel),
];

const styleOf = (part: Part, { before, after }: FoldPair): Corner => {
  const given = part.corners?.find((c) => c.folds.includes(before) && c.folds.includes(after));
  return given ?? { folds: [before, after], style: 'open' };
};

const trimPair = (draft: Draft, pair: FoldPair): void => {
  const [a, b] = jointsOf(draft, pair);
  // Folds that run into a common point share it: their panels meet nowhere else.
  if (a.fold.midSurface === true && b.fold.midSurface === true) return;
  if (Math.abs(cross(a.parentDir, b.parentDir)) < PARALLEL_SINE) return;
  const corner = styleOf(draft.part, pair);
  const gap = corner.gapMm ?? draft.part.cornerGapMm;
  if (a.fold.direction === b.fold.direction && a.fold.angleDeg > 0 && b.fold.angleDeg > 0) {
    if (corner.style === 'butt') trimButt(draft, pair, corner, gap);
    else trimOpen(draft, pair, gap);
  }
  if (corner.style === 'open') trimFlat(draft, pair, gap);
};

/** The part of space where `normal . p >= level`. */
interface HalfSpace {
  readonly normal: Vec3;
  readonly level: number;
}

/** Both flanges end at the plane that halves the corner, each half the gap before it. */
const trimOpen = (draft: Draft, pair: FoldPair, gap: number): void => {
  const plane = halvingPlane(draft, pair);
  const keep = (side: 1 | -1): HalfSpace => ({
    normal: scale3(plane.normal, side),
    level: side * plane.level + gap / 2,
  });
  const [a, b] = jointsOf(draft, pair);
  trimTwins(draft, [a, b], [foldPose(a), foldPose(b)], [keep(1), keep(-1)], gap);
};

/**
 * The plane through the line in which the outside faces of the two flanges meet, at equal angles to
 * both. Where they are (nearly) parallel, as on a hem round a corner, the upright plane through the
 * corner along its bisector. Its normal points to the side of the flange of `before`.
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

/** The flange of `through` runs on; the other ends before its inside face. */
const trimButt = (draft: Draft, pair: FoldPair, corner: Corner, gap: number): void => {
  const [a, b] = jointsOf(draft, pair);
  const [through, cut] = corner.through === pair.after ? [b, a] : [a, b];
  const keep = inFrontOf(through, foldPose(through), gap);
  for (const lip of trimPanel(draft, cut, foldPose(cut), keep)) squareOff(draft, lip);
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
 * backwards on the flange of `before`, forwards on that of `after`. The same side leads on from lip
 * to lip.
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
 * The space on the inside of a flange that stands at `pose`, from the gap before its inside face
 * on.
 */
const inFrontOf = ({ fold, thicknessMm }: Joint, pose: Pose, gap: number): HalfSpace => {
  const up = fold.direction === 'up';
  const normal = up ? pose.z : scale3(pose.z, -1);
  return { normal, level: dot3(normal, pose.o) + (up ? thicknessMm : 0) + gap };
};

/**
 * A fold whose stretch was shortened when its panel was trimmed: what is left of it, measured from
 * its frame.
 */
interface Shortened {
  readonly joint: Joint;
  readonly from: number;
  readonly to: number;
}

/**
 * Cuts the panel a joint leads to; `pose` takes it to the coordinates of the half-space. Says which
 * folds it hit.
 */
const trimPanel = (draft: Draft, joint: Joint, pose: Pose, keep: HalfSpace): Shortened[] => {
  const normal: Vec2 = [dot3(keep.normal, pose.x), dot3(keep.normal, pose.y)];
  const size = Math.hypot(normal[0], normal[1]);
  if (size < PARALLEL_SINE) return [];
  // The cut stands square on the sheet, so both faces have to be on the right side.
  const rise = draft.part.thicknessMm * dot3(keep.normal, pose.z);
  const level = keep.level - dot3(keep.normal, pose.o) + Math.max(0, -rise);
  return cutPanel(draft, joint, scale(normal, 1 / size), level / size);
};

/** Keeps of the panel a joint leads to what lies where `normal . p >= level`. */
const cutPanel = (draft: Draft, joint: Joint, normal: Vec2, level: number): Shortened[] => {
  const target = panelOf(draft, joint.fold.child.panel);
  const before = target.loop;
  const { id } = target.panel;
  const parts = clip(before, normal, level, ([x, y]): DraftVertex => ({
    x,
    y,
    bulge: 0,
    origin: { kind: 'trim', panel: id },
  }));
  const kept = parts.find((loop) => foldPieceOf(loop, joint.fold.id) >= 0);
  if (kept === undefined) {
    draft.findings.push(nothingLeft(draft.part, id, joint.fold.id));
    return [];
  }
  target.loop = kept;
  const others = foldsOn(draft, id).filter((fold) => fold !== joint.fold.id);
  return others.flatMap((fold) => shortened(jointFrom(draft, fold, id), before, kept));
};

const nothingLeft = (part: Part, panel: string, fold: string): Finding =>
  foundOn(
    'flange-trimmed-away',
    { panels: [panel], folds: [fold] },
    `${panel} has no metal left at ${foldName(part, fold)} once it clears its neighbours`,
    'make it longer along the fold, or cornerGap smaller',
  );

const shortened = (
  joint: Joint,
  before: Loop<DraftVertex>,
  after: Loop<DraftVertex>,
): Shortened[] => {
  const was = foldPieceOf(before, joint.fold.id);
  const is = foldPieceOf(after, joint.fold.id);
  if (is < 0 || was < 0) return [];
  const measure = (p: Vec2): number => dot(sub(p, joint.parentAt), joint.parentDir);
  const [old, now] = [pieceOf(before, was), pieceOf(after, is)];
  const [from, to] = [measure(now.from), measure(now.to)];
  const isCut = from > measure(old.from) + NOISE_MM || to < measure(old.to) - NOISE_MM;
  return isCut ? [{ joint, from, to }] : [];
};

/** A flange is cut square to its fold where the edge it stands on was shortened. */
const squareOff = (draft: Draft, { joint, from, to }: Shortened): void => {
  // Along the child's edge the stretch runs against the parent's, from the same point.
  const base = dot(joint.childAt, joint.childDir);
  const lips = [
    ...cutPanel(draft, joint, scale(joint.childDir, -1), from - base),
    ...cutPanel(draft, joint, joint.childDir, base - to),
  ];
  for (const lip of lips) squareOff(draft, lip);
};

/**
 * In the flat each flange stays on its own side of the corner's bisector through the crossing of
 * the two tangent lines, far enough for the cutter to pass between them.
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
 * Where the mould lines (share 0) or the tangent lines (1) of two folds cross, on the panel they
 * stand on.
 */
const crossingOf = ([a, b]: readonly [Joint, Joint], share: 0 | 1): Vec2 => {
  const onA = along(a.parentAt, leftOf(a.parentDir), share * a.figures.setbackMm);
  const onB = along(b.parentAt, leftOf(b.parentDir), share * b.figures.setbackMm);
  const away = dot(sub(onB, onA), leftOf(b.parentDir)) / dot(a.parentDir, leftOf(b.parentDir));
  return along(onA, a.parentDir, away);
};
