import { figure, just, refuse, SAME_LENGTH_MM, without } from '../../src/template.ts';
import type { Finding, Vec3 } from '../../src/template.ts';
import type { TankPlan } from './inputs.ts';
import { bendReachMm, type Sheet } from './panels.ts';
import { cornerTurnDeg, type Shape } from './planes.ts';
import { meet, type Plane } from './solid.ts';
import {
  cornerOn,
  crossingsOf,
  isUp,
  riserAtMm,
  ridersOf,
  sideSteps,
  stepTurnDeg,
} from './steps.ts';

/** Steps that cannot be folded where they are, each with the figure that can. */
export const stepFindings = (
  v: TankPlan,
  shape: Shape,
  sheet: Sheet,
  leastMm: number,
): Finding[] => {
  const { planes } = shape;
  if (planes.risers.length === 0) return [];
  const off = [...offThePlan(v, shape), ...nearCorners(v, shape, sheet)];
  if (off.length > 0) return off.slice(0, 1);
  return [
    ...(v.blanks === 'pan' ? [panStepped()] : []),
    ...tooLow(v, shape, sheet),
    ...tooNear(v, shape, sheet),
    ...aboveTop(v, shape, leastMm),
  ];
};

const called = (v: TankPlan, step: number): string => {
  const given = v.floorStep?.[step];
  return given === undefined
    ? 'floorStep'
    : `step ${step + 1} of floorStep, at ${given.axis} ${figure(given.atMm)},`;
};

/** The place to give for a step whose inside is to stand at another. */
const placeFor = (v: TankPlan, { planes }: Shape, step: number, insideMm: number): number =>
  (v.floorStep?.[step]?.atMm ?? 0) + insideMm - riserAtMm(planes.risers[step] as Plane);

/** The parts of the axis that the plan takes up, from the lowest floor to the highest. */
const reachAlong = ({ planes, low }: Shape): readonly [number, number] => {
  const axis = (planes.risers[0] as Plane).normal[0] === 0 ? 1 : 0;
  const all = low.flatMap((_, corner) =>
    planes.floors.map((floor) => cornerOn(planes, corner, floor)[axis]),
  );
  return [Math.min(...all), Math.max(...all)];
};

/** Steps that do not go from one side straight across to another. */
const offThePlan = (v: TankPlan, shape: Shape): Finding[] =>
  shape.planes.risers.flatMap((riser, step) => {
    const count = ridersOf(shape.planes, step).length;
    const [from, to] = reachAlong(shape);
    const at = riserAtMm(riser);
    if (count === 2 && at > from && at < to) return [];
    return [
      refuse(
        'step-off-plan',
        ['floorStep'],
        count === 0
          ? `${called(v, step)} lies beside the floor, which reaches from ${figure(placeFor(v, shape, step, from))} to ${figure(placeFor(v, shape, step, to))} there`
          : `${called(v, step)} meets ${count} sides of the plan, and a fold across the floor meets two`,
        [without('floorStep')],
        'give a place at which the plan has two sides',
      ),
    ];
  });

/** Steps whose bends would lie in those of a corner of the plan, or in its seam. */
const nearCorners = (v: TankPlan, shape: Shape, sheet: Sheet): Finding[] => {
  const { planes, low } = shape;
  const [from, to] = reachAlong(shape);
  const taken = planes.risers.map((riser, step) =>
    low.map((_, corner): readonly [number, number] => {
      const places = [step, step + 1].map((floor) =>
        alongAxis(riser, cornerOn(planes, corner, planes.floors[floor] as Plane)),
      );
      const off =
        bendReachMm(cornerTurnDeg(planes, corner), sheet) +
        bendReachMm(-stepTurnDeg(planes, step), sheet) +
        2 * sheet.thicknessMm +
        sheet.gapMm;
      return [Math.min(...places) - off, Math.max(...places) + off];
    }),
  );
  return planes.risers.flatMap((riser, step) => {
    const at = riserAtMm(riser);
    const mine = taken[step] as readonly (readonly [number, number])[];
    const isFree = (s: number): boolean =>
      s > from &&
      s < to &&
      mine.every(([a, b]) => s <= a + SAME_LENGTH_MM || s >= b - SAME_LENGTH_MM);
    if (isFree(at)) return [];
    const corner = mine.findIndex(([a, b]) => at > a && at < b) + 1;
    const [best] = mine
      .flat()
      .filter(isFree)
      .toSorted((a, b) => Math.abs(a - at) - Math.abs(b - at));
    return [
      refuse(
        'step-at-corner',
        ['floorStep'],
        `${called(v, step)} lies so near to corner ${corner} of the plan that its bends and that corner would take the same sheet`,
        [],
        best === undefined
          ? 'leave the corner out, or the step'
          : `give it at ${figure(outwards(placeFor(v, shape, step, best), best > at))}`,
      ),
    ];
  });
};

