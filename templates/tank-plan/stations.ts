import { SAME_LENGTH_MM } from '../../src/template.ts';
import type { Vec3 } from '../../src/template.ts';
import { MOST_BAFFLES } from '../baffle/bay-limits.ts';
import { baySpacing, equalBays } from '../baffle/bays.ts';
import type { TankPlan } from './inputs.ts';
import { bendReachMm, type Sheet } from './panels.ts';
import { cornerTurnDeg, type Shape } from './planes.ts';
import { riserAtMm, stepTurnDeg } from './steps.ts';

/** Where baffles stand along x or y of the plan: their faces that look back along it, mm. */
export interface Stations {
  readonly axis: 0 | 1;
  /** Both ends of the longest free run, and the baffles between them. */
  readonly fromMm: number;
  readonly toMm: number;
  readonly atMm: readonly number[];
}

/** Height of a flange over its outside. */
export const flangeMm = (v: TankPlan): number =>
  v.flange + (v.measure === 'inside' ? v.thicknessMm : 0);

/**
 * The fewest baffles that leave no bay longer than asked, in equal bays but for those that would
 * stand at a corner of the plan, where a flange lies on no side: they move to where it does.
 */
export const stationsOf = (v: TankPlan, shape: Shape, sheet: Sheet): Stations => {
  const axis = v.bafflesAcross === 'x' ? 0 : 1;
  const ends = [...shape.low, ...shape.high].map((p) => p[axis]);
  const [fromMm, toMm] = [Math.min(...ends), Math.max(...ends)];
  const run = toMm - fromMm;
  // Those that were given by lines stand where these are.
  if (v.baffleLines !== undefined) return { axis, fromMm, toMm, atMm: [] };
  const taken = cornersAlong(v, shape, sheet, axis);
  const least = baySpacing(run, v.longestBay, v.thicknessMm).count;
  const tried = Array.from({ length: SPARE + 1 }, (_, more) => least + more)
    .filter((count) => count <= MOST_BAFFLES)
    .map(
      (count) =>
        ({
          axis,
          fromMm,
          toMm,
          atMm: equalBays(run, count, v.thicknessMm).stationsMm.map((at) =>
            nearestFree(fromMm + at, taken),
          ),
        }) as const,
    );
  return (
    tried.find((s) => Math.max(...bayLengths(s, v.thicknessMm)) <= v.longestBay + SAME_LENGTH_MM) ??
    tried[0] ?? { axis, fromMm, toMm, atMm: [] }
  );
};

/** So many baffles more than the fewest are tried where corners push them together. */
const SPARE = 2;

/** Clear lengths of the bays, mm. */
export const bayLengths = ({ fromMm, toMm, atMm }: Stations, thicknessMm: number): number[] => {
  const ends = [fromMm, ...atMm.map((at) => at + thicknessMm)];
  return ends.map((start, i) => (atMm[i] ?? toMm) - start);
};

/** A stretch along the axis in which no baffle may begin. */
export type Stretch = readonly [fromMm: number, toMm: number];

/** Bends, the flange and air to weld keep a baffle off each corner of the plan. */
const cornersAlong = (v: TankPlan, shape: Shape, sheet: Sheet, axis: 0 | 1): Stretch[] => [
  ...stepsAlong(v, shape, sheet, axis),
  ...shape.low.map((p, corner): Stretch => {
    const [a, b] = [p[axis], (shape.high[corner] as Vec3)[axis]];
    const off =
      bendReachMm(cornerTurnDeg(shape.planes, corner), sheet) + 2 * v.thicknessMm + v.baffleGap;
    return [Math.min(a, b) - off - Math.max(flangeMm(v), v.thicknessMm), Math.max(a, b) + off];
  }),
];

/** The same at the steps of the floor that run along the baffles. */
const stepsAlong = (v: TankPlan, { planes }: Shape, sheet: Sheet, axis: 0 | 1): Stretch[] =>
  planes.risers.flatMap((riser, step): Stretch[] => {
    if (riser.normal[axis] === 0) return [];
    const at = riserAtMm(riser);
    const off = bendReachMm(-stepTurnDeg(planes, step), sheet) + 2 * v.thicknessMm + v.baffleGap;
    return [[at - off - Math.max(flangeMm(v), v.thicknessMm), at + off]];
  });

/** The place nearest to one that lies in none of the stretches. */
export const nearestFree = (at: number, taken: readonly Stretch[]): number => {
  const isFree = (s: number): boolean =>
    taken.every(([from, to]) => s <= from + SAME_LENGTH_MM || s >= to - SAME_LENGTH_MM);
  const free = [at, ...taken.flat()].filter(isFree);
  return free.reduce(
    (best, s) => (Math.abs(s - at) < Math.abs(best - at) ? s : best),
    free[0] ?? at,
  );
};
