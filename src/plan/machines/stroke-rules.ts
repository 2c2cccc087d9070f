import type { Section } from '../../model/machine.ts';

/**
 * The two sides of a stroke: the one that is clamped (the left leg on a press brake) and the one
 * that swings (the right leg).
 */
export const STILL = 0;
export const MOVING = 1;
export type Side = typeof STILL | typeof MOVING;

/** A machine's rules for one stroke of some angle: all that the planner asks of the machine. */
export interface StrokeRules {
  /** Angle between the two sides from flat to the end of the overbend. */
  readonly swingDeg: number;
  /**
   * Angle at which the swing of a fold that is made in part begins, degrees from flat; 0 for any
   * other.
   */
  readonly startDeg: number;
  /** Angle by which the clamped side is turned in the machine at that moment. */
  readonly stillStartDeg: number;
  /** The checks, in the order in which they are reported. */
  readonly checks: readonly BodyCheck[];
  /** Least strip of flat sheet beside the fold, on either side. */
  readonly stripMm: readonly [still: number, moving: number];
  /** Flat sheet behind the fold that makes a safe grip, mm from the hinge. */
  readonly gripMm: number;
  /** How far the two sides turn for every degree of the stroke. */
  readonly turns: readonly [still: number, moving: number];
  /** What carries the part when it is let go after the stroke, as a range across the machine. */
  readonly carriedMm: readonly [from: number, to: number];
  readonly holder: Holder;
  /** Says that something stands where the tool has to be. */
  readonly sayInTheWay: (panel: string, atDeg: number) => string;
  /** Why the machine cannot make this angle at all. */
  readonly beyond?: string;
  /** What helps the machine, or stands in for it; absent where it makes the stroke as it stands. */
  readonly help?: Help;
}

/**
 * What an old hand does where the machine as it stands does not: metal that is let spring aside by
 * some tenths, packers, a flange hung off the end, a die cut to length, the last degrees by hand, or
 * the whole fold by hand over a block.
 */
export type Help =
  'tight' | 'off the end' | 'on packers' | 'short die' | 'rest by hand' | 'over a block';

/** The sheet between the tools, and the bend that they are set for. */
export interface Sheet {
  readonly thicknessMm: number;
  readonly insideRadiusMm: number;
  /** The angle of the bend without its overbend, degrees. */
  readonly angleDeg: number;
  /** How far the bend is swung, its overbend counted, degrees; its own angle when left out. */
  readonly swungDeg?: number;
  /** Radius of a folder's nose, mm; 0 for a sharp one. */
  readonly noseRadiusMm: number;
  /** Least flange that a leaf can fold, mm from the hinge; the machine's own alone when left out. */
  readonly leastFlangeMm?: number;
  /** Whether it is a crease of a transition, beyond which the sheet goes on almost in its plane. */
  readonly isCrease?: true;
  /** How much nearer a flat side lies than where its swing begins; 0 when left out. */
  readonly nearerMm?: number;
  /** Height of the packers under it, mm, at a stroke that is made on some; the highest when left out. */
  readonly packerMm?: number | undefined;
}

/**
 * The sheet of a part on the middle plane, for which the tools are where the machine's description
 * has them.
 */
export const NO_SHEET: Sheet = {
  thicknessMm: 0,
  insideRadiusMm: 0,
  angleDeg: 0,
  noseRadiusMm: 0,
};

/**
 * One side against some bodies, which run along the machine's whole length unless the tool comes in
 * sections.
 */
export interface BodyCheck {
  readonly side: Side;
  readonly bodies: readonly Body[];
  /** The turn of the side as the bodies see it, degrees, counter-clockwise when positive. */
  readonly turnDeg: number;
  /** Half the width of the V, for bodies that rise to meet the turning side. */
  readonly halfVMm?: number;
  /** How far the side is already turned, as such bodies see it, before it turns on. */
  readonly turnedDeg?: number;
  /**
   * Whether the bodies can be taken away where something stands; they then only need room along the
   * fold.
   */
  readonly inSections: boolean;
  /**
   * Whether the bodies are taken away by hanging the part off the machine's end: they need no room
   * along the fold, and the end lies between the fold and whatever they would meet.
   */
  readonly atEnd?: boolean;
  /** @param highMm how high the panel reaches over the bed before the stroke */
  readonly say: (panel: string, atDeg: number, highMm: number) => string;
}

/** A convex piece of a machine's section. */
export interface Body {
  readonly whole: Section;
  /** The section less the contact gap; a body that reaches into it collides. */
  readonly lessGap: Section;
}

/** What holds the sheet along the fold. */
export type Holder =
  | {
      readonly kind: 'fingers';
      readonly widthsMm: readonly number[];
      readonly sideClearMm: number;
      readonly mostUncoveredMm: number;
    }
  | { readonly kind: 'one piece'; readonly endOverhang: boolean }
  | { readonly kind: 'sections'; readonly mostUncoveredMm: number };
