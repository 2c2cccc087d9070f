import type { Machine } from '../../model/machine.ts';
import type { PartPlan } from './part-plan.ts';

/**
 * A folder with the bar taken off its leaf, where it has one: the leaf is thinner then, and lies beside
 * what stands close to the fold.
 */
export const withoutBar = (machine: Machine): Machine[] =>
  machine.kind === 'folder' && machine.section === undefined && machine.isLeafBarFitted.value
    ? [{ ...machine, isLeafBarFitted: { ...machine.isLeafBarFitted, value: false } }]
    : [];

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
