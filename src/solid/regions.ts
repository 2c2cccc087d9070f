import type { FoldedBody } from '../fold/fold-up.ts';
import { type Joint, turnAt } from '../fold/joint.ts';
import {
  composePoses,
  invertPose,
  type Pose,
  posePoint,
  poseVector,
  flatPose,
} from '../geometry/pose.ts';
import { dot, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { mix3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatBend, FlatPattern } from '../model/flat.ts';

/**
 * The position of the metal of a panel or a bend when the blank is folded; points are those of the
 * drawing.
 */
export interface Region {
  readonly of: string;
  readonly kind: 'panel' | 'bend';
  /**
   * The frame of the sheet at a point: `o` is the point itself at z = 0, `z` is square to the
   * sheet.
   */
  readonly at: (p: Vec2) => Pose;
}

/** A bend, with what is needed to cut the blank along it. */
export interface BentZone extends Region {
  readonly kind: 'bend';
  readonly bend: FlatBend;
  readonly rad: number;
  /** The angle of the finished bend, radians, and the radius of its outside face. */
  readonly finishedRad: number;
  readonly outerMm: number;
  /** Direction in the drawing: away from the parent, square to the fold. */
  readonly out: Vec2;
  /** The frame at a share of the bend's angle, whatever its length in the flat. */
  readonly turned: (p: Vec2, share: number) => Pose;
}

/**
 * The region of a panel, which takes it from the drawing to its folded position; `seat` is applied
 * to all of it.
 */
export const panelRegion = (
  flat: FlatPattern,
  { poses }: FoldedBody,
  seat: Pose,
  id: string,
): Region => {
  const pose = panelPose(flat, poses, seat, id);
  return { of: id, kind: 'panel', at: (p) => ({ ...pose, o: posePoint(pose, [p[0], p[1], 0]) }) };
};

const panelPose = (flat: FlatPattern, poses: FoldedBody['poses'], seat: Pose, id: string): Pose => {
  const placement = flat.panels.find((p) => p.id === id)?.placement;
  if (placement === undefined) throw new Error(`no panel ${id} in the flat pattern`);
  return composePoses(seat, composePoses(poses.get(id) as Pose, invertPose(flatPose(placement))));
};

/**
 * The metal between the tangent lines of a bend, on its cylinder: a point at share s of the
 * allowance is turned by share s of the angle. Of a bend that is only made by a `share`, more than
 * 0, it is the metal at that stage. A face at height z of the sheet has the radius |axis
 * - z|.
 */
export const bentZone = (
  flat: FlatPattern,
  { poses }: FoldedBody,
  seat: Pose,
  { joint, share }: { readonly joint: Joint; readonly share: number },
): BentZone => {
  const bend = flat.bends.find((b) => b.id === joint.fold.id) as FlatBend;
  const parent = panelPose(flat, poses, seat, bend.parent);
  const [turn, finished] = [turnAt(joint, share), turnAt(joint, 1)];
  const rad = (turn.angleDeg * Math.PI) / 180;
  const [p, q] = bend.parentTangent;
  const along = unit(sub(q, p));
  const out: Vec2 = [along[1], -along[0]];
  const out3: Vec3 = poseVector(parent, [out[0], out[1], 0]);
  const turned = (at: Vec2, of: number): Pose => {
    // Metal that is not bent yet lies flat with the parent.
    if (rad === 0) return { ...parent, o: posePoint(parent, [at[0], at[1], 0]) };
    const far = dot(sub(at, p), out);
    const [x, y] = [at[0] - far * out[0], at[1] - far * out[1]];
    const [c, s] = [Math.cos(of * rad), Math.sin(of * rad) * turn.sign];
    const z = mix3(parent.z, c, out3, -s);
    const foot = posePoint(parent, [x, y, turn.axisZ]);
    // The direction into the bend, which is `out` turned up with it. The drawing's own x and y
    // follow from it.
    const into = mix3(out3, c, parent.z, s);
    const along3 = poseVector(parent, [along[0], along[1], 0]);
    return {
      o: mix3(foot, 1, z, -turn.axisZ),
      x: mix3(along3, along[0], into, out[0]),
      y: mix3(along3, along[1], into, out[1]),
      z,
    };
  };
  const at = (point: Vec2): Pose =>
    turned(point, Math.min(1, Math.max(0, dot(sub(point, p), out) / bend.allowanceMm)));
  return {
    of: bend.id,
    kind: 'bend',
    at,
    turned,
    bend,
    rad,
    out,
    finishedRad: (finished.angleDeg * Math.PI) / 180,
    outerMm: finished.insideRadiusMm + flat.thicknessMm,
  };
};

/**
 * Lines across a bend zone at equal shares of its angle, including the tangent lines of parent and
 * child.
 */
export const linesAcross = (
  { bend }: Pick<BentZone, 'bend'>,
  count: number,
): readonly (readonly [Vec2, Vec2])[] => {
  const [[p, q], [c, d]] = [bend.parentTangent, bend.childTangent];
  const across = (a: Vec2, b: Vec2, share: number): Vec2 => [
    a[0] + share * (b[0] - a[0]),
    a[1] + share * (b[1] - a[1]),
  ];
  return Array.from(
    { length: count + 1 },
    (_, k) => [across(p, c, k / count), across(q, d, k / count)] as const,
  );
};

/**
 * The number of flat strips that a bend needs so that none is farther than `sagMm` from its faces
 * when it is finished, and so at no stage.
 */
export const stripsOf = (
  { finishedRad: rad, outerMm }: Pick<BentZone, 'finishedRad' | 'outerMm'>,
  sagMm: number,
): number =>
  Math.max(LEAST_STRIPS, Math.ceil(rad / (2 * Math.acos(Math.max(0, 1 - sagMm / outerMm)))));

/** The least number of strips that makes a bend look round. */
const LEAST_STRIPS = 2;
