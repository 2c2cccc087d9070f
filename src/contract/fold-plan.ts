/** One of the two strokes of a fold. */
export interface InTwo {
  readonly stroke: 1 | 2;
  /** Angle of the fold after this stroke, sprung back; for a hem, before it is pressed flat. */
  readonly keepsDeg: number;
  /** Number of the step that holds the other stroke, the first step being 1. */
  readonly otherStep: number;
}

/**
 * How a part is folded, or what prevents it: `foldPlan` of the JSON of `make` and `plan`. Its names
 * are a contract: they are added to, never changed.
 */
export interface FoldPlan {
  /** The machine's id. */
  readonly machine: string;
  /** `null` where it was not decided within the search's budget. */
  readonly feasible: boolean | null;
  readonly steps: readonly FoldStep[];
  readonly blockedBy: readonly Blocked[];
  /**
   * A few folds proved to block each other in any order, whatever is done with the others; empty
   * where none are found.
   */
  readonly blockEachOther: readonly string[];
}

/**
 * How a fold is made: by the machine as it stands, with the sheet on packers, with a standing flange
 * hung outside the machine's end, or with a die as short as its fold; by the machine as far as it
 * gets and the rest by hand; or by hand altogether, over a block in the vice, along its slots, or
 * round a former.
 */
export type FoldWay =
  | 'machine'
  | 'on packers'
  | 'off the end'
  | 'short die'
  | 'rest by hand'
  | 'over a block'
  | 'along slots'
  | 'round a former';

/** Where metal springs aside by a little on the way, and what it meets. */
export interface Tight {
  readonly panel: string;
  readonly touches: string;
  readonly springsMm: number;
}

export interface FoldStep {
  /** A fold's id; several made at one stroke with ` + ` between them. */
  readonly bend: string;
  /** The panel that is clamped; on a press brake, the one on the left. */
  readonly clampedSide: string;
  readonly flip: boolean;
  readonly turnDeg: number;
  /** The bend angle at which to stop; springback is allowed for. */
  readonly stopAtDeg: number;
  /** Distance of the mark from `from`; `null` where nothing runs beside the fold. */
  readonly sightLineMm: number | null;
  readonly from: string;
  /** The nose of a folder and where it is set; `null` on a press brake and for work by hand. */
  readonly nose: FoldNose | null;
  /** Widths of fingers, or lengths of tool, along the fold. */
  readonly fingersMm: readonly number[];
  readonly note: string | null;
  readonly way: FoldWay;
  /**
   * How much of the angle is made by hand, in degrees: 0 for a stroke of the machine alone, and what
   * is left of a hem that is pressed flat.
   */
  readonly byHandDeg: number;
  /** Height of the packers under the sheet, only where it lies on packers. */
  readonly packerMm?: number;
  /** What springs aside, only where something does. */
  readonly tight?: readonly Tight[];
  /** Details of the stroke, only where the fold is made in two. */
  readonly inTwo?: InTwo;
}

/** The nose that a fold is made about. Marks, contacts and pictures go by it. */
export interface FoldNose {
  /** Its radius; 0 for a sharp one. */
  readonly radiusMm: number;
  /**
   * How far its front stands back from the leaf's edge: the nose gap, or set-back. It is below 0
   * where a round nose reaches over the edge.
   */
  readonly gapMm: number;
  /** Whether the shop's file or its strips say the radius, or a sharp nose is assumed. */
  readonly basis: 'measured' | 'assumed';
}

export interface Blocked {
  readonly bend: string;
  /** The folds that have been made by then. */
  readonly after: readonly string[];
  readonly reason: string;
  /** The panel in the way; `null` where the obstacle is not a panel. */
  readonly touches: string | null;
  readonly atDeg: number | null;
  /**
   * Changes that were tried and help, each on its own, with `; or ` between them; for a machine
   * that is too weak, the ways out.
   */
  readonly suggestion: string | null;
}

/** The JSON document of `plan FAMILY --json`. */
export interface PlannedParts {
  readonly parts: readonly {
    readonly name: string;
    readonly foldPlan: FoldPlan | null;
    readonly files: readonly string[];
  }[];
}
