import type { CommonValues } from '../forms/common.ts';
import type { BendRule } from '../model/bend-rule.ts';
import type { Direction } from '../model/part.ts';
import type { Figures } from './figures.ts';
import type { GivenBaseMap, GivenCornerMap, GivenFlangeMap } from './given.ts';
import type { Shape } from './shape.ts';

/** A blank as it is described, its lines taken apart. */
export interface GivenPiece {
  readonly base: GivenBaseMap;
  readonly flanges: readonly GivenFlangeMap[];
  readonly corners: readonly GivenCornerMap[];
  /** All panels in the order in which the part counts them, where that is another. */
  readonly order?: readonly string[] | undefined;
  /** Before the paths of its inputs: `pieces[1].`, or nothing. */
  readonly at: string;
  /** The shape of a base that takes it from another piece; nothing where that was told. */
  readonly fitted?: (() => Shape | undefined) | undefined;
}

/** A flange with all its figures worked out, mm and degrees. */
export interface Flange {
  readonly id: string;
  /** `flanges[2]`. */
  readonly at: string;
  readonly given: GivenFlangeMap;
  readonly parent: string;
  readonly edge: string;
  /**
   * The stretch of the edge that it takes, along the edge as figures count there; nothing for the
   * whole edge.
   */
  readonly stretch: Stretch | undefined;
  readonly shape: Shape;
  /** The edge of its own that is folded, and the stretch of that; nothing for all of it. */
  readonly foot: string;
  readonly footStretch: Stretch | undefined;
  readonly angleDeg: number;
  readonly direction: Direction;
  readonly radiusMm: number;
  readonly hasOwnRadius: boolean;
  readonly rule: BendRule | undefined;
  readonly joggleMm: number | undefined;
}

export type Stretch = readonly [from: number, to: number];

/** A blank with all its figures worked out. */
export interface Piece {
  readonly base: Shape;
  readonly flanges: readonly Flange[];
  readonly given: GivenPiece;
}

/** What a path and a name in messages are made of. */
export interface Working {
  readonly figures: Figures;
  readonly given: GivenPiece;
  readonly values: CommonValues;
}

/** What is known where a flange is worked out: its map and path, and the edge that it grows on. */
export interface Spot {
  readonly figures: Figures;
  readonly values: CommonValues;
  readonly given: GivenFlangeMap;
  readonly at: string;
  readonly edgeMm: number;
  /** The edge in messages: `base top`. */
  readonly edge: string;
}
