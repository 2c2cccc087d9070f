import type { MadeFile } from './made-file.ts';

/** A bend as the table of `make --json` has it. */
export interface AskedBend {
  readonly id: string;
  readonly angleDeg: number;
  readonly direction: 'up' | 'down';
  readonly insideRadiusMm: number;
  readonly kFactor: number;
  readonly allowanceMm: number;
  /** Of a teardrop hem its depth; not needed to fold the blank up. */
  readonly teardropMm?: number | undefined;
  readonly centreLine: readonly [Point, Point];
}

export type Point = readonly [x: number, y: number];

/** What must be known to fold a blank up. */
export interface AskedFolds {
  readonly thicknessMm: number;
  /** Which faces lie on the mould lines. */
  readonly measure: 'outside' | 'inside';
}

/**
 * What of a blank is measured, so that it can be found in a file again: all points are coordinates
 * of the blank as it was made. `of` is the place of a hole in `cut.holes`, or -1 for the outline.
 */
export type Place =
  /** A straight cut edge. */
  | {
      readonly kind: 'edge';
      readonly panel: string;
      readonly of: number;
      readonly from: Point;
      readonly to: Point;
    }
  /**
   * Where the faces of two panels meet: those that the whole part is measured by, unless it says
   * which.
   */
  | {
      readonly kind: 'mould';
      readonly panel: string;
      readonly fold: string;
      readonly measure?: 'outside' | 'inside' | undefined;
    }
  /** A face of a panel of the folded part, so far over its lower one. */
  | { readonly kind: 'face'; readonly panel: string; readonly heightMm: number }
  /** The middle of a hole: of its area, if it is not round. */
  | { readonly kind: 'centre'; readonly panel: string; readonly of: number }
  /** The middle of a hole that is marked, not cut. */
  | { readonly kind: 'mark'; readonly panel: string; readonly at: Point }
  | { readonly kind: 'corner'; readonly panel: string; readonly at: Point }
  /** Of a full circle. */
  | { readonly kind: 'diameter'; readonly of: number }
  /** Of the arc that passes a point. */
  | { readonly kind: 'radius'; readonly of: number; readonly at: Point }
  /** From end to end of a hole: along its edge from `from` to `to`, or across that. */
  | {
      readonly kind: 'length' | 'width';
      readonly of: number;
      readonly from: Point;
      readonly to: Point;
    }
  /** Greatest deviation of a fold line, sideways, from where it was drawn. */
  | { readonly kind: 'line'; readonly fold: string }
  /** Greatest deviation of the cut lines from those that were made. */
  | { readonly kind: 'cut'; readonly of: number };

/** A length that was asked for: of one place, or between two. */
export interface AskedMeasure {
  /** As the maker would say it: `leg A`, `hole holesA 1 to hole holesB 1`. */
  readonly name: string;
  readonly askedMm: number;
  readonly between: readonly Place[];
  /** Of points in space: so far over the lower face of each panel. */
  readonly heightMm?: number | undefined;
  /** More than was asked is right too. */
  readonly atLeast?: true | undefined;
  /**
   * The input that it is on the finished part, or the sum of some; absent of what follows from how
   * the part was built.
   */
  readonly input?: string | undefined;
}

/**
 * An angle between the faces of two panels on the side to which they are folded: 90 for a square
 * corner, 180 for no fold.
 */
export interface AskedAngle {
  readonly name: string;
  readonly askedDeg: number;
  /** The fold between them; `null` of two panels that are no neighbours. */
  readonly fold: string | null;
  readonly panels?: readonly [string, string] | undefined;
  readonly input?: string | undefined;
}

/** All that a proof measures a file against; kept in the JSON of `make`. */
export interface Asked extends AskedFolds {
  /** Width of the cut that the file allows for: its lines lie half of it beside the metal. */
  readonly kerfMm: number;
  /** A point of each panel's metal, well inside. */
  readonly panels: readonly { readonly name: string; readonly at: Point }[];
  /** The edges of the metal, as x, y and bulge of each corner. */
  readonly cut: {
    readonly outline: readonly CutVertex[];
    readonly holes: readonly (readonly CutVertex[])[];
  };
  /**
   * Absent where it was not kept: then nothing is known of what the file has lost beside its lines.
   */
  readonly file?: MadeFile;
  readonly bends: readonly AskedBend[];
  readonly measures: readonly AskedMeasure[];
  readonly angles: readonly AskedAngle[];
}

export type CutVertex = readonly [x: number, y: number, bulge: number];
