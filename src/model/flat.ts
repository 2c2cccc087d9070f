import type { Loop, Vertex } from '../geometry/loop.ts';
import type { Motion2 } from '../geometry/motion2.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { Finding } from './finding.ts';
import type { FlatFormed } from './formed.ts';
import type { Cutout, Direction } from './part.ts';
import type { RollMark, RollSizes } from './rolled.ts';

/** Which feature of the part a piece of the blank's outline came from. */
export type Origin =
  | { readonly kind: 'edge'; readonly panel: string; readonly edge: number }
  | { readonly kind: 'trim'; readonly panel: string }
  | { readonly kind: 'relief'; readonly panel: string }
  | { readonly kind: 'strip'; readonly fold: string };

/** A piece of the blank's outline that remembers where it came from. */
export interface FlatVertex extends Vertex {
  readonly origin: Origin;
}

/**
 * A hole of the blank, in the drawing's coordinates. `from` is the input it came from, `name` what
 * all papers and messages call it (`hole-names.ts`); a slot of the row along a fold has no name, and
 * that `fold` instead.
 */
export type FlatCutout = Cutout & {
  readonly panel: string;
  readonly name?: string;
  readonly fold?: string;
};

/** One bend of the blank. Points are in the drawing's coordinates. */
export interface FlatBend {
  readonly id: string;
  readonly parent: string;
  readonly child: string;
  readonly angleDeg: number;
  readonly direction: Direction;
  readonly insideRadiusMm: number;
  /** Canonical text of the rule the allowance came from. */
  readonly rule: string;
  readonly allowanceMm: number;
  readonly setbackMm: number;
  readonly deductionMm: number;
  readonly kFactor: number;
  /** Depth of a teardrop hem: from its edge to the outermost point of its loop, mm. */
  readonly teardropMm?: number;
  /** The bend turns about its line in the middle of the sheet, and its zone has no width. */
  readonly midSurface?: true;
  /**
   * Line where the bend begins on the parent's side, in the parent's counter-clockwise direction.
   */
  readonly parentTangent: readonly [Vec2, Vec2];
  /** Line where it ends on the child's side; the first point lies opposite the parent's first. */
  readonly childTangent: readonly [Vec2, Vec2];
  /** Line half way between the tangent lines, as far as there is metal. */
  readonly centreLine: readonly [Vec2, Vec2];
}

/** A panel as it lies in the blank. */
export interface FlatPanel {
  readonly id: string;
  /** Takes the panel's own coordinates to the drawing's. */
  readonly placement: Motion2;
  /**
   * The flat region in the panel's own coordinates: it ends at the tangent lines; notches are taken
   * out, holes are not.
   */
  readonly region: Loop;
  readonly areaMm2: number;
}

/**
 * The flat pattern: what is cut, and where it is folded. The lower left corner of its extents is
 * the origin.
 */
export interface FlatPattern {
  readonly name: string;
  readonly thicknessMm: number;
  /** One simple closed loop of lines and arcs, counter-clockwise. */
  readonly outline: Loop<FlatVertex>;
  readonly cutouts: readonly FlatCutout[];
  readonly bends: readonly FlatBend[];
  readonly panels: readonly FlatPanel[];
  /** Lines that are marked for the rolls, and what is to be known for rolling. */
  readonly rollMarks?: readonly RollMark[];
  readonly rollSizes?: RollSizes;
  /** Louvres and beads, which are formed out of it. */
  readonly formed?: readonly FlatFormed[];
  readonly widthMm: number;
  readonly heightMm: number;
  /** Area of the blank without its holes. */
  readonly areaMm2: number;
  readonly findings: readonly Finding[];
}
