import type { Machine } from '../../model/machine.ts';
import { doBlock } from '../search/blocking-set.ts';
import { netFor, type PartPlan, planPart, tooMuchFor } from './part-plan.ts';
import type { PartToFold } from './plan-steps.ts';

/**
 * A folder with the bar taken off its leaf, where it has one: the leaf is thinner then, and lies beside
 * what stands close to the fold.
 */
export const withoutBar = (machine: Machine): Machine[] =>
  machine.kind === 'folder' && machine.section === undefined && machine.isLeafBarFitted.value
    ? [{ ...machine, isLeafBarFitted: { ...machine.isLeafBarFitted, value: false } }]
    : [];

/**
 * The plan with the bar off the leaf, for a part that has none with it. What the thinner leaf is too
 * weak for, and folds that block each other with the bar off too, are seen before all orders are
 * tried. `undefined` where it does not help.
 */
export function planWithoutBar(
  fold: PartToFold,
  { answer, machine }: PartPlan,
  budget: number,
): PartPlan | undefined {
  for (const bare of withoutBar(machine)) {
    const { net } = netFor(fold, bare);
    const isHopeless =
      tooMuchFor(fold, bare, net).length > 0 ||
      (answer.blockingSet !== undefined && doBlock(net, bare, answer.blockingSet).yes);
    const found = isHopeless ? undefined : planPart(fold, bare, budget);
    if (found?.plan.feasible === true) return toldOfBar(found);
  }
  return undefined;
}

/** A plan on a folder whose bar is taken off for it, with that said before the first step. */
export const toldOfBar = (found: PartPlan): PartPlan => ({
  ...found,
  plan: {
    ...found.plan,
    barTakenOff: true,
    steps: found.plan.steps.map((step, i) =>
      i > 0
        ? step
        : { ...step, note: [TAKE_OFF, ...(step.note === null ? [] : [step.note])].join('; ') },
    ),
  },
});

const TAKE_OFF = 'take the bar off the leaf before';
