import type { InTwo } from './fold-plan.ts';

/** A fold by its id, or a list of several that are made at one stroke. */
export type StrokeNames = string | readonly string[];

/**
 * The JSON document of `plan --panels --json`. Its names are a contract: they are added to, never
 * changed. Where the part has folds that are made at one stroke, every stroke of `orders` is a
 * list.
 */
export interface PlanResult {
  readonly machine: string;
  /** `null` where it was not decided. */
  readonly feasible: boolean | null;
  readonly verdict: 'feasible' | 'impossible' | 'not decided';
  /** The first hundred orders, enumerated in the order in which the bends are given. */
  readonly orders: readonly (readonly StrokeNames[])[];
  /**
   * Number of orders that work; `null` when it was not asked for or not decided. It is a text when
   * a number cannot hold it exactly.
   */
  readonly feasibleOrders: number | string | null;
  readonly totalOrders: number | string | null;
  /** How many bends can be made at most; `null` when not every state was examined. */
  readonly maxBendsReachable: number | null;
  /**
   * Strokes that cannot be made from states that can be reached, in the words of the worked cases.
   */
  readonly blocked: readonly BlockedResult[];
  /** The cheapest order, step by step; `null` unless feasible. */
  readonly foldPlan: FoldPlanResult | null;
  /**
   * Steps of an order in which some folds are first made to half their angle, given where no order
   * works with every fold made at one stroke. `null` where there is an order, and where none such
   * was found.
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
  /** Whether it is proved that no order costs less; if not, the search was broken off. */
  readonly cheapest: boolean;
  /** How often the part is turned over between strokes. */
  readonly flips: number;
  readonly steps: readonly StepResult[];
}

export interface StepResult {
  readonly bend: StrokeNames;
  /** The panel that is clamped; on a press brake, the one that lies on the left. */
  readonly clampedPanel: string;
  readonly clampedSide: 'parent' | 'child';
  /** Whether the part is turned over before this stroke. */
  readonly flip: boolean;
  /** How far it is turned on the table before this stroke. */
  readonly turnDeg: number;
  /** Angle at which to stop, overbend included. */
  readonly stopAtDeg: number;
  /** Distance from the fold back to the far edge of the clamped panel. */
  readonly stopMm: number;
  /** Widths of fingers, gap by gap along the fold; on other machines the length of the tool. */
  readonly fingersMm: readonly (readonly number[])[];
  /** Details of the stroke, only where the fold is made in two. */
  readonly inTwo?: InTwo;
}
