import type { Loop } from '../geometry/loop.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { BendRule } from './bend-rule.ts';
import type { Formed } from './formed.ts';
import type { HoleUse } from './hole-use.ts';
import type { Rolled } from './rolled.ts';
import type { Wish } from './wish.ts';

/**
 * A folded part: flat panels joined by folds into a tree. It has a thickness but no material.
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
  /** What the inputs of its family mean on the part; the proof measures that. */
  readonly wishes?: readonly Wish[];
  /** The panel that is rolled when all folds are made. */
  readonly rolled?: Rolled;
}

export type Measure = 'outside' | 'inside';

/** A flat piece of the part. */
export interface Panel {
  /** The name that the maker would use: `leg A`, `web`. It is unique within the part. */
  readonly id: string;
  /**
   * Counter-clockwise, on mould lines: an edge without a fold is where the metal ends; an edge with
   * a fold is where the outside faces (inside faces for `measure: 'inside'`) of the two panels
   * would meet if the bend had no radius; over 90 degrees, the outermost tangent of the bend, as
   * DIN 6935 measures.
   */
  readonly outline: Loop;
  readonly cutouts: readonly Cutout[];
  /** Louvres and beads, formed out of its plane. */
  readonly formed?: readonly Formed[];
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
  /** How messages call it: the input it came from, and which of its holes it is: `holesA 2`. */
  readonly from: string;
  /** Names of the inputs that it came from; present on every part that was made from inputs. */
  readonly inputs?: readonly string[];
  /**
   * Which entry of its input it came from, counted from 1, where the input gives several: `2`. In a
   * pattern, `2.1` is the first hole of the second entry.
   */
  readonly number?: string;
  readonly use?: HoleUse;
  /** The figures that place it, where it was asked for by such figures. */
  readonly figures?: readonly PlaceFigure[];
  /** The panel of the same part whose tooth stands in it, when the part is folded. */
  readonly takes?: string;
  /** Its centre if the two figures that place it were taken in the other order. */
  readonly otherWay?: Vec2;
}

/** A figure by which a hole was placed. */
export interface PlaceFigure {
  /** The words written before the figure, which say what it is measured from: `from fold`, `up`. */
  readonly from: string;
  readonly mm: number;
  /** Direction in which the hole moves when the figure grows, a unit vector. */
  readonly towards: Vec2;
}

/** The slots of a panel in which other panels of its part stand: there is no metal for them to meet. */
export const slotsTaken = (panel: Panel | undefined): readonly Loop[] =>
  (panel?.cutouts ?? []).flatMap((cutout) =>
    cutout.kind === 'loop' && cutout.takes !== undefined ? [cutout.loop] : [],
  );

/** The panels that meet others about the middle of the sheet, by their names. */
export const facetsOf = ({ folds }: Pick<Part, 'folds'>): ReadonlySet<string> =>
  new Set(
    folds.flatMap(({ midSurface, parent, child }) =>
      midSurface === true ? [parent.panel, child.panel] : [],
    ),
  );

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
   * Depth of a teardrop hem of 180 degrees: from its edge to the outermost point of its loop,
   * outside, mm. Its leg is drawn as that of an open hem of the same depth; once it is made, its
   * edge lies on the sheet.
   */
  readonly teardropMm?: number;
  /** The fold's own rule, where it differs from the rule of the whole part. */
  readonly rule?: BendRule;
  /** It hugs what it holds: it is formed round a former or in rolls, whatever its radius. */
  readonly rolled?: true;
  /**
   * One of many small bends that run into a common point, as on a transition. Both outlines are
   * given on the middle of the sheet and end at the line in which they meet there; the fold turns
   * about that line and takes nothing off either panel. With the neutral line in mid-sheet and R
   * its radius, a real bend of angle A (radians) is R (2 tan(A/2) - A) shorter, about R A^3 / 12:
   * some hundredths of a millimetre at 30 degrees.
   */
  readonly midSurface?: true;
  /**
   * The input that gave this fold, where one of its own did: its name, what it is called (`fold
   * line 2 of folds`), and whether its radius was given there.
   */
  readonly asked?: {
    readonly input: string;
    readonly called: string;
    readonly hasOwnRadius?: true;
  };
  /**
   * Slots cut along its line with lands between them, for plate too thick for the folder: it is
   * folded by hand and welded up.
   */
  readonly slots?: SlotRow;
}

/**
 * A row of slots with round ends on the centre line of a bend, with a land before, between and
 * after them.
 */
export interface SlotRow {
  /** Greatest overall length of a slot. */
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
   * Name by which the edge was given. Where the panel has no edge or several edges of that name,
   * `edge` is no piece of its outline, and the part cannot be built.
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
