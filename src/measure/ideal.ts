import { pieceOf } from '../geometry/piece.ts';
import { AT_HOME, composePoses, type Pose, flatPose } from '../geometry/pose.ts';
import { along, distance, leftOf, scale, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { Fold, FoldSide, Panel, Part } from '../model/part.ts';
import { turnAbout } from './folded.ts';
import { motionBetween } from '../geometry/motion2.ts';

/**
 * The places of the panels of a part by their mould lines alone; nothing here knows how long a bend
 * is in the flat. Up to square a child turns about the line in which the outside (inside) faces
 * meet. Past square it turns about the axis of a circle of the face's radius that touches both
 * mould planes.
 */
export const idealPoses = (part: Part): ReadonlyMap<string, Pose> => {
  const panels = new Map(part.panels.map((p) => [p.id, p]));
  const poses = new Map<string, Pose>([[part.root, AT_HOME]]);
  for (let grown = true; grown;) {
    grown = false;
    for (const fold of part.folds) {
      const parent = poses.get(fold.parent.panel);
      if (parent === undefined || poses.has(fold.child.panel)) continue;
      poses.set(fold.child.panel, composePoses(parent, hinge(part, fold, panels)));
      grown = true;
    }
  }
  return poses;
};

const hinge = (part: Part, fold: Fold, panels: ReadonlyMap<string, Panel>): Pose => {
  const [p, c] = [frameOf(panels, fold.parent, 'from'), frameOf(panels, fold.child, 'to')];
  const { thicknessMm: t, measure } = part;
  const up = fold.direction === 'up';
  const isRound = fold.midSurface !== true && fold.angleDeg > 90;
  const radius = fold.insideRadiusMm + (measure === 'outside' ? t : 0);
  const face = fold.midSurface === true ? t / 2 : up === (measure === 'outside') ? 0 : t;
  const axisZ = isRound ? (up ? t + fold.insideRadiusMm : -fold.insideRadiusMm) : face;
  const taken = isRound ? radius : 0;
  const out: Vec2 = [p.dir[1], -p.dir[0]];
  // The child's touching line is laid flat onto the parent's.
  const level = layFlat(c, { at: along(p.at, out, -2 * taken), dir: scale(p.dir, -1) });
  const turn = turnAbout(
    [...along(p.at, out, -taken), axisZ],
    [...p.dir, 0],
    up ? -fold.angleDeg : fold.angleDeg,
    [0, 0, 0],
  );
  return composePoses(turn, level);
};

interface Frame {
  readonly at: Vec2;
  readonly dir: Vec2;
}

/** The point where a stretch begins (`from`) or ends (`to`), and the direction of its edge. */
const frameOf = (panels: ReadonlyMap<string, Panel>, side: FoldSide, end: 'from' | 'to'): Frame => {
  const piece = pieceOf((panels.get(side.panel) as Panel).outline, side.edge);
  const dir = unit(sub(piece.to, piece.from));
  const at = end === 'from' ? (side.from ?? 0) : (side.to ?? distance(piece.from, piece.to));
  return { at: along(piece.from, dir, at), dir };
};

/** The pose that takes one frame to another, in the plane. */
const layFlat = (from: Frame, to: Frame): Pose =>
  flatPose(motionBetween(from.at, from.dir, to.at, to.dir));

/** Distance of a point from a line, in the plane. */
export const fromLine = (p: Vec2, { at, dir }: Frame): number =>
  Math.abs((p[0] - at[0]) * leftOf(dir)[0] + (p[1] - at[1]) * leftOf(dir)[1]);
