import type { Extents } from '../geometry/extents.ts';
import type { Piece } from '../geometry/piece.ts';
import type { Vec2 } from '../geometry/vec2.ts';

/**
 * A picture for paper: lines, areas and texts in the order they are painted. Millimetres, y up, its
 * lower left corner at the origin; what lies outside its size may be cut off. Black on white:
 * shades and broken lines tell things apart.
 */
export interface Picture {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly items: readonly PictureItem[];
}

export type PictureItem = Curve | Area | Round | Label | Group;

/** Pieces that follow each other, each from where the one before it ends. */
export interface Curve {
  readonly kind: 'curve';
  readonly pieces: readonly Piece[];
  readonly stroke: Stroke;
}

/** What lies inside an odd number of closed runs of pieces. */
export interface Area {
  readonly kind: 'area';
  readonly rims: readonly (readonly Piece[])[];
  /** 0 black, 1 white. */
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
  /** On the base line: the left end, the middle or the right end, as `align` says. */
  readonly at: Vec2;
  /** Height of the font, of which a capital takes about 0.72. */
  readonly sizeMm: number;
  readonly text: string;
  /** Left when left out. */
  readonly align?: 'left' | 'middle' | 'right';
  readonly isBold?: boolean;
  /** Counter-clockwise about `at`; 0 when left out. */
  readonly angleDeg?: number;
}

/**
 * Things moved together, their origin to `at`, and cut off at a box given in their own coordinates.
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
  /** 0 black, 1 white; black when left out. */
  readonly shade?: number;
}
