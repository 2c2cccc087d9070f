import type { InTwo } from './fold-plan.ts';

/** A fold by its id; several made at one stroke as a list. */
export type StrokeNames = string | readonly string[];

/**
 * The JSON document of `plan --panels --json`. Its names are a contract: they are added to, never
 * changed. Where the part has folds that go at one stroke, every stroke of `orders` is a list.
 */
export interface PlanResult {
  readonly machine: string;
  /** `null`: not decided. */
  readonly feasible: boolean | null;
  readonly verdict: 'feasible' | 'impossible' | 'not decided';
  /** The first hundred, in the order in which the bends are given. */
  readonly orders: readonly (readonly StrokeNames[])[];
  /**
   * `null` when not asked for, or not decided. A text when it is more than a number holds exactly.
   */
  readonly feasibleOrders: number | string | null;
  readonly totalOrders: number | string | null;
  /** How many bends can be made at most; `null` when not every state was looked at. */
  readonly maxBendsReachable: number | null;
  /** What cannot be made from states that can be reached, in the words of the worked cases. */
  readonly blocked: readonly BlockedResult[];
  /** The cheapest order, step by step; `null` unless feasible. */
  readonly foldPlan: FoldPlanResult | null;
  /**
   * Where no order works with every fold made at one stroke: the steps of one that does when some
   * are made to half their angle first. `null` where there is an order, and where none such was
   * found.
   */
  readonly preFoldPlan: FoldPlanResult | null;
}

export interface BlockedResult {
  readonly already_folded: readonly string[];
  readonly bend: StrokeNames;
  readonly parent_side_clamped: string;
  readonly child_side_clamped: string;
}

export interface FoldPlanResult {
  readonly machine: string;
  readonly feasible: true;
  /** Whether no order costs less; otherwise the search was broken off. */
  readonly cheapest: boolean;
  /** How often the part is turned over between strokes. */
  readonly flips: number;
  readonly steps: readonly StepResult[];
}

export interface StepResult {
  readonly bend: StrokeNames;
  /** The panel that is clamped (on a press brake: that lies to the left). */
  readonly clampedPanel: string;
  readonly clampedSide: 'parent' | 'child';
  /** Whether the part is turned over before. */
  readonly flip: boolean;
  /** How far it is turned on the table before. */
  readonly turnDeg: number;
  /** Overbend included. */
  readonly stopAtDeg: number;
  /** From the fold back to the far edge of the clamped panel. */
  readonly stopMm: number;
  /** Widths of fingers, room by room along the fold; elsewhere the length of the tool. */
  readonly fingersMm: readonly (readonly number[])[];
  /** Only where the fold is made in two strokes. */
  readonly inTwo?: InTwo;
}
