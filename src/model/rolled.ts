import type { Vec2 } from '../geometry/vec2.ts';
import type { Direction } from './part.ts';

/**
 * A panel that is rolled on rolls, or bumped in many hits, after everything else of its part is
 * folded. Points are in the panel's own coordinates; lengths lie on the middle of the sheet, which
 * keeps its length.
 */
export interface Rolled {
  readonly panel: string;
  /** `up`: towards whoever looks at the drawing, so that the face that is seen comes to lie inside. */
  readonly direction: Direction;
  /**
   * Straight lines of the rolled surface, from one end of the sheet to the other, in the order in
   * which they go through the rolls: what is rolled before a line lies on the left of it. Models and
   * pictures have a small turn at each in place of a round wall.
   */
  readonly lines: readonly RulingLine[];
  /** Those that are marked on the blank: where rolling starts, its quarters, where it ends. */
  readonly marks: readonly RollMark[];
  readonly sizes: RollSizes;
}

export interface RulingLine {
  readonly from: Vec2;
  readonly to: Vec2;
  /** By how much the wall turns between the middle of the strip before it and that of the one behind. */
  readonly turnDeg: number;
}

export interface RollMark {
  readonly from: Vec2;
  readonly to: Vec2;
  /** What is written beside it. */
  readonly called: string;
}

/** What is to be known for rolling or bumping. */
export interface RollSizes {
  /** Inside radius, mm, at the tightest and the widest end; the same for a cylinder. */
  readonly insideRadiusMm: readonly [least: number, most: number];
  /** How far round it goes, degrees. */
  readonly angleDeg: number;
  /** Length round the middle of the sheet at the two ends, mm. */
  readonly aroundMm: readonly [least: number, most: number];
}
