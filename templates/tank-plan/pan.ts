import { along3, angleWish, assemble, dot3, polygon } from '../../src/template.ts';
import type { GivenFold, Panel, Piece, Vec3 } from '../../src/template.ts';
import { type Blanks, letter } from './chains.ts';
import { plateHoles, sideHoles } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { endsMm, inPlane, plateFrame, point, sideFrame, type Sheet } from './panels.ts';
import { cornerWay, type Shape, sideName } from './planes.ts';
import { foldedDeg, footOf, mouldCorners, type TurnedUp } from './turned-up.ts';

/** The floor with all sides folded up from it, by the inside of the tank. */
const panOf = ({ planes }: Shape): TurnedUp => ({
  plate: planes.floor,
  walls: planes.walls,
  measure: 'inside',
  way: 1,
});

/**
 * Floor and all sides in one blank, the sides folded up; drawn as seen from inside. Neighbouring
 * sides end at the corner between them and are cut there for the weld gap when the part is laid
 * flat.
 */
export const panBlank = (v: TankPlan, { room, shape, sheet }: Blanks): Piece => {
  const turned = panOf(shape);
  const corners = mouldCorners(turned, sheet);
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
        id: letter(side),
        parent: { panel: 'floor', edge: id },
        child: { panel: id, edge: 'bottom' },
        angleDeg: foldedDeg(turned, side),
        direction: 'up',
        insideRadiusMm: v.insideRadiusMm,
      })),
      wishes: sides.map(({ id }, side) =>
        angleWish(`floor and ${id}`, foldedDeg(turned, side), 'floor', id),
      ),
    },
  );
  return { id: 'pan', part, standing: { poses: [inside] } };
};

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
  const frame = sideFrame(shape, side);
  const foot = (at: number): Vec3 => footOf(panOf(shape), side, corners[at] as Vec3, sheet);
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
