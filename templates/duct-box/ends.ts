import { bendFigures, ruleProblem, setbackMm } from '../../src/template.ts';
import type { Direction } from '../../src/template.ts';
import { cornerAngleDeg, reachAt, type Shell, type ShellWall, wallAt, WALLS } from './shell.ts';
import type { DuctBox } from './inputs.ts';

/** The two ends of the walls: `aperture` lies in the plane of the aperture, `end` away from it. */
export type End = 'aperture' | 'end';

/** Direction along a wall that leads out of it at an end. */
export const outOf = (end: End): 1 | -1 => (end === 'aperture' ? -1 : 1);

/** A bend with the figures that the outlines need: outside dimensions, mm. */
export interface DuctBend {
  readonly angleDeg: number;
  readonly setbackMm: number;
  readonly deductionMm: number;
  /**
   * Distance from the crossing of the outside faces back to the mould line. Up to 90 degrees it is
   * 0; over 90 a leg is measured to the outermost tangent of the bend (see `setbackMm`).
   */
  readonly shortMm: number;
}

export const ductBend = (v: DuctBox, angleDeg: number): DuctBend => {
  const bend = { thicknessMm: v.thicknessMm, insideRadiusMm: v.insideRadiusMm, angleDeg };
  const face = v.insideRadiusMm + v.thicknessMm;
  const setback = setbackMm(angleDeg, v.insideRadiusMm, v.thicknessMm, 'outside');
  // A rule without figures for the bend is refused elsewhere, before anything is flattened.
  const deduction =
    ruleProblem(v.rule, bend) === undefined ? bendFigures(v.rule, bend, 'outside').deductionMm : 0;
  return {
    angleDeg,
    setbackMm: setback,
    deductionMm: deduction,
    shortMm: Math.max(0, face * (halfTan(angleDeg) - 1)),
  };
};

export const halfTan = (angleDeg: number): number => Math.tan((angleDeg * Math.PI) / 360);

/** The bend at corner `j`, between wall `j` and the next. */
export const cornerBend = (v: DuctBox, shell: Shell, j: number): DuctBend =>
  ductBend(v, cornerAngleDeg(wallAt(shell, j), wallAt(shell, j + 1)));

/** A lip along one end of a wall. */
export interface WallLip {
  readonly bend: DuctBend;
  readonly direction: Direction;
  /** Distance from the mould line to the free edge. */
  readonly depthMm: number;
}

/** The end of a wall. */
export interface WallEnd {
  /**
   * Place where its metal ends, or where the mould line of its lip lies, measured along the wall
   * from the outside edge of the aperture.
   */
  readonly alongMm: number;
  readonly lip?: WallLip;
}

/**
 * The end of a wall and its lip. Lips lie flat in the planes of the aperture and of the end. An
 * outward lip is folded away from the inside of the duct, so its mould line lies where the inside
 * face meets the plane; that of an inward lip lies where the outside face does. Without a lip the
 * wall is cut square to the sheet, and no corner of the cut stands out of the plane.
 */
export const wallEnd = (v: DuctBox, shell: Shell, wall: ShellWall, end: End): WallEnd => {
  const kind = lipKind(v, end, wall);
  const outside =
    end === 'aperture'
      ? 0
      : (shell.depthMm - (kind === 'under plate' ? v.thicknessMm : 0)) / wall.cos;
  const inside = outside + v.thicknessMm * wall.slope;
  if (kind === 'none' || kind === 'under plate')
    return { alongMm: end === 'aperture' ? Math.max(outside, inside) : Math.min(outside, inside) };
  const bend = ductBend(
    v,
    kind === 'out' && end === 'end' ? 90 + wall.taperDeg : 90 - wall.taperDeg,
  );
  return {
    alongMm: (kind === 'out' ? inside : outside) - outOf(end) * bend.shortMm,
    lip: {
      bend,
      direction: kind === 'out' ? 'down' : 'up',
      depthMm: (kind === 'plate' ? plateMm(shell, wall) : askedLipMm(v, end, bend)) - bend.shortMm,
    },
  };
};

/** Depth of a lip, measured to where the outside faces of its bend cross, or the inside ones. */
export const askedLipMm = (v: DuctBox, end: End, { angleDeg }: DuctBend): number =>
  (end === 'aperture' ? v.lip : v.endLip) +
  (v.measure === 'inside' ? v.thicknessMm * halfTan(angleDeg) : 0);

/** Distance from a wall to the outside face of the opposite one. */
const plateMm = (shell: Shell, wall: ShellWall): number =>
  reachAt(wall, shell.depthMm) +
  reachAt(wallAt(shell, WALLS.indexOf(wall.name) + 2), shell.depthMm);

/**
 * What is folded on at an end of a wall. The walls beside a plate that is folded on end under it.
 */
export const lipKind = (
  v: DuctBox,
  end: End,
  wall: ShellWall,
): 'none' | 'in' | 'out' | 'plate' | 'under plate' => {
  if (end === 'aperture') return v.lip > 0 && v.lipForm !== 'ring' ? 'out' : 'none';
  if (v.end === 'stub' && v.plateOn !== 'none')
    return v.plateOn === wall.name ? 'plate' : 'under plate';
  if (v.end === 'lip-in') return 'in';
  return v.end === 'lip-out' ? 'out' : 'none';
};
