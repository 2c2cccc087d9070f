import type { Extents } from '../geometry/extents.ts';
import type { Piece } from '../geometry/piece.ts';
import type { Vec2 } from '../geometry/vec2.ts';

/**
 * A picture for paper: lines, areas and texts in the order they are painted. Millimetres, y up, its
 * lower left corner at the origin; what lies outside its size may be cut off. It is black on white:
 * shades and broken lines tell things apart.
 */
export interface Picture {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly items: readonly PictureItem[];
}

export type PictureItem = Curve | Area | Round | Label | Group;

/** A run of pieces, each starting where the one before it ends. */
export interface Curve {
  readonly kind: 'curve';
  readonly pieces: readonly Piece[];
  readonly stroke: Stroke;
}

/** The region inside an odd number of closed runs of pieces. */
export interface Area {
  readonly kind: 'area';
  readonly rims: readonly (readonly Piece[])[];
  /** Shade of the fill, 0 black, 1 white. */
  readonly fill?: number;
  readonly stroke?: Stroke;
}

/** A full circle. */
export interface Round {
  readonly kind: 'round';
  readonly centre: Vec2;
  readonly radiusMm: number;
  readonly fill?: number;
  readonly stroke?: Stroke;
}

/** One line of text; never mirrored. */
export interface Label {
  readonly kind: 'label';
  /** A point on the base line: the left end, the middle or the right end, as `align` says. */
  readonly at: Vec2;
  /** Height of the font, of which a capital takes about 0.72. */
  readonly sizeMm: number;
  readonly text: string;
  /** `left` when left out. */
  readonly align?: 'left' | 'middle' | 'right';
  readonly isBold?: boolean;
  /** Turn counter-clockwise about `at`; 0 when left out. */
  readonly angleDeg?: number;
}

/**
 * Items moved together so that their origin comes to `at`, and clipped to a box given in their own
 * coordinates.
 */
export interface Group {
  readonly kind: 'group';
  readonly at: Vec2;
  readonly clip?: Extents;
  readonly items: readonly PictureItem[];
}

export interface Stroke {
  readonly widthMm: number;
  /** Lengths of dash and gap in turn, mm; an unbroken line when left out. */
  readonly dashMm?: readonly number[];
  /** Shade of the line, 0 black, 1 white; black when left out. */
  readonly shade?: number;
}
