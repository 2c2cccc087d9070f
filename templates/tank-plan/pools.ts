import { advise, figure, LITRES_PER_MM3 } from '../../src/template.ts';
import type { Finding, Vec2, Vec3 } from '../../src/template.ts';
import type { TankPlan } from './inputs.ts';
import { litresBelow } from './levels.ts';
import { placesOf } from './fittings.ts';
import { bodyOf, type Planes, type Shape } from './planes.ts';
import { type Body, levelAt, meetOf, type Plane, rodAt, volumeBelowMm3 } from './solid.ts';
import { floorUnder, ridersOf, riserAtMm } from './steps.ts';

/** Inside a tank with its planes, whose steps may part what is in it. */
export interface Stepped {
  readonly body: Body;
  readonly planes: Planes;
}

/** Over which level a floor between two steps is run over from the one to the other. */
const passingMm = (planes: Planes, floor: number): number =>
  Math.max(
    ...[floor - 1, floor].map((step) =>
      Math.min(
        ...ridersOf(planes, step).map(
          (side) =>
            meetOf(
              planes.walls[side] as Plane,
              planes.risers[step] as Plane,
              planes.floors[floor] as Plane,
            )[2],
        ),
      ),
    ),
  );

/** The level down to which what stands on one floor runs to another, over all floors between. */
const barrierMm = (planes: Planes, one: number, other: number): number => {
  const [from, to] = [Math.min(one, other), Math.max(one, other)];
  const between = planes.floors.slice(0, to).flatMap((_, floor) => (floor > from ? [floor] : []));
  return Math.max(-Infinity, ...between.map((floor) => passingMm(planes, floor)));
};

/** Where a tank is drawn from, and down to which level there. */
export interface DrawnAt {
  readonly at: Vec2;
  readonly levelMm: number;
}

/** What lies between two steps, or before the first or beyond the last, below a level, litres. */
const litresOn = ({ body, planes }: Stepped, floor: number, levelMm: number): number => {
  const before = (step: number): number => {
    const riser = planes.risers[step];
    if (riser === undefined) return step < 0 ? 0 : volumeBelowMm3(body, levelAt(levelMm));
    const normal = riser.normal.map(Math.abs) as unknown as Vec3;
    return volumeBelowMm3(body, levelAt(levelMm), { normal, atMm: riserAtMm(riser) });
  };
  return (before(floor) - before(floor - 1)) * LITRES_PER_MM3;
};

/** The level to which a floor is drawn, and whether what stands up before it keeps it there. */
const levelOn = (
  planes: Planes,
  floor: number,
  drawn: readonly DrawnAt[],
): { readonly levelMm: number; readonly isKept: boolean } => {
  const all = drawn.map(({ at, levelMm }) => {
    const barrier = barrierMm(planes, floorUnder(planes, at), floor);
    return { levelMm: Math.max(levelMm, barrier), isKept: barrier > levelMm };
  });
  return all.reduce((one, other) => (other.levelMm < one.levelMm ? other : one));
};

/**
 * Litres that are left when a tank that was full has been drawn to levels at places of the plan: what
 * lies below the lowest of them, and behind a floor that stands up between two steps what lies below
 * that.
 */
export const litresDrawnTo = (tank: Stepped, drawn: readonly DrawnAt[]): number => {
  const { body, planes } = tank;
  if (planes.risers.length < 2) return litresBelow(body, Math.min(...drawn.map((d) => d.levelMm)));
  return planes.floors.reduce(
    (sum, _, floor) => sum + litresOn(tank, floor, levelOn(planes, floor, drawn).levelMm),
    0,
  );
};

/** The ends of all pick-ups, plumb below their holes. */
export const pickupEnds = (v: TankPlan, body: Body): DrawnAt[] =>
  placesOf(v.pickup).flatMap((at) => {
    const rod = rodAt(body, at);
    return rod === undefined ? [] : [{ at, levelMm: rod.lowMm + v.pickupEnd }];
  });

/** Less than this behind a step is not worth a word, litres. */
const WORTH_L = 0.1;

/** Pick-ups that leave something behind a floor that stands up between two steps. */
export const poolFindings = (v: TankPlan, shape: Shape): Finding[] => {
  const tank = { body: bodyOf(shape), planes: shape.planes };
  const drawn = pickupEnds(v, tank.body);
  if (drawn.length === 0 || shape.planes.risers.length < 2) return [];
  const lowest = Math.min(...drawn.map(({ levelMm }) => levelMm));
  const more = shape.planes.floors.reduce((sum, _, floor) => {
    const { levelMm, isKept } = levelOn(shape.planes, floor, drawn);
    return isKept ? sum + litresOn(tank, floor, levelMm) - litresOn(tank, floor, lowest) : sum;
  }, 0);
  return more < WORTH_L
    ? []
    : [
        advise(
          'floor-parts-tank',
          ['floorStep', 'pickup'],
          `floorStep has a floor that stands up between two steps: pickup draws from one side of it, and ${figure(more)} l more stay on the other`,
          [],
          'give a pick-up on each side, or link both sides low down by a pipe',
        ),
      ];
};
