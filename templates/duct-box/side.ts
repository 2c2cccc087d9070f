import { along, NO_SIZE_MM } from '../../src/template.ts';
import type { Vec2 } from '../../src/template.ts';
import { cornerBend, type DuctBend, type End, halfTan, lipKind, outOf, wallEnd } from './ends.ts';
import { type Shell, type ShellWall, wallAt } from './shell.ts';
import type { DuctBox } from './inputs.ts';

/**
 * One slanted side of a wall, as the wall is seen from inside. Its coordinates are `[across,
 * along]`: from the middle of the aperture towards this side, and down the wall from the outside
 * edge of the aperture. A point of the line in which the two outside faces meet is given by its
 * depth, which is the same on both walls.
 */
export interface WallSide {
  readonly wall: ShellWall;
  readonly neighbour: ShellWall;
  readonly bend: DuctBend;
  readonly isFolded: boolean;
  /** How far the metal or the mould line lies inside the line of the outside faces. */
  readonly insetMm: number;
  /** Sideways step for each mm down the wall. */
  readonly lean: number;
  /** Length of the corner for each mm of depth. */
  readonly stretch: number;
}

export type Hand = 'right' | 'left';

/** One side of a wall; `seams[j]` says whether corner `j` is welded. */
export const wallSide = (
  v: DuctBox,
  shell: Shell,
  seams: readonly boolean[],
  i: number,
  hand: Hand,
): WallSide => {
  const wall = wallAt(shell, i);
  const neighbour = wallAt(shell, hand === 'right' ? i + 1 : i - 1);
  const corner = hand === 'right' ? i % 4 : (i + 3) % 4;
  const bend = cornerBend(v, shell, corner);
  const isFolded = seams[corner] !== true;
  const lean = -wall.cos * neighbour.slope;
  return {
    wall,
    neighbour,
    bend,
    isFolded,
    insetMm: isFolded ? bend.shortMm : weldInsetMm(v, bend),
    lean,
    stretch: Math.hypot(lean, 1) / wall.cos,
  };
};

/**
 * Both walls of a seam end half the gap before the plane that halves the corner, measured on the
 * inside face.
 */
const weldInsetMm = (v: DuctBox, { angleDeg }: DuctBend): number =>
  v.thicknessMm * halfTan(angleDeg) + v.cornerGapMm / (2 * Math.cos((angleDeg * Math.PI) / 360));

/** The point at a depth, `insetMm` inside the line of the outside faces. */
export const sidePoint = (side: WallSide, depthMm: number, insetMm = side.insetMm): Vec2 => {
  const size = Math.hypot(side.lean, 1);
  const onLine: Vec2 = [
    side.neighbour.reachMm - depthMm * side.neighbour.slope,
    depthMm / side.wall.cos,
  ];
  return along(onLine, [-1 / size, side.lean / size], insetMm);
};

/** The depth of the side's point at a distance down the wall. */
export const sideDepth = (side: WallSide, alongMm: number): number =>
  (alongMm - (side.insetMm * side.lean) / Math.hypot(side.lean, 1)) * side.wall.cos;

/** Angle of the panel at an end of the side, degrees. */
export const sideAngleDeg = (side: WallSide, end: End): number =>
  90 - (outOf(end) * Math.atan(side.lean) * 180) / Math.PI;

/**
 * The meeting of a wall's end and its side: a point on each, which is the same point where nothing
 * is cut off.
 */
export interface SideCorner {
  readonly onEnd: Vec2;
  readonly onSide: Vec2;
}

/**
 * The corner of a wall's end and side. The two walls of a fold end at the same depth. Beside a lip
 * the corner is snipped off one thickness past the crossing of the two bends, so that neither tears
 * the other (common practice); inward lips get their room at seams too.
 */
export const sideCorner = (
  v: DuctBox,
  shell: Shell,
  seams: readonly boolean[],
  i: number,
  hand: Hand,
  end: End,
): SideCorner => {
  const side = wallSide(v, shell, seams, i, hand);
  const other =
    hand === 'right'
      ? wallSide(v, shell, seams, i + 1, 'left')
      : wallSide(v, shell, seams, i + 3, 'right');
  const own = cutDepth(v, shell, side, end);
  const depth = side.isFolded ? deeper(end, own, cutDepth(v, shell, other, end)) : own;
  const { alongMm } = wallEnd(v, shell, side.wall, end);
  const sharp = sideDepth(side, alongMm);
  const [across] = sidePoint(side, sharp);
  const cut = Math.max(snipMm(v, shell, side, end), Math.abs(depth - sharp) * side.stretch);
  if (cut < NO_SIZE_MM) return { onEnd: [across, alongMm], onSide: [across, alongMm] };
  return { onEnd: [across - cut, alongMm], onSide: sidePoint(side, depth) };
};

const deeper = (end: End, a: number, b: number): number =>
  end === 'aperture' ? Math.max(a, b) : Math.min(a, b);

const cutDepth = (v: DuctBox, shell: Shell, side: WallSide, end: End): number =>
  sideDepth(side, wallEnd(v, shell, side.wall, end).alongMm) -
  (outOf(end) * snipMm(v, shell, side, end)) / side.stretch;

/** How far along both edges a corner is snipped off. */
const snipMm = (v: DuctBox, shell: Shell, side: WallSide, end: End): number => {
  const { lip } = wallEnd(v, shell, side.wall, end);
  const kind = lipKind(v, end, side.wall);
  if (lip === undefined || (!side.isFolded && kind === 'out')) return 0;
  // A mitre starts where the outside faces cross.
  const bends =
    lip.bend.setbackMm +
    (kind === 'in' ? lip.bend.shortMm : 0) +
    (side.isFolded ? side.bend.setbackMm : 0);
  const clear = Math.max(
    Math.SQRT2 * v.thicknessMm,
    v.cornerGapMm + v.thicknessMm,
    v.leastSlotMm / 2,
  );
  return bends / Math.sin((sideAngleDeg(side, end) * Math.PI) / 180) + clear;
};
