import type { RolledMiddle } from '../model/wish.ts';
import type { MadeFile } from './made-file.ts';

/** A bend, as the table of `make --json` lists it. */
export interface AskedBend {
  readonly id: string;
  readonly angleDeg: number;
  readonly direction: 'up' | 'down';
  readonly insideRadiusMm: number;
  readonly kFactor: number;
  readonly allowanceMm: number;
  /** Depth of a teardrop hem; folding the blank up does not need it. */
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
 * A place on a blank that is measured, described so that it can be found in a file again: all
 * points are coordinates of the blank as it was made. `of` is the index of a hole in `cut.holes`,
 * or -1 for the outline.
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
   * Line where the faces of two panels meet: the faces that the whole part is measured by, unless
   * it says which.
   */
  | {
      readonly kind: 'mould';
      readonly panel: string;
      readonly fold: string;
      readonly measure?: 'outside' | 'inside' | undefined;
    }
  /** A face of a panel of the folded part, given by its height over the lower face. */
  | { readonly kind: 'face'; readonly panel: string; readonly heightMm: number }
  /** The centre of a hole: of its area, if it is not round. */
  | { readonly kind: 'centre'; readonly panel: string; readonly of: number }
  /** The centre of a hole that is marked, not cut. */
  | { readonly kind: 'mark'; readonly panel: string; readonly at: Point }
  | { readonly kind: 'corner'; readonly panel: string; readonly at: Point }
  /** Diameter of a full circle. */
  | { readonly kind: 'diameter'; readonly of: number }
  /** Radius of the arc that passes a point. */
  | { readonly kind: 'radius'; readonly of: number; readonly at: Point }
  /** Size of a hole from end to end: along its edge from `from` to `to`, or across that. */
  | {
      readonly kind: 'length' | 'width';
      readonly of: number;
      readonly from: Point;
      readonly to: Point;
    }
  /** Greatest deviation of a fold line, sideways, from where it was drawn. */
  | { readonly kind: 'line'; readonly fold: string }
  /** Greatest deviation of the cut lines from those that were made. */
  | { readonly kind: 'cut'; readonly of: number }
  | RolledPlace;

/**
 * Two corners of the outline of a rolled wall, as they lie when it is rolled up: how far `apart`
 * they are; or how far what lies between them, counter-clockwise, is off a `plane` at most.
 */
export type RolledPlace = {
  readonly kind: 'rolled';
  readonly frame: RolledFrame;
  readonly shape: RolledMiddle;
  readonly from: Point;
  readonly to: Point;
} & (
  | { readonly what: 'apart' }
  | { readonly what: 'plane'; readonly at: SpacePoint; readonly normal: SpacePoint }
);

export type SpacePoint = readonly [x: number, y: number, z: number];

/** How a rolled wall lies on the blank: a point of it, and two directions square to each other. */
export interface RolledFrame {
  /** A point on the line at 0 degrees of a cylinder; of a cone, where its apex lies. */
  readonly at: Point;
  /** The way in which it goes round. */
  readonly round: Point;
  /** Along the axis; of a cone, from the apex along its first line. */
  readonly axis: Point;
}

/** What is said of holes, beside a name that calls them by their inputs. */
export interface OfHoles {
  /** The holes that it is about, as the papers call them: `h1`. */
  readonly holes?: readonly string[] | undefined;
  /** The name for a person, with theirs in it: `h1 (holesA 1) to h2 (holesB 1)`. */
  readonly called?: string | undefined;
}

/** A length that was asked for, of one place or between two. */
export interface AskedMeasure extends OfHoles {
  /** The name that the maker would use: `leg A`, `hole holesA 1 to hole holesB 1`. */
  readonly name: string;
  readonly askedMm: number;
  readonly between: readonly Place[];
  /** Height of the points in space over the lower face of each panel. */
  readonly heightMm?: number | undefined;
  /** Whether a larger value is right too. */
  readonly atLeast?: true | undefined;
  /**
   * The input, or the sum of inputs, that the length is on the finished part; absent where it
   * follows only from how the part was built.
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
  /** The fold between them; `null` for two panels that are not neighbours. */
  readonly fold: string | null;
  readonly panels?: readonly [string, string] | undefined;
  readonly input?: string | undefined;
}

/** Everything that a proof measures a file against; kept in the JSON of `make`. */
export interface Asked extends AskedFolds {
  /** Width of the cut that the file allows for: its lines lie half of it outside the metal. */
  readonly kerfMm: number;
  /** A point in each panel's metal, well inside. */
  readonly panels: readonly { readonly name: string; readonly at: Point }[];
  /** The edges of the metal, as x, y and bulge of each corner. */
  readonly cut: {
    readonly outline: readonly CutVertex[];
    readonly holes: readonly (readonly CutVertex[])[];
  };
  /**
   * What the file held besides its lines. Where that was not kept, it is absent, and a loss cannot
   * be told.
   */
  readonly file?: MadeFile;
  readonly bends: readonly AskedBend[];
  readonly measures: readonly AskedMeasure[];
  readonly angles: readonly AskedAngle[];
}

export type CutVertex = readonly [x: number, y: number, bulge: number];
