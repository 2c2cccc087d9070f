import { advise, cosDeg, dot3, figure, LITRES_PER_MM3, sinDeg } from '../../src/template.ts';
import type { Finding, Vec2, Vec3 } from '../../src/template.ts';
import type { TankPlan } from './inputs.ts';
import { placesOf } from './fittings.ts';
import { bodyOf, type Planes, type Shape } from './planes.ts';
import { type Body, meetOf, type Plane, rodAt, volumeBelowMm3 } from './solid.ts';
import { floorUnder, isUp, ridersOf, riserAtMm } from './steps.ts';

/** Inside a tank with its planes, whose steps may part what is in it. */
export interface Stepped {
  readonly body: Body;
  readonly planes: Planes;
}

const UP: Vec3 = [0, 0, 1];

/**
 * How high what is in the tank has to stand to run over a step: the lowest place of the edge of the
 * higher floor there. Heights go along `up`, which leans where the vehicle does.
 */
const sillMm = (planes: Planes, step: number, up: Vec3): number => {
  const floor = isUp(planes.risers[step] as Plane) ? step + 1 : step;
  return Math.min(
    ...ridersOf(planes, step).map((side) =>
      dot3(
        up,
        meetOf(
          planes.walls[side] as Plane,
          planes.risers[step] as Plane,
          planes.floors[floor] as Plane,
        ),
      ),
    ),
  );
};

/** The level down to which what stands on one floor runs to another, over all steps between. */
const barrierMm = (planes: Planes, one: number, other: number, up: Vec3): number => {
  const [from, to] = [Math.min(one, other), Math.max(one, other)];
  const between = planes.risers.flatMap((_, step) => (step >= from && step < to ? [step] : []));
  return Math.max(-Infinity, ...between.map((step) => sillMm(planes, step, up)));
};

/** Where a tank is drawn from, and down to which level there. */
export interface DrawnAt {
  readonly at: Vec2;
  readonly levelMm: number;
}

/** What lies between two steps, or before the first or beyond the last, below a level, litres. */
const litresOn = ({ body, planes }: Stepped, floor: number, levelMm: number, up: Vec3): number => {
  const level: Plane = { normal: up, atMm: levelMm };
  const before = (step: number): number => {
    const riser = planes.risers[step];
    if (riser === undefined) return step < 0 ? 0 : volumeBelowMm3(body, level);
    const normal = riser.normal.map(Math.abs) as unknown as Vec3;
    return volumeBelowMm3(body, level, { normal, atMm: riserAtMm(riser) });
  };
  return (before(floor) - before(floor - 1)) * LITRES_PER_MM3;
};

/** The level to which a floor is drawn, and whether a step keeps it there. */
const levelOn = (
  planes: Planes,
  floor: number,
  drawn: readonly DrawnAt[],
  up: Vec3,
): { readonly levelMm: number; readonly isKept: boolean } => {
  const all = drawn.map(({ at, levelMm }) => {
    const barrier = barrierMm(planes, floorUnder(planes, at), floor, up);
    return { levelMm: Math.max(levelMm, barrier), isKept: barrier > levelMm };
  });
  return all.reduce((one, other) => (other.levelMm < one.levelMm ? other : one));
};

/**
 * Litres that are left when a tank that was full has been drawn to levels at places of the plan: what
 * lies below the lowest of them, and over a step what does not run back over it. Levels are heights
 * along `up`, plumb unless the tank leans.
 */
export const litresDrawnTo = (tank: Stepped, drawn: readonly DrawnAt[], up: Vec3 = UP): number => {
  const { body, planes } = tank;
  if (planes.risers.length === 0)
    return (
      volumeBelowMm3(body, { normal: up, atMm: Math.min(...drawn.map((d) => d.levelMm)) }) *
      LITRES_PER_MM3
    );
  return planes.floors.reduce(
    (sum, _, floor) => sum + litresOn(tank, floor, levelOn(planes, floor, drawn, up).levelMm, up),
    0,
  );
};

/**
 * Litres that stay below a point, the end of a pick-up, and over steps beside it, when the tank is
 * tilted so that what lies in direction `way` goes down: up in the tilted tank is away from there.
 */
export const litresTilted = (tank: Stepped, at: Vec3, tiltDeg: number, way: Vec2): number => {
  const s = sinDeg(tiltDeg);
  const up: Vec3 = [-s * way[0], -s * way[1], cosDeg(tiltDeg)];
  const levelMm = up[0] * at[0] + up[1] * at[1] + up[2] * at[2];
  return litresDrawnTo(tank, [{ at: [at[0], at[1]], levelMm }], up);
};

/** The ends of all pick-ups, plumb below their holes. */
export const pickupEnds = (v: TankPlan, body: Body): DrawnAt[] =>
  placesOf(v.pickup).flatMap((at) => {
    const rod = rodAt(body, at);
    return rod === undefined ? [] : [{ at, levelMm: rod.lowMm + v.pickupEnd }];
  });

/** Less than this over a step is not worth a word, litres. */
const WORTH_L = 0.1;

/** Whether a floor stands up between two steps. */
const hasRidge = ({ risers }: Planes): boolean =>
  risers.some((riser, step) => {
    const next = risers[step + 1];
    return isUp(riser) && next !== undefined && !isUp(next);
  });

/** Pick-ups that leave something over a step that does not run back to them. */
export const poolFindings = (v: TankPlan, shape: Shape): Finding[] => {
  const tank = { body: bodyOf(shape), planes: shape.planes };
  const drawn = pickupEnds(v, tank.body);
  if (drawn.length === 0 || shape.planes.risers.length === 0) return [];
  const lowest = Math.min(...drawn.map(({ levelMm }) => levelMm));
  const more = shape.planes.floors.reduce((sum, _, floor) => {
    const { levelMm, isKept } = levelOn(shape.planes, floor, drawn, UP);
    return isKept
      ? sum + litresOn(tank, floor, levelMm, UP) - litresOn(tank, floor, lowest, UP)
      : sum;
  }, 0);
  return more < WORTH_L
    ? []
    : [
        advise(
          'floor-parts-tank',
          ['floorStep', 'pickup'],
          `floorStep has a floor that ${hasRidge(shape.planes) ? 'stands up between two steps' : 'falls away from its step'}: pickup draws from one side of it, and ${figure(more)} l more stay on the other`,
          [],
          'give a pick-up on each side, or link both sides low down by a pipe',
        ),
      ];
};
