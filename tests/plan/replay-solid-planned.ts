import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import type { Machine } from '../../src/model/machine.ts';
import type { Part } from '../../src/model/part.ts';
import type { PartPlan } from '../../src/plan/of-part/part-plan.ts';
import { otherHandOf } from '../../src/plan/of-part/other-plans.ts';
import { planOnShop, type Search } from '../../src/plan/of-part/shop-plan.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { material } from '../helpers/plate.ts';
import { faultsOf } from './replay-solid-plan.ts';

/** Inputs of a family, as they are typed. */
export type Inputs = Readonly<Record<string, unknown>>;

/** A blank with the plan that was made for it. */
export interface Planned {
  readonly flat: FlatPattern;
  readonly plan: PartPlan;
}

/**
 * The parts these inputs make that have a fold to plan; of several that are alike, the first. They
 * are made once for all machines, and the other hand is planned from the first as `make` does it.
 */
export const planned = async (
  family: string,
  inputs: Inputs,
  machine: Machine,
  search: Search = {},
): Promise<Planned[]> => {
  const made = madeOnce(await loadFamily(family), inputs, { foldAt: 'service' });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const first = new Map<string, PartPlan>();
  const found = made.parts.flatMap((one): Planned[] => {
    if (one.flat === undefined) return [];
    const { part, flat, material: sheet, result } = one;
    const fold = { part, flat, material: sheet, bends: [] };
    const name = result.name.replace(/-[LR]$/, '');
    const before = first.get(name);
    const plan =
      (before && otherHandOf(fold, before)) ?? planOnShop(fold, [machine], undefined, search);
    if (plan === undefined) return [];
    if (before === undefined) first.set(name, plan);
    return [{ flat, plan }];
  });
  return found.filter(
    (one, i) =>
      found.findIndex(
        (other) => JSON.stringify(other.flat.outline) === JSON.stringify(one.flat.outline),
      ) === i,
  );
};

/** The same of inputs that make one part. */
export const onlyPlanned = async (
  family: string,
  inputs: Inputs,
  machine: Machine,
  search: Search = {},
): Promise<Planned> => {
  const [first, ...more] = await planned(family, inputs, machine, search);
  if (first === undefined || more.length > 0) throw new Error(`not one part of ${family}`);
  return first;
};

/** The plan of a part that no family made. */
export const plannedPart = (made: Part, machine: Machine): Planned => {
  const flat = flatten(made, { id: 'k', k: 0.42 });
  const plan = planOnShop({ part: made, flat, material: material('dc01'), bends: [] }, [machine]);
  if (plan === undefined) throw new Error(`${made.name} has no fold`);
  return { flat, plan };
};

/** Whether an order of folds was found. */
export const isFeasible = ({ plan }: Planned): boolean => plan.plan.feasible === true;
/** What the replay of a plan finds wrong with it. */
export const faults = ({ flat, plan }: Planned): string[] => faultsOf(plan, flat);

/** The folder and the press brake of a small shop. */
export const BOTH = [BOX_PAN, PRESS_BRAKE] as const;

/** A hat that either machine folds. */
export const HAT = {
  crown: 50,
  height: 30,
  footA: 20,
  footB: 20,
  width: 100,
  material: 'dc01',
  thickness: 1.5,
  radius: 1.5,
};
