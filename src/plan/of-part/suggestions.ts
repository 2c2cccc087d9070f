import type { Blocked, FoldPlan } from '../../contract/fold-plan.ts';
import type { Machine } from '../../model/machine.ts';
import { type Allowance, allowance, canFold, type LastBlocked } from '../search/suggest.ts';
import { beyondCapacity } from './capacity.ts';
import { handsFor, isWithinHands } from './hands.ts';
import { MOST_FOLDS, netFor, type PartPlan, setUpFor, setUpsOf } from './part-plan.ts';
import type { PartToFold } from './plan-steps.ts';
import type { Search } from './shop-plan.ts';
import { withoutBar } from './without-bar.ts';

export type { LastBlocked } from '../search/suggest.ts';

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
  const found = elsewhere(
    fold,
    machines.filter((m) => m.id !== machine.id),
    allowed,
  );
  const forBlocked = ({ suggestion }: Blocked): string | null => {
    const all = [...found, ...(suggestion === null ? [] : [suggestion])];
    return all.length === 0 ? null : all.join('; or ');
  };
  return { ...plan, blockedBy: plan.blockedBy.map((b) => ({ ...b, suggestion: forBlocked(b) })) };
}

/** Whether a plan can be made on a machine as it is set up. */
const canBeFolded = (
  fold: PartToFold,
  machine: Machine,
  allowed: Allowance,
  lastBlocked?: LastBlocked,
): boolean => {
  if (beyondCapacity(fold, machine).length > 0) return false;
  const { net } = netFor(fold, machine);
  return net.folds.length <= MOST_FOLDS && canFold(net, machine, allowed, lastBlocked);
};

/** The same with the help of hands, on a machine with the tool that is in it. */
const canBeHelped = (
  fold: PartToFold,
  machine: Machine,
  allowed: Allowance,
  lastBlocked: LastBlocked,
): boolean => {
  const { net } = netFor(fold, machine);
  if (net.folds.length > MOST_FOLDS) return false;
  const hands = handsFor(fold, net, beyondCapacity(fold, machine));
  return isWithinHands(hands) && canFold({ ...net, hands }, machine, allowed, lastBlocked);
};

/** How it is asked whether a part can be folded, and what is known of parts like it. */
interface Asked extends Search {
  readonly lastBlocked?: LastBlocked;
}

/**
 * Whether any machine of the shop folds a part, with any of its tools or with the help of hands: the
 * question alone, which is answered sooner than a plan is made. No answer within the budget counts
 * as no.
 */
export const hasPlanOnShop = (
  fold: PartToFold,
  machines: readonly Machine[],
  budget: number,
  { byMachineOnly = false, lastBlocked = new Map() }: Asked = {},
): boolean => {
  const folds = (machine: Machine): boolean =>
    canBeFolded(fold, machine, { left: budget }, lastBlocked);
  const setUp = machines.map((given) => setUpFor(fold, given));
  return (
    setUp.some((usual) => [usual, ...setUpsOf(usual)].some(folds)) ||
    (!byMachineOnly &&
      setUp.some((machine) => canBeHelped(fold, machine, { left: budget }, lastBlocked))) ||
    setUp.flatMap(withoutBar).some(folds)
  );
};

/** Another machine of the shop, with any of its tools. */
const elsewhere = (fold: PartToFold, machines: readonly Machine[], allowed: Allowance): string[] =>
  machines.flatMap((given) => {
    const usual = setUpFor(fold, given);
    const found = [usual, ...setUpsOf(usual), ...withoutBar(usual)].find((m) =>
      canBeFolded(fold, m, allowed),
    );
    if (found === undefined) return [];
    const setUp = found === usual ? '' : `, with the ${otherwise(found)}`;
    return [`fold it on ${given.name}${setUp}`];
  });

/** How a machine is set up otherwise than it stands. */
const otherwise = (machine: Machine): string =>
  machine.kind === 'folder' ? 'bar off its leaf' : `punch ${machine.punch}`;
