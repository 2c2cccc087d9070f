import type { BlankAnswer } from '../core/questions.ts';

/** Whether all is told of a blank: its plan and how well it fits come last. A tube has neither. */
export const isWhole = ({ fit, foldPlan, tube }: BlankAnswer): boolean =>
  fit !== null || foldPlan !== null || tube !== null;

/** Whether no machine of the shop folds a blank. */
export const isUnfoldable = ({ foldPlan }: BlankAnswer): boolean =>
  foldPlan !== null && foldPlan.feasible !== true;
