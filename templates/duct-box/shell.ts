import type { DuctBox } from './inputs.ts';

/** Walls in counter-clockwise order, as seen looking into the aperture. */
export const WALLS = ['bottom', 'right', 'top', 'left'] as const;
export type WallName = (typeof WALLS)[number];

/** Corner `j` lies between wall `j` and the next one. */
export const CORNERS = ['bottom-right', 'top-right', 'top-left', 'bottom-left'] as const;
export type CornerName = (typeof CORNERS)[number];

/**
 * One wall. Its outside face is a plane through the outside edges of the aperture and of the end.
 */
export interface ShellWall {
  readonly name: WallName;
  /** Distance from the axis of the aperture to the outside face, in the plane of the aperture. */
  readonly reachMm: number;
  /**
   * How much nearer to that axis the outside face comes for each mm of depth: tangent of the taper.
   */
  readonly slope: number;
  /** Lean against the axis; below 0 where the wall leans outwards. */
  readonly taperDeg: number;
  readonly sin: number;
  readonly cos: number;
}

/** The four walls from the plane of the aperture down to where they end. */
export interface Shell {
  readonly walls: readonly ShellWall[];
  readonly depthMm: number;
}

/**
 * Depth to which the walls reach. The size of the end is measured on it: a plate that is welded on
 * lies on the ends of the walls, and both together have the length asked for; a plate that is
 * folded on has its outside face there.
 */
export const wallDepthMm = (v: DuctBox): number =>
  v.length - (v.end === 'stub' && v.plateOn === 'none' ? v.thicknessMm : 0);

/**
 * Distances from the axis to the sides of a rectangle whose centre is shifted, in the order of the
 * walls.
 */
const reaches = (width: number, height: number, right: number, up: number): readonly number[] => [
  height / 2 - up,
  width / 2 + right,
  height / 2 + up,
  width / 2 - right,
];

/** The reach asked of every wall at the aperture, to outside or inside faces as measured. */
export const apertureReaches = (v: DuctBox): readonly number[] => reaches(v.width, v.height, 0, 0);

/**
 * The shell of a duct. Inside faces lie parallel to the outside ones; measured across the axis they
 * are the thickness over the cosine further in.
 */
export const shellOf = (v: DuctBox): Shell => {
  const depthMm = wallDepthMm(v);
  const ends = reaches(v.endWidth, v.endHeight, v.offsetRight, v.offsetUp);
  const walls = apertureReaches(v).map((reach, i): ShellWall => {
    const slope = (reach - (ends[i] ?? 0)) / depthMm;
    const cos = 1 / Math.hypot(1, slope);
    const wall = v.measure === 'inside' ? v.thicknessMm / cos : 0;
    return {
      name: WALLS[i] as WallName,
      reachMm: reach + wall,
      slope,
      taperDeg: (Math.atan(slope) * 180) / Math.PI,
      sin: slope * cos,
      cos,
    };
  });
  return { walls, depthMm };
};

/** The wall of a number, which may run past the last. */
export const wallAt = (shell: Shell, i: number): ShellWall => shell.walls[(i + 4) % 4] as ShellWall;

/** Distance from the axis to the outside face at a depth. */
export const reachAt = (wall: ShellWall, depthMm: number): number =>
  wall.reachMm - depthMm * wall.slope;

/**
 * How far the fold between two neighbouring walls is turned: the angle between their outward
 * normals.
 */
export const cornerAngleDeg = (a: ShellWall, b: ShellWall): number =>
  (Math.acos(a.sin * b.sin) * 180) / Math.PI;
