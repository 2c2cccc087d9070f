import { figure } from '../../text/figures.ts';
import { invertPose, posePoint } from '../../geometry/pose.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Machine } from '../../model/machine.ts';
import { BudgetSpent, findOrder, latticeOf } from './lattice.ts';
import { type FoldNet, type NetFold, type NetPanel } from '../machines/net.ts';
import { inset, keepLeft } from '../../geometry/convex-polygon.ts';
import { prism, type Solid } from '../../geometry/convex-solid.ts';
import { CONTACT_GAP_MM } from '../../geometry/tolerance.ts';

/** A change that was tried and found to make the part foldable. */
export interface Suggestion {
  /** Completes "to fold it, ...". */
  readonly text: string;
  /** The panel that it changes, where it changes one. */
  readonly panel: string | null;
}

/** Budget for each thing tried: enough for parts of a dozen folds, and soon over. */
const BUDGET = 500_000;

/** Flanges are shortened in steps of this, mm. */
const STEP_MM = 0.5;

/** Whether there is an order; one that is not found within the budget counts as none. */
export const canFold = (net: FoldNet, machine: Machine): boolean => {
  try {
    return findOrder(latticeOf(net, machine, BUDGET)) !== undefined;
  } catch (error) {
    if (error instanceof BudgetSpent) return false;
    throw error;
  }
};

/**
 * The smallest changes that would help a part that cannot be folded on a machine, each tried by the
 * planner: another machine of the shop, another set-up of the machine, one flange shorter, or a
 * weld seam in place of one fold.
 */
export const suggestionsFor = (
  net: FoldNet,
  machine: Machine,
  others: readonly Machine[],
): Suggestion[] => [
  ...otherwiseSetUp(net, machine),
  ...others
    .filter((m) => m.id !== machine.id && canFold(net, m))
    .map((m): Suggestion => ({ text: `fold it on ${m.name}`, panel: null })),
  ...net.panels.flatMap((_, panel) => shorterFlange(net, machine, panel)),
  ...net.folds.flatMap((fold, i) =>
    partsWithout(net, i).every((half) => canFold(half, machine))
      ? [{ text: `make it in two pieces with a weld seam at fold ${fold.id}`, panel: null }]
      : [],
  ),
];

const otherwiseSetUp = (net: FoldNet, machine: Machine): Suggestion[] => {
  if (machine.kind === 'folder') {
    return machine.section === undefined &&
      machine.leafBarFitted &&
      canFold(net, { ...machine, leafBarFitted: false })
      ? [
          {
            text: 'take the bar off the leaf, and see to it that the sheet is thin enough for that',
            panel: null,
          },
        ]
      : [];
  }
  return machine.punches
    .filter(({ id }) => id !== machine.punch && canFold(net, { ...machine, punch: id }))
    .map(({ id }) => ({ text: `use the punch ${id}`, panel: null }));
};

/** A flange at the end of the tree, cut back to the longest that can be folded. */
const shorterFlange = (net: FoldNet, machine: Machine, panel: number): Suggestion[] => {
  const at = net.folds.filter((f) => f.panels.includes(panel));
  const [fold] = at;
  if (fold === undefined || at.length > 1) return [];
  const whole = lengthOf(net, fold, panel);
  const works = (steps: number): boolean =>
    canFold(withFlange(net, fold, panel, whole - steps * STEP_MM), machine);
  let [short, long] = [Math.floor(whole / STEP_MM) - 1, 0];
  // The shortest flange that the machine holds is searched for first, because nothing works below
  // it.
  while (short > 0 && !works(short)) short = Math.floor(short / 2);
  if (short === 0) return [];
  while (short - long > 1) {
    const mid = Math.floor((short + long) / 2);
    if (works(mid)) short = mid;
    else long = mid;
  }
  const name = net.panels[panel]?.id ?? '';
  return [{ text: `make ${name} ${figure(short * STEP_MM, 1)} mm shorter`, panel: name }];
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

/** The two parts that are left when one fold is cut through. */
const partsWithout = (net: FoldNet, cut: number): FoldNet[] => {
  const side = new Set([(net.folds[cut] as NetFold).panels[1]]);
  for (const panel of side) {
    net.folds.forEach((f, i) => {
      if (i === cut || !f.panels.includes(panel)) return;
      for (const p of f.panels) side.add(p);
    });
  }
  return [true, false].map((isChild) => {
    const panels = net.panels.flatMap((_, i) => (side.has(i) === isChild ? [i] : []));
    const folds = net.folds.filter((f, i) => i !== cut && side.has(f.panels[0]) === isChild);
    return {
      ...net,
      panels: panels.map((i) => net.panels[i] as NetPanel),
      folds: folds.map((f) => ({
        ...f,
        panels: [panels.indexOf(f.panels[0]), panels.indexOf(f.panels[1])] as const,
      })),
    };
  });
};
