import {
  along3,
  angleWish,
  assemble,
  cross3,
  dot3,
  length3,
  roundCorners,
  turnedFold,
  unit3,
} from '../../src/template.ts';
import type { GivenFold, Piece, Pose, Vec3, Vertex } from '../../src/template.ts';
import type { Blanks } from './chains.ts';
import { plateHoles } from './fittings.ts';
import type { TankPlan } from './inputs.ts';
import {
  foldShiftMm,
  inPlane,
  overlapMm,
  type PlacedPanel,
  platePanel,
  point,
  type Sheet,
} from './panels.ts';
import { cornerTurnDeg, type Planes, type Shape, sideName } from './planes.ts';
import { meet, meetOf, type Plane } from './solid.ts';
import {
  cornerOn,
  type FloorCorner,
  floorCorners,
  floorName,
  isUp,
  ridersOf,
  riserName,
  stepTurnDeg,
} from './steps.ts';

/** The ends of a fold line on the two sides that run over a step. */
type FoldEnds = ReadonlyMap<number, Vec3>;

/** The planes of a stepped floor and what its panels share. */
export interface Cut {
  readonly shape: Shape;
  readonly planes: Planes;
  readonly sheet: Sheet;
  /** The sides, moved out to where the edges of the floor lie. */
  readonly edges: readonly Plane[];
  /** Along all folds, length 1. */
  readonly along: Vec3;
}

export const cutOf = (shape: Shape, sheet: Sheet): Cut => {
  const { planes } = shape;
  const edges = planes.walls.map((wall) => ({
    ...wall,
    atMm:
      wall.atMm -
      overlapMm(planes.floor, wall, sheet) * length3(cross3(planes.floor.normal, wall.normal)),
  }));
  const along = unit3(cross3((planes.risers[0] as Plane).normal, planes.floor.normal));
  return { shape, planes, sheet, edges, along };
};

/** The part of one vector that runs in the plane square to another, length 1. */
const within = (vector: Vec3, normal: Vec3): Vec3 =>
  unit3(along3(vector, normal, -dot3(vector, normal)));

/** Whether the lower of the two floors at a step is the one before it. */
export const lowerOf = (planes: Planes, step: number): number =>
  isUp(planes.risers[step] as Plane) ? step : step + 1;

/**
 * The fold line between a step and one of its floors as it lies on the floor and on the step: off
 * where their insides meet, and as long on both, from the edge that ends sooner to the other.
 */
const foldEnds = (
  { planes, sheet, edges, along }: Cut,
  step: number,
  floor: number,
): { readonly onFloor: FoldEnds; readonly onRiser: FoldEnds } => {
  const [plane, riser] = [planes.floors[floor] as Plane, planes.risers[step] as Plane];
  const isFoot = lowerOf(planes, step) === floor;
  const turn = stepTurnDeg(planes, step) * (isFoot ? 1 : -1);
  const shift = foldShiftMm(turn, sheet) * (isFoot ? 1 : -1);
  const riders = ridersOf(planes, step);
  const at = meetOf(planes.walls[riders[0] as number] as Plane, riser, plane);
  const bases = [
    along3(at, within(riser.normal, plane.normal), shift),
    along3(at, within(plane.normal, riser.normal), shift),
  ];
  const ends = riders.map((side) =>
    bases.map((base) => dot3(along, meet(edges[side] as Plane, base, along))),
  );
  const mean = ends.map((pair) => pair[0] as number);
  const common = ends.map((pair, i) =>
    (mean[i] as number) === Math.max(...mean) ? Math.min(...pair) : Math.max(...pair),
  );
  const [onFloor, onRiser] = bases.map(
    (base) =>
      new Map(
        riders.map((side, i) => [
          side,
          along3(base, along, (common[i] as number) - dot3(along, base)),
        ]),
      ),
  ) as unknown as readonly [FoldEnds, FoldEnds];
  return { onFloor, onRiser };
};

const frameOf = (normal: Vec3, along: Vec3, o: Vec3): Pose => ({
  o,
  x: along,
  y: cross3(normal, along),
  z: normal,
});

export const placedPanel = (
  name: string,
  { sheet, along }: Cut,
  { normal }: Plane,
  points: readonly (readonly [Vec3, string])[],
): PlacedPanel => {
  const frame = frameOf(normal, along, (points[0] as readonly [Vec3, string])[0]);
  return {
    name,
    outline: points.map(([p, edge]): Vertex => {
      const [x, y] = inPlane(frame, p);
      return { x, y, bulge: 0, edge };
    }),
    pose: { ...frame, o: point(frame, [0, 0], -sheet.thicknessMm) },
  };
};

