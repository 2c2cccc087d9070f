import type { Vec2 } from '../geometry/vec2.ts';
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
  /** Whether the bar is taken off the leaf for it; only where it is. */
  readonly barTakenOff?: true;
}

/** Figures of a machine by name: `nose radius`, `stop offset`, `finger widths`. */
export interface RestsOn {
  /** Those that the shop file says itself. */
  readonly measured: readonly string[];
  /** Those taken from the built-in machine, or not known. */
  readonly assumed: readonly string[];
}

/**
 * How a fold is made: by the machine as it stands, with the sheet on packers, with a standing flange
 * hung outside the machine's end, or with a die as short as its fold; by the machine as far as it
 * gets and the rest by hand; or by hand altogether, over a block in the vice, along its slots, or
 * round a former; in rolls; by the machine in many slight hits beside each other; or as a crease of
 * a transition, set on its line by eye.
 */
export type FoldWay =
  | 'machine'
  | 'on packers'
  | 'off the end'
  | 'short die'
  | 'rest by hand'
  | 'over a block'
  | 'along slots'
  | 'round a former'
  | 'in rolls'
  | 'bumped'
  | 'by eye';

/**
 * A wide bend that is made in many slight hits: the flats between them touch the inside arc that was
 * asked for at their middles.
 */
export interface BumpedBend {
  readonly hits: number;
  /** Bend angle of one hit that stays. */
  readonly angleDeg: number;
  /** From hit to hit in the flat. */
  readonly pitchMm: number;
  /** The first and the last flat: from the tangent lines of the whole bend to the hits next to them. */
  readonly firstMm: number;
  /** How far the corners stand off the arc. */
  readonly standOffMm: number;
  /** How much shorter both legs together come out than with an arc, from the same blank. */
  readonly shortMm: number;
  /** The lines of the hits, in the order in which they are made, from what `from` of the step names. */
  readonly linesMm: readonly number[];
  /** Whether the part stays clear of machine and itself at every hit; `null` where it was not decided. */
  readonly isClear: boolean | null;
  /** What is doubtful about it: what stands in the way, lines too near to each other. */
  readonly doubts: readonly string[];
}

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
  /** The hits, only of a bend that is bumped; `stopAtDeg` and `sightLineMm` are of the first of them. */
  readonly bump?: BumpedBend;
  readonly card: StepCard;
}

/** What hangs at the machine beside the figures of a step: how it is laid, held, checked, let go. */
export interface StepCard {
  /** The face of the blank that lies up, as the drawing shows it; it carries the mark. */
  readonly faceUp: 'upper' | 'lower';
  /**
   * A point of the mark on the blank, and the point square to the fold from which it is measured, in the
   * drawing's coordinates; `null` where the mark is made otherwise.
   */
  readonly mark: { readonly at: Vec2; readonly from: Vec2 } | null;
  /** The panel at the fold that is swung; on a press brake, the one on the right. */
  readonly swungSide: string;
  /**
   * The axis about which the part is turned over before the step: `along` the machine, so that its
   * front edge goes to the back, or `across` it, so that its left end goes to the right. `null` where it
   * is not turned over, and at the first step.
   */
  readonly flipAbout: 'along' | 'across' | null;
  /** Which way it is turned on the table, seen from above: `left` is counter-clockwise. */
  readonly turnTo: 'left' | 'right' | null;
  /** The angle of the fold after the step, sprung back. */
  readonly keepsDeg: number;
  /** Whether the leaf has its bar; `null` on a press brake and for work by hand. */
  readonly barFitted: boolean | null;
  /**
   * Fingers or tool sections along the fold, mm from its left end as whoever stands at the machine
   * sees it: where a block begins, and its widths.
   */
  readonly tools: readonly { readonly fromMm: number; readonly widthsMm: readonly number[] }[];
  /** Mass of either side, kg. On a brake both rise. */
  readonly clampedKg: number;
  readonly swungKg: number;
  /** The hand on whose side most of the swung mass lies. */
  readonly hand: 'left' | 'right' | 'both';
  /** The way it comes out of the open machine; `null` where it is not known how far that opens. */
  readonly takeOff: 'to the front' | 'along the machine' | 'not at all' | null;
  readonly checks: readonly StepCheck[];
}

/** What a tape, a rule or a square reads on the part after the step, as the part then is. */
export interface StepCheck {
  /**
   * `height`: from the outside of the clamped panel, square to it. `over`: along the clamped panel, to
   * the outside of the panel that was folded. `depth`: of a hem, from its free edge to the outside of
   * its bend. `angle`: between the faces, on the inside.
   */
  readonly kind: 'height' | 'over' | 'depth' | 'angle';
  /** What is read between, in words: `the outside of leg A`, `the free edge of leg B`. */
  readonly from: string;
  readonly to: string;
  readonly value: number;
  readonly unit: 'mm' | 'deg';
  /** Either way, by ISO 2768-1; `null` where the standard has no figure. */
  readonly plusMinus: number | null;
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
/**
 * How a wall is rolled on rolls, or bumped in many slight hits. Pairs of figures are those of the
 * tightest and the widest end, the same for a cylinder; lengths lie on the middle of the sheet.
 */
export interface RollingPlan {
  readonly panel: string;
  /** The face that comes to lie inside, as the drawing shows it. */
  readonly insideFace: 'upper' | 'lower';
  readonly insideRadiusMm: readonly [number, number];
  readonly angleDeg: number;
  readonly hits: number;
  readonly degPerHit: number;
  /** From hit to hit, and from where the round begins to the first one. */
  readonly pitchMm: readonly [number, number];
  readonly firstMm: readonly [number, number];
  /** How far the corners between the flats stand off the round at the widest end. */
  readonly standOffMm: number;
}

export interface PlannedParts {
  readonly parts: readonly {
    readonly name: string;
    readonly foldPlan: FoldPlan | null;
    readonly files: readonly string[];
    /** How its wall is rolled or bumped when all folds are made; absent where none is. */
    readonly rolling?: RollingPlan;
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
