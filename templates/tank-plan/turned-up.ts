import { along3, dot3, setbackMm, unit3 } from '../../src/template.ts';
import type { Vec3 } from '../../src/template.ts';
import type { Sheet } from './panels.ts';
import { meetOf, type Plane, turnOfDeg } from './solid.ts';

/**
 * A plate whose edges are folded along planes that stand round it: the faces of both that its
 * measures are taken on, those inside of the bends or those outside of them.
 */
export interface TurnedUp {
  readonly plate: Plane;
  readonly walls: readonly Plane[];
  readonly measure: 'inside' | 'outside';
  /** 1 where the edges are folded to where the normal of the plate points, -1 where away from there. */
  readonly way: 1 | -1;
}

/** How far an edge is folded, degrees. */
export const foldedDeg = ({ plate, walls, way }: TurnedUp, side: number): number => {
  const turn = turnOfDeg(plate, walls[side] as Plane);
  return way === 1 ? turn : 180 - turn;
};

/** How far the mould line of a fold lies from where the faces of plate and flange meet, mm. */
export const mouldShiftMm = (
  turned: TurnedUp,
  side: number,
  { insideRadiusMm: r, thicknessMm: t }: Sheet,
): number => {
  const turn = foldedDeg(turned, side);
  const faceRadius = turned.measure === 'inside' ? r : r + t;
  return faceRadius * Math.tan((turn * Math.PI) / 360) - setbackMm(turn, r, t, turned.measure);
};

/** The part of one vector that runs in the plane square to another, length 1. */
export const within = (vector: Vec3, normal: Vec3): Vec3 =>
  unit3(along3(vector, normal, -dot3(vector, normal)));

/** Along the flange of a side from its fold, square to that, length 1. */
export const upFlange = ({ plate, walls, way }: TurnedUp, side: number): Vec3 => {
  const up = within(plate.normal, (walls[side] as Plane).normal);
  return way === 1 ? up : [-up[0], -up[1], -up[2]];
};

/** A side moved in along the plate, so that it cuts that at the mould line of the fold. */
const mouldPlane = (turned: TurnedUp, side: number, sheet: Sheet): Plane => {
  const { normal, atMm } = turned.walls[side] as Plane;
  const along = within(normal, turned.plate.normal);
  return { normal, atMm: atMm + mouldShiftMm(turned, side, sheet) * dot3(normal, along) };
};

/** Corners of the plate on its mould lines, in the order of the plan. */
export const mouldCorners = (turned: TurnedUp, sheet: Sheet): Vec3[] => {
  const planes = turned.walls.map((_, side) => mouldPlane(turned, side, sheet));
  return planes.map((plane, i) => meetOf(planes.at(i - 1) as Plane, plane, turned.plate));
};

/** Where a place on a mould line of the plate lies on the flange there. */
export const footOf = (turned: TurnedUp, side: number, at: Vec3, sheet: Sheet): Vec3 => {
  const shift = mouldShiftMm(turned, side, sheet);
  const along = within((turned.walls[side] as Plane).normal, turned.plate.normal);
  return along3(along3(at, along, -shift), upFlange(turned, side), shift);
};