/** The floor between two steps, its edges below the sides and along the folds. */
const floorPanel = (cut: Cut, floor: number, folded: readonly number[]): PlacedPanel => {
  const { planes, edges } = cut;
  const corners = floorCorners(planes, floor);
  const plane = planes.floors[floor] as Plane;
  const points = corners.map((at, i): readonly [Vec3, string] => {
    if ('corner' in at)
      return [cornerOn({ ...planes, walls: edges }, at.corner, plane), sideName(at.corner)];
    const next = corners[(i + 1) % corners.length];
    const isFold = next !== undefined && 'step' in next && next.step === at.step;
    return [
      foldEnds(cut, at.step, floor).onFloor.get(at.side) as Vec3,
      isFold ? riserName(at.step) : sideName(at.side),
    ];
  });
  return roundedFloor(cut, corners, folded, placedPanel(floorName(floor), cut, plane, points));
};

/** A floor with its corners rounded below those at which the sides are folded, as these bends are. */
export const roundedFloor = (
  { planes, sheet }: Cut,
  corners: readonly FloorCorner[],
  folded: readonly number[],
  placed: PlacedPanel,
): PlacedPanel => {
  const round = sheet.insideRadiusMm + sheet.thicknessMm - sheet.backMm;
  const convex = corners.flatMap((at, i) =>
    'corner' in at && folded.includes(at.corner) && cornerTurnDeg(planes, at.corner) > 0 ? [i] : [],
  );
  const rounded = roundCorners(placed.outline, convex, Math.max(0, round));
  return { ...placed, outline: rounded.ok ? rounded.loop : placed.outline };
};

/** The plumb face of a step, folded from the floor at its foot and at its head. */
const riserPanel = (cut: Cut, step: number): PlacedPanel => {
  const { planes, along } = cut;
  const riders = ridersOf(planes, step).toSorted((a, b) => {
    const at = (side: number): number =>
      dot3(along, foldEnds(cut, step, step).onRiser.get(side) as Vec3);
    return at(a) - at(b);
  }) as [number, number];
  const [first, last] = riders;
  const on = (floor: number, side: number): Vec3 =>
    foldEnds(cut, step, floor).onRiser.get(side) as Vec3;
  // Up the step may run either way of its frame: the floor that lies lower in that comes first.
  const riser = planes.risers[step] as Plane;
  const up = cross3(riser.normal, along);
  const [low, high] = [step, step + 1].toSorted(
    (a, b) => dot3(up, on(a, first)) - dot3(up, on(b, first)),
  ) as [number, number];
  return placedPanel(riserName(step), cut, riser, [
    [on(low, first), floorName(low)],
    [on(low, last), sideName(last)],
    [on(high, last), floorName(high)],
    [on(high, first), sideName(first)],
  ]);
};

/** The floors from step to step; the flat sheet where there is none. */
export const floorPanels = (
  shape: Shape,
  sheet: Sheet,
  folded: readonly number[],
): readonly PlacedPanel[] =>
  shape.planes.risers.length === 0
    ? [platePanel(shape, 'floor', sheet, folded)]
    : shape.planes.floors.map((_, floor) => floorPanel(cutOf(shape, sheet), floor, folded));

/** A floor with steps: one blank with two folds at each of them, from the floor before the first. */
export const steppedFloor = (
  v: TankPlan,
  { shape, sheet }: Blanks,
  folded: readonly number[],
): Piece => {
  const { planes } = shape;
  const cut = cutOf(shape, sheet);
  const floors = floorPanels(shape, sheet, folded);
  const [root] = floors as readonly [PlacedPanel];
  const part = assemble(
    // Floors and steps are worked out from the inside of the tank, whichever faces were measured.
    { ...v, measure: 'inside' },
    {
      root: root.name,
      panels: [
        ...floors.map((placed, floor) => ({
          id: placed.name,
          outline: placed.outline,
          cutouts: plateHoles(v, shape, placed, 'floor', floor).cutouts,
        })),
        ...planes.risers.map((_, step) => {
          const { name, outline } = riserPanel(cut, step);
          return { id: name, outline, cutouts: [] };
        }),
      ],
      folds: planes.risers.flatMap((_, step) => stepFolds(v, planes, step)),
      wishes: planes.risers.flatMap((_, step) =>
        [step, step + 1].map((floor) =>
          angleWish(
            'floor and floorStep',
            stepTurnDeg(planes, step),
            floorName(floor),
            riserName(step),
          ),
        ),
      ),
    },
  );
  return { id: 'floor', part, standing: { poses: [root.pose], turn: 1 } };
};

/** The folds at a step: up at its foot, and down again at its head. */
const stepFolds = (v: TankPlan, planes: Planes, step: number): GivenFold[] =>
  [step, step + 1].map((floor, i): GivenFold => {
    const sides = [
      { panel: floorName(floor), edge: riserName(step) },
      { panel: riserName(step), edge: floorName(floor) },
    ] as const;
    const turnDeg = stepTurnDeg(planes, step);
    const isUp = lowerOf(planes, step) === floor;
    const id = String.fromCharCode(65 + 2 * step + i);
    return turnedFold(id, sides, isUp ? turnDeg : -turnDeg, i === 1, v.insideRadiusMm);
  });
