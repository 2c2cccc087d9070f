import { dot3 } from '../../src/template.ts';
import type { Vec2, Vec3 } from '../../src/template.ts';
import type { Planes } from './planes.ts';
import { areaVector, beyondMm, type Body, meetOf, type Plane, turnOfDeg } from './solid.ts';

/** The floor from step to step; the first has the plain name. */
export const floorName = (floor: number): string => (floor === 0 ? 'floor' : `floor ${floor + 1}`);
export const riserName = (step: number): string => `riser ${step + 1}`;
export const isFloorName = (facet: string): boolean => /^floor( \d+)?$/.test(facet);
export const isRiserName = (facet: string): boolean => facet.startsWith('riser');

/** Whether the floor goes up at a step, as one goes along the axis. */
export const isUp = ({ normal }: Plane): boolean => normal[0] + normal[1] < 0;

/** How far along its axis a step stands, inside, mm. */
export const riserAtMm = ({ normal, atMm }: Plane): number => atMm / (normal[0] + normal[1]);

/** The corner between a side and the one before it, on a plane. */
export const cornerOn = ({ walls }: Planes, corner: number, plane: Plane): Vec3 =>
  meetOf(walls.at(corner - 1) as Plane, walls[corner] as Plane, plane);

/** Which floor a corner of the plan stands on, counted from 0: that beyond the steps before it. */
export const floorIndexOf = (planes: Planes, corner: number): number => {
  const [x, y] = cornerOn(planes, corner, planes.floor);
  return floorUnder(planes, [x, y]);
};

/** Which floor lies under a place of the plan. */
export const floorUnder = (planes: Planes, [x, y]: Vec2): number =>
  planes.risers.filter((riser) => beyondMm(riser, [x, y, 0]) > 0 !== isUp(riser)).length;

export const floorOf = (planes: Planes, corner: number): Plane =>
  planes.floors[floorIndexOf(planes, corner)] as Plane;

/** A step that a side runs over: from one floor to the next, or to the one before. */
export interface Crossing {
  readonly step: number;
  readonly from: number;
  readonly to: number;
}

/** The steps that a side runs over, in its way round the plan. */
export const crossingsOf = (planes: Planes, side: number): readonly Crossing[] => {
  const [from, to] = [side, (side + 1) % planes.walls.length].map((corner) =>
    floorIndexOf(planes, corner),
  ) as [number, number];
  const way = to > from ? 1 : -1;
  return Array.from({ length: Math.abs(to - from) }, (_, i): Crossing => {
    const at = from + way * i;
    return { step: way > 0 ? at : at - 1, from: at, to: at + way };
  });
};

/** The corners of a side's lower edge at the steps it runs over, two each, in its way round. */
export const sideSteps = (planes: Planes, side: number): Vec3[] =>
  crossingsOf(planes, side).flatMap(({ step, from, to }) =>
    [from, to].map((floor) =>
      meetOf(
        planes.walls[side] as Plane,
        planes.risers[step] as Plane,
        planes.floors[floor] as Plane,
      ),
    ),
  );

/** A corner of a floor: one of the plan, or where a side runs over a step. */
export type FloorCorner =
  { readonly corner: number } | { readonly side: number; readonly step: number };

/** The corners of the floor between two steps, counter-clockwise. */
export const floorCorners = (planes: Planes, floor: number): readonly FloorCorner[] =>
  planes.walls.flatMap((_, side): FloorCorner[] => [
    ...(floorIndexOf(planes, side) === floor ? [{ corner: side }] : []),
    ...crossingsOf(planes, side)
      .filter(({ from, to }) => from === floor || to === floor)
      .map(({ step }) => ({ side, step })),
  ]);

/** The floors between the steps and the faces of the steps. */
export const floorFacets = (planes: Planes): Body => [
  ...planes.floors.map((plane, floor) => ({
    name: floorName(floor),
    points: floorCorners(planes, floor).map((at) =>
      'corner' in at
        ? cornerOn(planes, at.corner, plane)
        : meetOf(planes.walls[at.side] as Plane, planes.risers[at.step] as Plane, plane),
    ),
  })),
  ...planes.risers.map((riser, step) => {
    const [up, down] = ridersOf(planes, step).map((side) =>
      [step, step + 1].map((floor) =>
        meetOf(planes.walls[side] as Plane, riser, planes.floors[floor] as Plane),
      ),
    ) as [Vec3[], Vec3[]];
    const points = [...up, ...down.toReversed()];
    return {
      name: riserName(step),
      points: dot3(areaVector(points), riser.normal) > 0 ? points : points.toReversed(),
    };
  }),
];

/** The sides that run over a step: two of them where it goes straight across the plan. */
export const ridersOf = (planes: Planes, step: number): number[] =>
  planes.walls
    .map((_, side) => side)
    .filter((side) => crossingsOf(planes, side).some((crossing) => crossing.step === step));

/** How far floor and step are turned against each other, degrees. */
export const stepTurnDeg = ({ floor, risers }: Planes, step: number): number =>
  turnOfDeg(floor, risers[step] as Plane);
