import type { Redesign } from './redesign.ts';

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
  /** The figures of the machine that all this rests on. */
  readonly restsOn: RestsOn;
}

/** Figures of a machine by name: `nose radius`, `stop offset`, `finger widths`. */
export interface RestsOn {
  /** Those that the shop file says itself. */
  readonly measured: readonly string[];
  /** Those taken from the built-in machine, or not known. */
  readonly assumed: readonly string[];
}

export interface FoldStep {
  /** A fold's id; several made at one stroke with ` + ` between them. */
  readonly bend: string;
  /** The panel that is clamped; on a press brake, the one on the left. */
  readonly clampedSide: string;
  readonly flip: boolean;
  readonly turnDeg: number;
  /**
   * What the dial or stop of the machine reads where to stop; springback and `stop.offsetDeg` are
   * in it.
   */
  readonly stopAtDeg: number;
  /** What the stop angle rests on; absent for work by hand. */
  readonly stop?: FoldStop;
  /** Distance of the mark from `from`; `null` where nothing runs beside the fold. */
  readonly sightLineMm: number | null;
  readonly from: string;
  /** The nose of a folder and where it is set; `null` on a press brake and for work by hand. */
  readonly nose: FoldNose | null;
  /** Widths of fingers, or lengths of tool, along the fold. */
  readonly fingersMm: readonly number[];
  readonly note: string | null;
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

/** What a stop angle rests on. */
export interface FoldStop {
  /** What was added because the machine's dial reads more than it turns the metal. */
  readonly offsetDeg: number;
  /**
   * Whether the shop's file or its strips say how the dial reads, or it is assumed to read what it
   * turns.
   */
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

/** A way to finish a half folded part that no order finishes as it is; it was tried. */
export interface Rescue {
  /** Folds to open again; they are folded anew later. */
  readonly open: readonly string[];
  /** Folds at which it is cut apart; the pieces are welded there in the end. */
  readonly cut: readonly string[];
  /** Ids of the machines, and what is folded then, piece after piece. */
  readonly machines: readonly string[];
  readonly order: readonly string[];
}

/** The JSON document of `plan FAMILY --json`. */
export interface PlannedParts {
  readonly parts: readonly {
    readonly name: string;
    readonly foldPlan: FoldPlan | null;
    readonly files: readonly string[];
    /**
     * Of a part that is half folded and that no order finishes: what rescues it, smallest first.
     * Only where it was asked how such a part is finished; `foldPlan` is then of what is left.
     */
    readonly rescues?: readonly Rescue[];
  }[];
  /**
   * Other designs of what cannot be folded, cheapest first; none where everything can be, or none
   * was found.
   */
  readonly redesigns: readonly Redesign[];
}
