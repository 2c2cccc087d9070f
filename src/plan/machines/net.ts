import type { Pose } from '../../geometry/pose.ts';
import type { Solid } from '../../geometry/convex-solid.ts';

/**
 * A part as the planner sees it: rigid bodies joined by folds into a tree. The search is the same
 * whether the bodies come from the middle plane of a net or from panels with thickness and radii.
 */
export interface FoldNet {
  readonly thicknessMm: number;
  /** Whether the bodies have the thickness of the sheet; on the middle plane they have none. */
  readonly isSolid: boolean;
  readonly panels: readonly NetPanel[];
  readonly folds: readonly NetFold[];
  /**
   * The only sets of folds, as bits, that may be made at one stroke. Any set may when this is
   * absent.
   */
  readonly strokes?: readonly number[];
  /** The most mm of folds at one stroke that the machine is strong enough for; any when absent. */
  readonly mostTogetherMm?: number;
  /** Folds that are made in two strokes; absent where there are none. */
  readonly preFolds?: readonly PreFold[];
  /** What hands may do, where a part has no order by the machine alone; absent where nothing. */
  readonly hands?: Hands;
}

/** What hands may do of each fold, as bits. */
export interface Hands {
  /** Folds that the machine is too weak or too short for. */
  readonly beyondMachine: number;
  /** Folds light enough to be made over a block. */
  readonly overBlock: number;
  /** Folds light enough to be taken through their last degrees by hand. */
  readonly rest: number;
}

/**
 * The first stroke of a fold that is made in two. The state bits of first strokes come after those
 * of the folds.
 */
export interface PreFold {
  /** Number of the fold. */
  readonly fold: number;
  /** The first stroke as a fold of its own that ends at the smaller angle. */
  readonly made: NetFold;
  /** Takes the child's coordinates to the parent's after the first stroke. */
  readonly pose: Pose;
}

/** A panel in coordinates of its own, mm. */
export interface NetPanel {
  readonly id: string;
  readonly solids: readonly Solid[];
  /**
   * The same bodies less the contact gap all round, so that a body resting against a neighbour does
   * not collide with it.
   */
  readonly lessGap: readonly Solid[];
  readonly areaMm2: number;
}

/** The folds that a fold of a net stands for. */
export const foldIdsOf = ({ id, ids }: NetFold): readonly string[] => ids ?? [id];

export interface NetFold {
  readonly id: string;
  /** The ids of the folds that it stands for, where it is a row of them made as one. */
  readonly ids?: readonly string[];
  /** Numbers of panels: parent, child. */
  readonly panels: readonly [number, number];
  /** The angle that the metal is turned by: 0 flat, 90 square. */
  readonly angleDeg: number;
  readonly insideRadiusMm: number;
  /** Radius of the nose that it is folded about, mm; a sharp one when absent. */
  readonly noseRadiusMm?: number;
  /** Least flange that the leaf can fold, mm from the hinge; the machine's own alone when absent. */
  readonly leastFlangeMm?: number;
  /** Whether it is a slight fold of a transition: the leaf bears on what lies beyond the next one too. */
  readonly isCrease?: true;
  /** Length of blank that the bend takes, mm; absent on the middle plane. */
  readonly allowanceMm?: number;
  /** How far past its angle the fold is swung; the machine's own overbend when absent. */
  readonly overbendDeg?: number;
  /**
   * Whether it is folded towards +z of the panels. A fold the other way is made with the part
   * turned over.
   */
  readonly up: boolean;
  /**
   * A frame on either panel, in the panel's coordinates. The origin is on the fold line at its
   * middle, where the sheet lies on the machine. x is square to the line and points away from this
   * panel, over to the other; y points towards the inside of the fold; z runs along the line. Laid
   * flat, the two frames are the same but for half a turn about y; where bends are allowed for,
   * they are a deduction apart.
   */
  readonly frames: readonly [Pose, Pose];
  readonly lengthMm: number;
  /** Takes the child's coordinates to the parent's, before the fold is made and after. */
  readonly flat: Pose;
  readonly folded: Pose;
  /**
   * Direction of the line in the blank, degrees from x, 0 to 360: the way that its x axis points on
   * the parent's side.
   */
  readonly headingDeg: number;
  /** The middle of the line in the blank, for finding folds on one line. */
  readonly middle: readonly [number, number];
}
