import type { Pose } from '../../geometry/pose.ts';
import type { Solid } from '../../geometry/convex-solid.ts';

/**
 * A part as the planner sees it: rigid bodies joined by folds into a tree. Where the bodies come
 * from - the middle plane of a net, or panels with thickness and radii - makes no difference to the
 * search.
 */
export interface FoldNet {
  readonly thicknessMm: number;
  /** Whether the bodies have that thickness; on the middle plane they have none. */
  readonly isSolid: boolean;
  readonly panels: readonly NetPanel[];
  readonly folds: readonly NetFold[];
  /** Sets of folds, as bits, that alone may be made at one stroke; absent: any. */
  readonly strokes?: readonly number[];
  /** Folds that are made in two strokes; absent: none. */
  readonly preFolds?: readonly PreFold[];
}

/**
 * The first stroke of a fold that is made in two: state bits of these come after those of the
 * folds.
 */
export interface PreFold {
  /** Its number. */
  readonly fold: number;
  /** As if it were a fold of its own that ends at the smaller angle. */
  readonly made: NetFold;
  /** Takes the child's coordinates to the parent's after it. */
  readonly pose: Pose;
}

/** In coordinates of its own, mm. */
export interface NetPanel {
  readonly id: string;
  readonly solids: readonly Solid[];
  /**
   * The same bodies less the contact gap all round: what rests against a neighbour does not collide
   * with it.
   */
  readonly lessGap: readonly Solid[];
  readonly areaMm2: number;
}

export interface NetFold {
  readonly id: string;
  /** Numbers of panels: parent, child. */
  readonly panels: readonly [number, number];
  /** How far the metal is turned: 0 flat, 90 square. */
  readonly angleDeg: number;
  readonly insideRadiusMm: number;
  /** How much of the blank the bend takes; none on the middle plane. */
  readonly allowanceMm?: number;
  /** How far past its angle it is swung; what the machine's description says when left out. */
  readonly overbendDeg?: number;
  /** Towards +z of the panels. A fold the other way is made with the part turned over. */
  readonly up: boolean;
  /**
   * A frame on either panel, in its coordinates: the origin on the fold line at its middle, where
   * the sheet lies on the machine; x square to the line and away from this panel, over to the
   * other; y towards the inside of the fold; z along the line. Laid flat, the two frames are the
   * same but for half a turn about y; where bends are allowed for, they are a deduction apart.
   */
  readonly frames: readonly [Pose, Pose];
  readonly lengthMm: number;
  /** Takes the child's coordinates to the parent's, before the fold is made and after. */
  readonly flat: Pose;
  readonly folded: Pose;
  /**
   * How the line lies in the blank, degrees from x, 0 to 360: the way its x axis on the parent's
   * side points.
   */
  readonly headingDeg: number;
  /** The line in the blank: its middle, to find folds on one line. */
  readonly middle: readonly [number, number];
}
