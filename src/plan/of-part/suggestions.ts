import type { Blocked, FoldPlan } from '../../contract/fold-plan.ts';
import type { Machine } from '../../model/machine.ts';
import { type Allowance, allowance, canFold } from '../search/suggest.ts';
import { beyondCapacity } from './capacity.ts';
import { MOST_FOLDS, netFor, type PartPlan, setUpFor, setUpsOf } from './part-plan.ts';
import type { PartToFold } from './plan-steps.ts';

/**
 * The same plan with what would help at the machines, each tried by all that a plan is made by:
 * strength and length of the machine, and an order of folds on it. What would help about the part
 * is a change of its design.
 */
export function withSuggestions(
  fold: PartToFold,
  { plan, machine }: PartPlan,
  machines: readonly Machine[],
): FoldPlan {
  if (plan.feasible !== false) return plan;
  const allowed = allowance();
  const found = [
    ...otherwiseSetUp(fold, machine, allowed),
    ...elsewhere(
      fold,
      machines.filter((m) => m.id !== machine.id),
      allowed,
    ),
  ];
  const forBlocked = ({ suggestion }: Blocked): string | null => {
    const all = [...found, ...(suggestion === null ? [] : [suggestion])];
    return all.length === 0 ? null : all.join('; or ');
  };
  return { ...plan, blockedBy: plan.blockedBy.map((b) => ({ ...b, suggestion: forBlocked(b) })) };
}

/** Whether a plan can be made on a machine as it is set up. */
const canBeFolded = (fold: PartToFold, machine: Machine, allowed: Allowance): boolean => {
  if (beyondCapacity(fold, machine).length > 0) return false;
  const { net } = netFor(fold, machine);
  return net.folds.length <= MOST_FOLDS && canFold(net, machine, allowed);
};

/**
 * Whether any machine of the shop folds a part, with any of its tools: the question alone, which is
 * answered sooner than a plan is made. No answer within the budget counts as no.
 */
export const hasPlanOnShop = (
  fold: PartToFold,
  machines: readonly Machine[],
  budget: number,
): boolean =>
  machines.some((given) => {
    const usual = setUpFor(fold, given);
    return [usual, ...setUpsOf(usual)].some((machine) =>
      canBeFolded(fold, machine, { left: budget }),
    );
  });

/** Another set-up of the machine: without the bar of its leaf, or with another of its punches. */
const otherwiseSetUp = (fold: PartToFold, machine: Machine, allowed: Allowance): string[] => {
  if (machine.kind === 'folder')
    return machine.section === undefined &&
      machine.isLeafBarFitted.value &&
      canBeFolded(
        fold,
        { ...machine, isLeafBarFitted: { ...machine.isLeafBarFitted, value: false } },
        allowed,
      )
      ? ['take the bar off the leaf']
      : [];
  return setUpsOf(machine)
    .filter((m) => canBeFolded(fold, m, allowed))
    .map((m) => `use the punch ${punchOf(m)}`);
};

/** Another machine of the shop, with any of its tools. */
const elsewhere = (fold: PartToFold, machines: readonly Machine[], allowed: Allowance): string[] =>
  machines.flatMap((given) => {
    const usual = setUpFor(fold, given);
    const found = [usual, ...setUpsOf(usual)].find((m) => canBeFolded(fold, m, allowed));
    if (found === undefined) return [];
    const punch = found === usual ? '' : `, with the punch ${punchOf(found)}`;
    return [`fold it on ${given.name}${punch}`];
  });

const punchOf = (machine: Machine): string => (machine.kind === 'folder' ? '' : machine.punch);
