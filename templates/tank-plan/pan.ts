import {
  along3,
  angleWish,
  assemble,
  cross3,
  dot3,
  length3,
  polygon,
  setbackMm,
  unit3,
} from '../../src/template.ts';
import type { GivenFold, Panel, Piece, Vec3 } from '../../src/template.ts';
import type { Blanks } from './chains.ts';
import { plateHoles, sideHoles } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { endsMm, inPlane, plateFrame, point, sideFrame, type Sheet } from './panels.ts';
import { cornerWay, type Shape, sideName } from './planes.ts';
import { meetOf, type Plane } from './solid.ts';

/** How far floor and side are turned against each other, degrees. */
const floorTurnDeg = ({ planes }: Shape, side: number): number => {
  const [floor, wall] = [planes.floor.normal, (planes.walls[side] as Plane).normal];
  return (Math.atan2(length3(cross3(floor, wall)), dot3(floor, wall)) * 180) / Math.PI;
};

/** How far the mould line at a side lies from where the insides of floor and side meet, mm. */
const shiftMm = (
  shape: Shape,
  side: number,
  { insideRadiusMm: r, thicknessMm: t }: Sheet,
): number => {
  const turn = floorTurnDeg(shape, side);
  return r * Math.tan((turn * Math.PI) / 360) - setbackMm(turn, r, t, 'inside');
};

/** The part of one vector that runs in the plane square to another, length 1. */
const within = (vector: Vec3, normal: Vec3): Vec3 =>
  unit3(along3(vector, normal, -dot3(vector, normal)));

/** A side moved in along the floor, so that it cuts the floor at the mould line of the bend. */
const mouldPlane = (shape: Shape, side: number, sheet: Sheet): Plane => {
  const { floor, walls } = shape.planes;
  const { normal, atMm } = walls[side] as Plane;
  const along = within(normal, floor.normal);
  return { normal, atMm: atMm + shiftMm(shape, side, sheet) * dot3(normal, along) };
};

/** Corners of the floor on its mould lines, in the order of the plan. */
const floorCorners = (shape: Shape, sheet: Sheet): Vec3[] => {
  const planes = shape.low.map((_, side) => mouldPlane(shape, side, sheet));
  return planes.map((plane, i) => meetOf(planes.at(i - 1) as Plane, plane, shape.planes.floor));
};

/**
 * Floor and all sides in one blank, the sides folded up; drawn as seen from inside. Neighbouring
 * sides end at the corner between them and are cut there for the weld gap when the part is laid
 * flat.
 */
export const panBlank = (v: TankPlan, { room, shape, sheet }: Blanks): Piece => {
  const corners = floorCorners(shape, sheet);
  const frame = plateFrame(shape, 'floor');
  const inside = { ...frame, o: point(frame, [0, 0], -sheet.thicknessMm) };
  const outline = polygon(
    ...corners.map((p, i) => [...inPlane(frame, p), sideName(i)] as [number, number, string]),
  );
  const floor = { name: 'floor', outline, pose: inside };
  const sides = corners.map((_, side) =>
    sidePanelOf(v, room.corners[side] as readonly [number, number], shape, sheet, corners, side),
  );
  const part = assemble(
    { ...v, measure: 'inside' },
    {
      root: 'floor',
      panels: [
        { id: 'floor', outline, cutouts: plateHoles(v, shape, floor, 'floor').cutouts },
        ...sides,
      ],
      folds: sides.map(({ id }, side): GivenFold => ({
        id: foldLetters(side),
        parent: { panel: 'floor', edge: id },
        child: { panel: id, edge: 'bottom' },
        angleDeg: floorTurnDeg(shape, side),
        direction: 'up',
        insideRadiusMm: v.insideRadiusMm,
      })),
      wishes: sides.map(({ id }, side) =>
        angleWish(`floor and ${id}`, floorTurnDeg(shape, side), 'floor', id),
      ),
    },
  );
  return { id: 'pan', part, standing: { poses: [inside] } };
};

const foldLetters = (i: number): string =>
  i < 26 ? String.fromCharCode(65 + i) : `A${foldLetters(i - 26)}`;

const sidePanelOf = (
  v: TankPlan,
  corner: readonly [number, number],
  shape: Shape,
  sheet: Sheet,
  corners: readonly Vec3[],
  side: number,
): Panel => {
  const { planes, low, high } = shape;
  const next = (side + 1) % low.length;
  const { normal } = planes.walls[side] as Plane;
  const frame = sideFrame(shape, side);
  const shift = shiftMm(shape, side, sheet);
  const [alongFloor, upSide] = [
    within(normal, planes.floor.normal),
    within(planes.floor.normal, normal),
  ];
  const foot = (at: number): Vec3 =>
    along3(along3(corners[at] as Vec3, alongFloor, -shift), upSide, shift);
  const all = low.map((_, i) => i);
  const head = (at: number): Vec3 => {
    const way = cornerWay(planes, at);
    return along3(
      high[at] as Vec3,
      way,
      endsMm(planes.top, shape, all, sheet) / dot3(planes.top.normal, way),
    );
  };
  const edges = ['bottom', 'right', 'top', 'left'] as const;
  const points = [foot(next), foot(side), head(side), head(next)].map((p) => inPlane(frame, p));
  const outline = polygon(
    ...points.map(([px, py], i) => [px, py, edges[i]] as [number, number, string]),
  );
  const placed = {
    name: sideName(side),
    outline,
    pose: { ...frame, o: point(frame, [0, 0], -sheet.thicknessMm) },
  };
  return { id: sideName(side), outline, cutouts: sideHoles(v, placed, side, corner).cutouts };
};
