import { between, type Solid } from '../geometry/convex-solid.ts';
import { type Pose, posePoint } from '../geometry/pose.ts';
import { invert, type Motion2, movePoint } from '../geometry/motion2.ts';
import { dot, leftOf, type Vec2 } from '../geometry/vec2.ts';
import type { Vec3 } from '../geometry/vec3.ts';
import type { FlatBend } from '../model/flat.ts';
import { type Joint, turnAt } from './joint.ts';

/**
 * The bent metal of a finished fold: a stretch of a hollow cylinder whose two ends run straight in
 * the flat.
 */
export interface BendZone {
  /** The angle it spans, in radians. */
  readonly rad: number;
  /**
   * Height of the cylinder's axis over the parent's face z = 0; the face at height z has the radius
   * |axisZ - z|.
   */
  readonly axisZ: number;
  /** Directions in the parent's coordinates: along the fold, and away from the parent. */
  readonly along: Vec2;
  readonly out: Vec3;
  /** The places along the fold where the ends begin and end, mm: at the parent and at the child. */
  readonly ends: readonly [readonly [number, number], readonly [number, number]];
  /**
   * A point of an end at a height of the sheet, after an angle round from the parent, in the
   * coordinates of `pose`.
   */
  readonly at: (end: 0 | 1, z: number, angleRad: number) => Vec3;
}

/**
 * The bend zone of a joint; `placement` and `pose` are those of the parent in the flat pattern and
 * in space.
 */
export const bendZone = (
  joint: Joint,
  bend: FlatBend,
  placement: Motion2,
  pose: Pose,
): BendZone => {
  const turn = turnAt(joint, 1);
  const rad = (turn.angleDeg * Math.PI) / 180;
  const home = invert(placement);
  const d = joint.parentDir;
  const foot = (p: Vec2): number => dot(movePoint(home, p), d);
  const level = dot(joint.parentAt, leftOf(d)) + joint.figures.setbackMm;
  const out: Vec3 = [d[1], -d[0], 0];
  const ends = ([0, 1] as const).map(
    (end) => [foot(bend.parentTangent[end]), foot(bend.childTangent[end])] as const,
  );
  const [first, second] = ends as [readonly [number, number], readonly [number, number]];
  const at = (end: 0 | 1, z: number, angleRad: number): Vec3 => {
    const [u0, u1] = end === 0 ? first : second;
    const radius = turn.axisZ - z;
    const u = rad === 0 ? u0 : u0 + ((u1 - u0) * angleRad) / rad;
    const reach = Math.abs(radius) * Math.sin(angleRad);
    const base = [d[0] * u - d[1] * level, d[1] * u + d[0] * level] as const;
    return posePoint(pose, [
      base[0] + out[0] * reach,
      base[1] + out[1] * reach,
      turn.axisZ - radius * Math.cos(angleRad),
    ]);
  };
  return { rad, axisZ: turn.axisZ, along: d, out, ends: [first, second], at };
};

/**
 * The bend in slices of at most `mostDeg`, each given by its eight corners. The faces of a slice
 * are flat except for the slant of the ends, which is slight.
 */
export const bendSlices = (
  zone: BendZone,
  angleDeg: number,
  thicknessMm: number,
  mostDeg: number,
): Solid[] => {
  const count = Math.ceil(angleDeg / mostDeg);
  const cuts = Array.from({ length: count + 1 }, (_, i) => (i * zone.rad) / count);
  return cuts.slice(1).map((to, i) => {
    const from = cuts[i] as number;
    const side = (end: 0 | 1): Vec3[] => [
      zone.at(end, 0, from),
      zone.at(end, 0, to),
      zone.at(end, thicknessMm, to),
      zone.at(end, thicknessMm, from),
    ];
    return between(side(0), side(1));
  });
};
