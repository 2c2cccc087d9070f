import type { BendFigures } from '../bending/bend.ts';
import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import { type Motion2, motionBetween } from '../geometry/motion2.ts';
import type { Pose } from '../geometry/pose.ts';
import { pieceOf } from '../geometry/piece.ts';
import { along, distance, leftOf, scale, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { along3, mix3, type Vec3 } from '../geometry/vec3.ts';
import type { Fold, FoldSide, Panel, Part } from '../model/part.ts';

/**
 * A fold with all that is needed to lay it flat or to turn it: a frame on each side and the figures
 * of its bend. Each frame has its origin on the mould line and its direction along the edge,
 * counter-clockwise round the panel. The two origins are the same point of the folded part, and the
 * two directions run against each other.
 */
export interface Joint {
  readonly fold: Fold;
  readonly thicknessMm: number;
  readonly figures: BendFigures;
  readonly parentAt: Vec2;
  readonly parentDir: Vec2;
  readonly childAt: Vec2;
  readonly childDir: Vec2;
}

/** The joint of a fold between the panels that it joins; the part must have passed `partFlaws`. */
export const makeJoint = (part: Part, fold: Fold, figures: BendFigures): Joint => {
  const parent = stretchOf(part, fold.parent);
  const child = stretchOf(part, fold.child);
  return {
    fold,
    thicknessMm: part.thicknessMm,
    figures,
    parentAt: parent.at,
    parentDir: parent.dir,
    childAt: along(child.at, child.dir, child.length),
    childDir: child.dir,
  };
};

/** The same joint with parent and child exchanged; a fold is the same from both sides. */
export const turnedRound = (j: Joint): Joint => ({
  ...j,
  fold: { ...j.fold, parent: j.fold.child, child: j.fold.parent },
  parentAt: j.childAt,
  parentDir: j.childDir,
  childAt: j.parentAt,
  childDir: j.parentDir,
});

const stretchOf = (part: Part, side: FoldSide): { at: Vec2; dir: Vec2; length: number } => {
  const { outline } = part.panels.find((p) => p.id === side.panel) as Panel;
  const piece = pieceOf(outline, side.edge);
  const dir = unit(sub(piece.to, piece.from));
  const from = side.from ?? 0;
  return {
    at: along(piece.from, dir, from),
    dir,
    length: (side.to ?? distance(piece.from, piece.to)) - from,
  };
};

/**
 * Takes the child's coordinates to the parent's, both lying flat, with the bend zone between the
 * tangent lines.
 */
export const flatMotion = (j: Joint): Motion2 => {
  const { setbackMm: s, allowanceMm } = j.figures;
  const outward = s - allowanceMm;
  return motionBetween(
    along(j.childAt, leftOf(j.childDir), s),
    j.childDir,
    along(j.parentAt, leftOf(j.parentDir), outward),
    scale(j.parentDir, -1),
  );
};

/**
 * The axis that a fold turns about at some stage, seen from the parent. It runs along the fold at
 * height `axisZ` over the parent's tangent line, and the metal between the two tangent lines lies
 * on a cylinder about it whose inside has the radius `insideRadiusMm`.
 */
export interface Turn {
  readonly angleDeg: number;
  readonly insideRadiusMm: number;
  readonly axisZ: number;
  /** +1 when the child turns towards +z. */
  readonly sign: 1 | -1;
}

/**
 * The fold at a share of its finished angle. On the way the neutral line keeps its length: with the
 * allowance BA, the K factor and the angle a in radians the inside radius is BA / a - K t. At share
 * 1 it is the finished radius itself. A fold on the middle of the sheet turns about its line there.
 */
export const turnAt = (j: Joint, share: number): Turn => {
  const { fold, thicknessMm: t, figures } = j;
  const angleDeg = fold.angleDeg * share;
  if (fold.midSurface === true)
    return { angleDeg, insideRadiusMm: 0, axisZ: t / 2, sign: fold.direction === 'up' ? 1 : -1 };
  const rad = (angleDeg * Math.PI) / 180;
  const r =
    share === 1 || rad === 0
      ? fold.insideRadiusMm
      : figures.allowanceMm / rad - figures.kFactor * t;
  return fold.direction === 'up'
    ? { angleDeg, insideRadiusMm: r, axisZ: t + r, sign: 1 }
    : { angleDeg, insideRadiusMm: r, axisZ: -r, sign: -1 };
};

/**
 * Takes the child's coordinates to the parent's with the fold turned by the given share of its
 * angle.
 */
export const foldPose = (j: Joint, share = 1): Pose => {
  const turn = turnAt(j, share);
  const d = j.parentDir;
  const out: Vec3 = [d[1], -d[0], 0];
  const [c, s] = [cosDeg(turn.angleDeg), sinDeg(turn.angleDeg) * turn.sign];
  const outTurned: Vec3 = [c * out[0], c * out[1], s];
  const zTurned: Vec3 = [-s * out[0], -s * out[1], c];
  const tangent = along(j.parentAt, leftOf(d), j.figures.setbackMm);
  const start = flatStretch(j, turn, share);
  // The face z = 0 lies at the signed distance axisZ under the axis.
  const foot: Vec3 = [
    tangent[0] + out[0] * (s * turn.axisZ + c * start),
    tangent[1] + out[1] * (s * turn.axisZ + c * start),
    turn.axisZ - c * turn.axisZ + s * start,
  ];
  const [a, b] = j.childDir;
  const along2: Vec3 = [-d[0], -d[1], 0];
  // Own x = a * (along the edge) - b * (into the panel) and own y = b * (along) + a * (into); the
  // direction into the child is outTurned.
  const x = mix3(along2, a, outTurned, -b);
  const y = mix3(along2, b, outTurned, a);
  const at = along(j.childAt, leftOf(j.childDir), j.figures.setbackMm);
  return { o: along3(along3(foot, x, -at[0]), y, -at[1]), x, y, z: zTurned };
};

/**
 * Flat length of the bend zone: all of it lies flat between parent and child while nothing is bent
 * yet.
 */
const flatStretch = (j: Joint, turn: Turn, share: number): number =>
  share === 0 || turn.angleDeg === 0 ? j.figures.allowanceMm : 0;
