import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import { AT_HOME, composePoses, invertPose, type Pose } from '../geometry/pose.ts';
import { along, dot, type Vec2 } from '../geometry/vec2.ts';
import { along3, cross3, dot3, mix3, type Vec3 } from '../geometry/vec3.ts';
import type { AskedBend, AskedFolds } from '../contract/asked.ts';
import type { Crease, Split } from './regions.ts';

/**
 * The folded file: the place of each region of the blank, with points in the file's own
 * coordinates.
 */
export interface FoldedRegions {
  readonly poses: readonly Pose[];
  readonly hinges: readonly Hinge[];
}

/** A crease with its bend. `pose` takes the child's points to the parent's coordinates. */
export interface Hinge extends Crease {
  readonly bend: AskedBend;
  readonly direction: 'up' | 'down';
  readonly pose: Pose;
}

/**
 * The pose that turns points about an axis by an angle, after Rodrigues: v cos + (k x v) sin + k (k
 * . v)(1 - cos).
 */
export const turnAbout = (through: Vec3, axis: Vec3, deg: number, shift: Vec3): Pose => {
  const [c, s] = [cosDeg(deg), sinDeg(deg)];
  const turned = (v: Vec3): Vec3 =>
    along3(mix3(v, c, cross3(axis, v), s), axis, dot3(axis, v) * (1 - c));
  const foot = turned([shift[0] - through[0], shift[1] - through[1], shift[2] - through[2]]);
  return {
    o: [through[0] + foot[0], through[1] + foot[1], through[2] + foot[2]],
    x: turned([1, 0, 0]),
    y: turned([0, 1, 0]),
    z: turned([0, 0, 1]),
  };
};

/**
 * Folds the regions up, each about its crease; the first one stays in place. `fold/fold-up.ts`
 * folds the part that is made; this shares nothing with it, so that a mistake in one shows beside
 * the other.
 */
export const foldRegions = (
  split: Split,
  bends: ReadonlyMap<string, AskedBend>,
  directionOf: (id: string) => 'up' | 'down',
  { thicknessMm }: AskedFolds,
): FoldedRegions => {
  const poses: Pose[] = [AT_HOME];
  const hinges = split.creases.map((crease): Hinge => {
    const bend = bends.get(crease.id) as AskedBend;
    const direction = directionOf(crease.id);
    const hinge = {
      ...crease,
      bend,
      direction,
      pose: hingePose(crease, bend, direction, thicknessMm),
    };
    poses[crease.child] = composePoses(poses[crease.parent] as Pose, hinge.pose);
    return hinge;
  });
  return { poses, hinges };
};

/**
 * The pose of a hinge. The child's tangent line is brought onto the parent's, half an allowance
 * before the fold line, and the child is turned about the axis of the bend, which is its inside
 * radius above the inside face.
 */
const hingePose = (
  { at, dir }: Crease,
  bend: AskedBend,
  direction: 'up' | 'down',
  t: number,
): Pose => {
  const { allowanceMm, insideRadiusMm, angleDeg } = bend;
  const out: Vec2 = [dir[1], -dir[0]];
  const tangent = along(at, out, -allowanceMm / 2);
  const height = isMidSurface(bend)
    ? t / 2
    : direction === 'up'
      ? t + insideRadiusMm
      : -insideRadiusMm;
  // The child lies on the right of the line, so a turn about the line's direction would take it
  // down.
  const turn = direction === 'up' ? -angleDeg : angleDeg;
  return turnAbout([...tangent, height], [...dir, 0], turn, [
    -out[0] * allowanceMm,
    -out[1] * allowanceMm,
    0,
  ]);
};

/** Whether a bend turns but takes no length: its panels then meet on the middle of the sheet. */
export const isMidSurface = ({ allowanceMm, kFactor, angleDeg }: AskedBend): boolean =>
  allowanceMm === 0 && kFactor === 0.5 && angleDeg > 0;

/** A stretch of a straight line on the flat blank. */
export interface Line {
  readonly from: Vec2;
  readonly to: Vec2;
}

/**
 * The mould line of a fold as seen from one of its regions, in the file's coordinates: where the
 * two outside (inside) faces of the folded body meet or, past square, where the bend's outer
 * (inner) face reaches farthest.
 */
export const mouldLine = (hinge: Hinge, region: number, folds: AskedFolds): Line => {
  const {
    dir,
    ends: [from, to],
  } = hinge;
  const out: Vec2 = region === hinge.parent ? [dir[1], -dir[0]] : [-dir[1], dir[0]];
  const reach = reachOfBend(hinge, region, out, folds) - hinge.bend.allowanceMm / 2;
  return { from: along(from, out, reach), to: along(to, out, reach) };
};

/** How far beyond its tangent line a bend is measured. */
const reachOfBend = (
  hinge: Hinge,
  region: number,
  out: Vec2,
  { thicknessMm: t, measure }: AskedFolds,
): number => {
  const { bend, direction, at } = hinge;
  if (bend.angleDeg === 0 || isMidSurface(bend)) return 0;
  if (bend.angleDeg > 90) return bend.insideRadiusMm + (measure === 'outside' ? t : 0);
  const tangent = along(at, out, -bend.allowanceMm / 2);
  const level = (direction === 'up') === (measure === 'outside') ? 0 : t;
  const other = region === hinge.parent ? hinge.pose : invertPose(hinge.pose);
  const normal: Vec2 = [other.z[0], other.z[1]];
  return (
    (dot3(other.z, along3(other.o, other.z, level)) - other.z[2] * level - dot(normal, tangent)) /
    dot(normal, out)
  );
};
