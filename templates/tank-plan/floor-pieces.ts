import { assemble, cross3, dot3, length3 } from '../../src/template.ts';
import type { Cutout, Piece, Vec3 } from '../../src/template.ts';
import type { Blanks } from './chains.ts';
import { plateHoles } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import { overlapMm, type PlacedPanel } from './panels.ts';
import { sideName } from './planes.ts';
import { meetOf, type Plane } from './solid.ts';
import { type Cut, cutOf, lowerOf, placedPanel, roundedFloor } from './stepped-floor.ts';
import { cornerOn, floorCorners, floorName, ridersOf, riserName } from './steps.ts';

/**
 * Where a floor ends at a step: below the step's sheet at its foot, and over that at its head, both
 * times as far back from the far face of the step as from the outside of the sides; never over it,
 * where the sides are cut round the step.
 */
const endAtStep = ({ planes, sheet }: Cut, step: number, floor: number): Plane => {
  const [plane, riser] = [planes.floors[floor] as Plane, planes.risers[step] as Plane];
  const backMm = Math.max(0, sheet.backMm);
  const along = length3(cross3(plane.normal, riser.normal));
  const isFoot = lowerOf(planes, step) === floor;
  const out = isFoot ? overlapMm(plane, riser, { ...sheet, backMm }) * along : backMm * along;
  return { ...riser, atMm: riser.atMm - out };
};

const floorPiece = (cut: Cut, floor: number, folded: readonly number[]): PlacedPanel => {
  const { planes, edges } = cut;
  const plane = planes.floors[floor] as Plane;
  const corners = floorCorners(planes, floor);
  const points = corners.map((at, i): readonly [Vec3, string] => {
    if ('corner' in at)
      return [cornerOn({ ...planes, walls: edges }, at.corner, plane), sideName(at.corner)];
    const next = corners[(i + 1) % corners.length];
    const isStep = next !== undefined && 'step' in next && next.step === at.step;
    return [
      meetOf(edges[at.side] as Plane, endAtStep(cut, at.step, floor), plane),
      isStep ? riserName(at.step) : sideName(at.side),
    ];
  });
  return roundedFloor(cut, corners, folded, placedPanel(floorName(floor), cut, plane, points));
};

/** The face of a step: it stands a gap over the floor at its foot, and ends one below that at its head. */
const riserPiece = (cut: Cut, step: number): PlacedPanel => {
  const { planes, edges, along, sheet } = cut;
  const { thicknessMm, gapMm } = sheet;
  const riser = planes.risers[step] as Plane;
  const foot = lowerOf(planes, step);
  const head = foot === step ? step + 1 : step;
  // Cut square, it comes nearest to a floor that falls with one of its faces.
  const lean = (floor: number): number =>
    thicknessMm * dot3((planes.floors[floor] as Plane).normal, riser.normal);
  const moved = (floor: number, mm: number): Plane => {
    const plane = planes.floors[floor] as Plane;
    return { ...plane, atMm: plane.atMm + mm };
  };
  const low = moved(foot, gapMm + Math.max(0, lean(foot)));
  const high = moved(head, -thicknessMm - gapMm - Math.max(0, -lean(head)));
  const at = (plane: Plane, side: number): Vec3 => meetOf(edges[side] as Plane, riser, plane);
  const [first, last] = ridersOf(planes, step).toSorted(
    (a, b) => dot3(along, at(low, a)) - dot3(along, at(low, b)),
  ) as [number, number];
  // Up the step may run either way of its frame.
  const isUp =
    dot3(cross3(riser.normal, along), at(high, first)) >
    dot3(cross3(riser.normal, along), at(low, first));
  const [from, to, bottom, top] = isUp ? [low, high, foot, head] : [high, low, head, foot];
  return placedPanel(riserName(step), cut, riser, [
    [at(from, first), floorName(bottom)],
    [at(from, last), sideName(last)],
    [at(to, last), floorName(top)],
    [at(to, first), sideName(first)],
  ]);
};

/** A stepped floor in flat pieces, from the floor before the first step on, each welded to the last. */
export const floorInPieces = (
  v: TankPlan,
  { shape, sheet }: Blanks,
  folded: readonly number[],
): Piece[] => {
  const cut = cutOf(shape, sheet);
  const flat = (placed: PlacedPanel, cutouts: readonly Cutout[]): Piece => ({
    id: placed.name.replace(' ', '-'),
    part: assemble(v, {
      root: placed.name,
      panels: [{ id: placed.name, outline: placed.outline, cutouts }],
      folds: [],
      wishes: [],
    }),
    standing: { poses: [placed.pose], turn: 1 },
  });
  return shape.planes.floors.flatMap((_, floor): Piece[] => {
    const placed = floorPiece(cut, floor, folded);
    return [
      ...(floor === 0 ? [] : [flat(riserPiece(cut, floor - 1), [])]),
      flat(placed, plateHoles(v, shape, placed, 'floor', floor).cutouts),
    ];
  });
};
