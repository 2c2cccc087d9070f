import type { BlankAnswer } from '../core/questions.ts';

/** Whether all is told of a blank: its plan and how well it fits come last. */
export const isWhole = ({ fit, foldPlan }: BlankAnswer): boolean =>
  fit !== null || foldPlan !== null;

/** Whether no machine of the shop folds a blank. */
export const isUnfoldable = ({ foldPlan }: BlankAnswer): boolean =>
  foldPlan !== null && foldPlan.feasible !== true;
