import { invertPose, posePoint } from '../../geometry/pose.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Machine } from '../../model/machine.ts';
import { BudgetSpent, findOrder, latticeOf } from './lattice.ts';
import { type FoldNet, type NetFold, type NetPanel } from '../machines/net.ts';
import { inset, keepLeft } from '../../geometry/convex-polygon.ts';
import { prism, type Solid } from '../../geometry/convex-solid.ts';
import { CONTACT_GAP_MM } from '../../geometry/tolerance.ts';

/** Budget for each thing tried: enough for parts of a dozen folds, and soon over. */
const BUDGET = 500_000;

/** What is left for all that is tried for one part; it is counted down. */
export interface Allowance {
  left: number;
}

/**
 * All that may be tried for one part: some seconds. What was not tried by then is not suggested.
 */
export const allowance = (): Allowance => ({ left: 4_000_000 });

/** A try costs at least this for each of the part's folds, for its strokes have to be laid out. */
const PER_FOLD = 2_000;

/** Flanges are shortened in steps of this, mm. */
const STEP_MM = 0.5;

/** Whether there is an order; one that is not found within the budget counts as none. */
export const canFold = (net: FoldNet, machine: Machine, allowed: Allowance): boolean => {
  if (allowed.left <= 0) return false;
  const lattice = latticeOf(net, machine, Math.min(BUDGET, allowed.left));
  try {
    return findOrder(lattice) !== undefined;
  } catch (error) {
    if (error instanceof BudgetSpent) return false;
    throw error;
  } finally {
    allowed.left -= lattice.spent() + PER_FOLD * net.folds.length;
  }
};

/**
 * How much shorter a flange at the end of the tree has to be, mm, so that the part can be folded;
 * `undefined` for any other panel, and where no length helps.
 */
export const shorterFlangeMm = (
  net: FoldNet,
  machine: Machine,
  panel: number,
  allowed: Allowance,
): number | undefined => {
  const at = net.folds.filter((f) => f.panels.includes(panel));
  const [fold] = at;
  if (fold === undefined || at.length > 1) return undefined;
  const whole = lengthOf(net, fold, panel);
  const works = (steps: number): boolean =>
    canFold(withFlange(net, fold, panel, whole - steps * STEP_MM), machine, allowed);
  let [short, long] = [Math.floor(whole / STEP_MM) - 1, 0];
  // The shortest flange that the machine holds is searched for first, because nothing works below
  // it.
  while (short > 0 && !works(short)) short = Math.floor(short / 2);
  if (short === 0) return undefined;
  while (short - long > 1) {
    const mid = Math.floor((short + long) / 2);
    if (works(mid)) short = mid;
    else long = mid;
  }
  return short * STEP_MM;
};

/** Distance from the fold line to the panel's far edge. */
const lengthOf = (net: FoldNet, fold: NetFold, panel: number): number => {
  const home = invertPose(fold.frames[fold.panels.indexOf(panel) as 0 | 1]);
  const corners = (net.panels[panel] as NetPanel).solids.flatMap((s) =>
    s.corners.map((c) => -posePoint(home, c)[0]),
  );
  return Math.max(...corners);
};

const withFlange = (net: FoldNet, fold: NetFold, panel: number, lengthMm: number): FoldNet => {
  const { o, x } = fold.frames[fold.panels.indexOf(panel) as 0 | 1];
  const at: Vec2 = [o[0] - x[0] * lengthMm, o[1] - x[1] * lengthMm];
  // The part towards the fold is kept, which is where x points: it lies on the left of a line in
  // the direction of x turned right.
  const dir: Vec2 = [x[1], -x[0]];
  const kept = (net.panels[panel] as NetPanel).solids
    .map((s) => ({ polygon: keepLeft(polygonOf(s), at, dir), thickness: thicknessOf(s) }))
    .filter((p) => p.polygon.length > 2);
  const cut: NetPanel = {
    ...(net.panels[panel] as NetPanel),
    solids: kept.map((p) => prism(p.polygon, ...p.thickness)),
    lessGap: kept
      .map((p) => ({ ...p, polygon: inset(p.polygon, () => CONTACT_GAP_MM) }))
      .filter((p) => p.polygon.length > 2)
      .map((p) => prism(p.polygon, ...shrunk(p.thickness))),
  };
  return { ...net, panels: net.panels.map((p, i) => (i === panel ? cut : p)) };
};

const polygonOf = ({ corners }: Solid): Vec2[] =>
  corners.slice(0, Math.ceil(corners.length / 2)).map((c): Vec2 => [c[0], c[1]]);

const thicknessOf = ({ corners }: Solid): [number, number] => {
  const heights = corners.map((c) => c[2]);
  return [Math.min(...heights), Math.max(...heights)];
};

const shrunk = ([low, high]: [number, number]): [number, number] => {
  const skin = Math.min(CONTACT_GAP_MM, (high - low) / 2);
  return [low + skin, high - skin];
};
