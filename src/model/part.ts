import type { Loop } from '../geometry/loop.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { BendRule } from './bend-rule.ts';
import type { HoleUse } from './hole-use.ts';
import type { Wish } from './wish.ts';

/**
 * A folded part: flat panels joined by folds into a tree. No material in it, only its thickness.
 *
 * Each panel lies in a plane of its own; its metal fills `0 <= z <= thickness`, and whoever looks
 * at the drawing looks along -z and sees the face `z = thickness`.
 */
export interface Part {
  readonly name: string;
  readonly thicknessMm: number;
  /** Whether panel outlines are given on the outside or the inside mould lines of their folds. */
  readonly measure: Measure;
  /** The panel that stays put when the part is flattened or folded. */
  readonly root: string;
  readonly panels: readonly Panel[];
  readonly folds: readonly Fold[];
  /**
   * How neighbouring flanges end where they meet. A pair that is not listed is `open` with the
   * default gap.
   */
  readonly corners?: readonly Corner[];
  readonly relief: Relief;
  /** Default gap between the ends of neighbouring flanges of the folded part, mm. */
  readonly cornerGapMm: number;
  /** What the inputs of its family mean on it; the proof measures that. */
  readonly wishes?: readonly Wish[];
}

export type Measure = 'outside' | 'inside';

/** A flat piece of the part. */
export interface Panel {
  /** As the maker would call it: `leg A`, `web`. Unique within the part. */
  readonly id: string;
  /**
   * Counter-clockwise, on mould lines: an edge without a fold is where the metal ends; an edge with
   * a fold is where the outside faces (inside faces for `measure: 'inside'`) of the two panels
   * would meet if the bend had no radius; over 90 degrees, the outermost tangent of the bend, as
   * DIN 6935 measures.
   */
  readonly outline: Loop;
  readonly cutouts: readonly Cutout[];
}

/**
 * A hole, slot or cut-out, in the coordinates of its panel. It may reach over a fold: it is cut as
 * it lies in the flat.
 */
export type Cutout = CutoutFacts &
  (
    | { readonly kind: 'round'; readonly centre: Vec2; readonly diameterMm: number }
    | { readonly kind: 'loop'; readonly loop: Loop }
  );

export interface CutoutFacts {
  /** How messages call it: the input it came from, and which of its holes: `holesA 2`. */
  readonly from: string;
  /** The inputs that it came from, by their names; of a part that came from inputs it has them. */
  readonly inputs?: readonly string[];
  /**
   * Which of the entries of its input, from 1, where that gives several: `2`. Of a pattern `2.1` is
   * the first hole of the second entry.
   */
  readonly number?: string;
  readonly use?: HoleUse;
  /** The figures that place it, of a hole that was asked for by such. */
  readonly figures?: readonly PlaceFigure[];
  /** Where its middle would be, were the two figures that place it taken in the other order. */
  readonly otherWay?: Vec2;
}

/** A figure by which a hole was placed. */
export interface PlaceFigure {
  /** What stands before it when it is written with what it is measured from: `from fold`, `up`. */
  readonly from: string;
  readonly mm: number;
  /** The way the hole goes when it grows, a unit vector. */
  readonly towards: Vec2;
}

export type Direction = 'up' | 'down';

/** Joins a straight edge, or a stretch of it, of one panel to an edge of another. */
export interface Fold {
  /** Unique within the part; shown beside the fold line. */
  readonly id: string;
  readonly parent: FoldSide;
  readonly child: FoldSide;
  /** How far the metal is turned: 0 flat, 90 square, 180 a closed hem. */
  readonly angleDeg: number;
  /**
   * `up`: folded towards whoever looks at the drawing. The same word whichever panel is called the
   * parent.
   */
  readonly direction: Direction;
  readonly insideRadiusMm: number;
  /**
   * A teardrop hem of 180 degrees: from its edge to the outermost point of its loop, outside. Its
   * leg is drawn as that of an open hem of the same depth, and lies with its edge down on the sheet
   * when it is made.
   */
  readonly teardropMm?: number;
  /** Where it differs from the rule of the whole part. */
  readonly rule?: BendRule;
  /**
   * One of many small bends that run into a common point, as on a transition: both outlines are
   * given on the middle of the sheet and end at the line in which they meet there; the fold turns
   * about that line and takes nothing of either panel. With the neutral line in mid-sheet and R its
   * radius, a real bend of angle A (radians) is R (2 tan(A/2)
   * - A) shorter, about R A^3 / 12: some hundredths of a millimetre at 30 degrees.
   */
  readonly midSurface?: true;
  /**
   * Of a fold that an input of its own gave: that input, how it is called (`fold line 2 of folds`),
   * and whether its radius was given there.
   */
  readonly asked?: {
    readonly input: string;
    readonly called: string;
    readonly hasOwnRadius?: true;
  };
  /**
   * Cut through along its line but for some lands, folded by hand and welded up: for plate too
   * thick for the folder.
   */
  readonly slots?: SlotRow;
}

/**
 * A row of slots with round ends on the centre line of a bend, a land before, between and after
 * them.
 */
export interface SlotRow {
  /** No slot is longer, overall. */
  readonly longestMm: number;
  readonly landMm: number;
  readonly widthMm: number;
  /** The input that the land comes from. */
  readonly landInput?: string;
}

/**
 * A stretch of a panel's edge. `edge` is the index of the outline's piece; `from` and `to` are
 * measured along it from its start, mm, and default to the whole edge. The parent's `from` meets
 * the child's `to`, and both stretches have the same length.
 */
export interface FoldSide {
  readonly panel: string;
  readonly edge: number;
  /**
   * Of an edge that was given by its name. Where the panel has none of that name, or several,
   * `edge` is none of its pieces, and the part is none.
   */
  readonly called?: string;
  readonly from?: number;
  readonly to?: number;
}

/**
 * How two neighbouring flanges end. `open`: both are cut at the plane that halves the corner.
 * `butt`: the flange of fold `through` runs on to its mould line, the other is cut by its inside
 * face.
 */
export interface Corner {
  readonly folds: readonly [string, string];
  readonly style: 'open' | 'butt';
  readonly through?: string;
  readonly gapMm?: number;
}

/**
 * What is cut out where a fold ends inside metal or where two folds meet, so that the sheet does
 * not tear.
 */
export interface Relief {
  readonly shape: 'square' | 'round' | 'slit';
  /** Width of a notch; never less than `leastSlotMm`. A slit is as narrow as the cutter can cut. */
  readonly widthMm: number;
  /** The narrowest slot the cutter can cut. */
  readonly leastSlotMm: number;
}