/** A hundredth further, so that the figure that is told passes. */
const outwards = (mm: number, isMore: boolean): number =>
  isMore ? Math.ceil(mm * 100) / 100 : Math.floor(mm * 100) / 100;

const alongAxis = ({ normal }: Plane, [x, y]: Vec3): number => (normal[0] === 0 ? y : x);

const tooLow = (v: TankPlan, { planes }: Shape, sheet: Sheet): Finding[] =>
  (v.floorStep ?? []).flatMap(({ upMm }, step) => {
    const turn = stepTurnDeg(planes, step);
    const least =
      bendReachMm(turn, sheet) + bendReachMm(-turn, sheet) + sheet.thicknessMm + 2 * sheet.gapMm;
    if (Math.abs(upMm) >= least) return [];
    return [
      refuse(
        'step-too-low',
        ['floorStep', 'radius'],
        `${called(v, step)} is ${figure(Math.abs(upMm))} high, and its two bends of radius ${figure(sheet.insideRadiusMm)} take ${figure(least)}`,
        [],
        `give ${Math.ceil(least * 100) / 100} or more, or a smaller radius`,
      ),
    ];
  });

const tooNear = (v: TankPlan, shape: Shape, sheet: Sheet): Finding[] =>
  shape.planes.risers.slice(1).flatMap((riser, i) => {
    const before = shape.planes.risers[i] as Plane;
    const [one, other] = [before, riser].map(riserAtMm) as [number, number];
    // A floor is the foot of a step that goes up from it, and the head of one that goes down.
    const reach = (isFoot: boolean): number =>
      bendReachMm(stepTurnDeg(shape.planes, i) * (isFoot ? 1 : -1), sheet);
    const least = reach(!isUp(before)) + reach(isUp(riser)) + sheet.thicknessMm + 2 * sheet.gapMm;
    if (other - one >= least) return [];
    const at = outwards(placeFor(v, shape, i + 1, one + least), true);
    return [
      refuse(
        'steps-too-near',
        ['floorStep', 'radius'],
        `${called(v, i + 1)} leaves ${figure(other - one)} inside to the one before it, and the bends between them take ${figure(least)}`,
        [],
        `give it at ${figure(at)} or more`,
      ),
    ];
  });

/** Floors beyond a step that come too near to the top, or lie above it. */
const aboveTop = (v: TankPlan, { planes }: Shape, leastMm: number): Finding[] => {
  const at = planes.walls.flatMap((_, side) => {
    const points = sideSteps(planes, side);
    return crossingsOf(planes, side).flatMap(({ step }, i) =>
      points.slice(2 * i, 2 * i + 2).map((p) => ({
        step,
        depth: meet(planes.top, p, [0, 0, 1])[2] - p[2],
      })),
    );
  });
  const [least] = at.toSorted((a, b) => a.depth - b.depth);
  if (least === undefined || least.depth >= leastMm) return [];
  return [
    refuse(
      'floor-above-top',
      ['floor', 'floorStep', 'top'],
      `floor beside ${called(v, least.step)} leaves ${figure(least.depth)} below top, inside the sheet, and ${figure(leastMm)} is the least`,
      [],
      `give a top that is ${figure(leastMm - least.depth + 0.005)} or more higher there, or a floor as much lower`,
    ),
  ];
};

const panStepped = (): Finding =>
  refuse(
    'pan-floor-stepped',
    ['blanks', 'floorStep'],
    'blanks pan folds all sides up from the floor, and over a step of the floor no side can be folded',
    [just('blanks', 'wrap')],
  );
