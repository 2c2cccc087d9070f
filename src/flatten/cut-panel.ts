import type { Joint } from '../fold/joint.ts';
import { clip } from '../geometry/clip.ts';
import { dot, scale, sub, type Vec2 } from '../geometry/vec2.ts';
import { dot3, type Vec3 } from '../geometry/vec3.ts';
import type { Pose } from '../geometry/pose.ts';
import { pieceOf } from '../geometry/piece.ts';
import { NO_WIDTH_MM, NOISE_MM, PARALLEL_SINE } from '../geometry/tolerance.ts';
import type { Finding } from '../model/finding.ts';
import type { Part } from '../model/part.ts';
import type { Loop } from '../geometry/loop.ts';
import { foldName, foundOn } from '../model/found-on.ts';
import { type Draft, type DraftVertex, foldPieceOf, foldsOn, jointFrom, panelOf } from './draft.ts';

/** The part of space where `normal . p >= level`. */
export interface HalfSpace {
  readonly normal: Vec3;
  readonly level: number;
}

/**
 * A fold whose stretch was shortened when its panel was trimmed, with what is left of it, measured
 * from its frame.
 */
export interface Shortened {
  readonly joint: Joint;
  readonly from: number;
  readonly to: number;
}

/**
 * Cuts the panel that a joint leads to; `pose` takes it to the coordinates of the half-space.
 * Returns the folds that the cut shortened.
 */
export const trimPanel = (draft: Draft, joint: Joint, pose: Pose, keep: HalfSpace): Shortened[] => {
  const cut = cutAt(draft, pose, keep);
  return cut === undefined ? [] : cutPanel(draft, joint, cut.normal, cut.level);
};

/**
 * Whether such a cut would take the whole edge of one of the panel's other folds away: what is
 * folded on there would hang on nothing.
 */
export const takesFold = (draft: Draft, joint: Joint, pose: Pose, keep: HalfSpace): boolean => {
  const cut = cutAt(draft, pose, keep);
  const { panel, loop } = panelOf(draft, joint.fold.child.panel);
  const isOff = (p: Vec2): boolean =>
    cut !== undefined && dot(cut.normal, p) < cut.level + NO_WIDTH_MM;
  return foldsOn(draft, panel.id).some((fold) => {
    const at = fold === joint.fold.id ? -1 : foldPieceOf(loop, fold);
    return at >= 0 && isOff(pieceOf(loop, at).from) && isOff(pieceOf(loop, at).to);
  });
};

/** Where a half-space cuts a panel at `pose`, in the panel's own coordinates. */
const cutAt = (
  draft: Draft,
  pose: Pose,
  keep: HalfSpace,
): { readonly normal: Vec2; readonly level: number } | undefined => {
  const normal: Vec2 = [dot3(keep.normal, pose.x), dot3(keep.normal, pose.y)];
  const size = Math.hypot(normal[0], normal[1]);
  if (size < PARALLEL_SINE) return undefined;
  // The cut is square to the sheet, so both faces have to be on the right side.
  const rise = draft.part.thicknessMm * dot3(keep.normal, pose.z);
  const level = keep.level - dot3(keep.normal, pose.o) + Math.max(0, -rise);
  return { normal: scale(normal, 1 / size), level: level / size };
};

/** Keeps the part of the panel that a joint leads to where `normal . p >= level`. */
export const cutPanel = (draft: Draft, joint: Joint, normal: Vec2, level: number): Shortened[] => {
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

export const shortened = (
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

/** Cuts a flange square to its fold where the edge that it stands on was shortened. */
export const squareOff = (draft: Draft, { joint, from, to }: Shortened): void => {
  // The stretch runs along the child's edge against the parent's, from the same point.
  const base = dot(joint.childAt, joint.childDir);
  const lips = [
    ...cutPanel(draft, joint, scale(joint.childDir, -1), from - base),
    ...cutPanel(draft, joint, joint.childDir, base - to),
  ];
  for (const lip of lips) squareOff(draft, lip);
};
