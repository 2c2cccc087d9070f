import { along, distance, dot, leftOf, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { Label, PictureItem } from '../../model/picture.ts';
import type { Line2 } from './ground.ts';
import { NARROW } from './line-types.ts';
import { line, ring } from './strokes.ts';
import { textWidthMm } from './text-width.ts';

/** A dimension as it is drawn: from foot to foot, its line between two ends, its text. */
export interface DimensionLine {
  readonly feet: readonly [Vec2, Vec2];
  /** Ends of the dimension line; the second lies in the direction of `way` from the first. */
  readonly ends: readonly [Vec2, Vec2];
  /** The way that its text reads, of length 1. */
  readonly way: Vec2;
  /** The middle of its base line is its place. */
  readonly text: Label;
}

export const TEXT_MM = 4;
/** Arrow heads of 15 degrees, filled (ISO 129-1, from memory). */
const ARROW_MM = 3;
const ARROW_HALF_MM = ARROW_MM * Math.tan((7.5 * Math.PI) / 180);
/** Extension lines begin a little off the part and end beyond the dimension line. */
const FOOT_GAP_MM = 0.8;
const BEYOND_MM = 1.5;
/** Distance of a text's base line from its dimension line, mm. */
const LIFT_MM = 0.9;
/** Distance of a text from the end of its dimension line, mm; larger where an arrow lies between. */
const BESIDE_MM = 2;
const BEHIND_ARROW_MM = 5;

/** A text that reads along a direction, the middle of its base line at a point. */
export const textAlong = (
  [x, y]: Vec2,
  text: string,
  sizeMm: number,
  isBold = false,
): ((at: Vec2) => Label) => {
  const angleDeg = (Math.atan2(y, x) * 180) / Math.PI;
  return (at) => ({
    kind: 'label',
    at,
    sizeMm,
    text,
    align: 'middle',
    angleDeg,
    ...(isBold && { isBold }),
  });
};

/**
 * A dimension with its text in the middle, over its line, or at either end where there is no room
 * between.
 */
export const dimensionChoices = (
  bare: Omit<DimensionLine, 'text'>,
  text: string,
  sizeMm: number = TEXT_MM,
  isBold = false,
): DimensionLine[] => {
  const {
    ends: [a, b],
    way,
  } = bare;
  const long = dot(sub(b, a), way);
  const half = textWidthMm(text, sizeMm, isBold) / 2;
  const written = textAlong(way, text, sizeMm, isBold);
  const place = (share: number): DimensionLine => ({
    ...bare,
    text: written(along(along(a, way, share), leftOf(way), LIFT_MM)),
  });
  if (long > 2 * half + 1.5) return [place(long / 2)];
  const off = half + (isNarrow(bare.ends) ? BEHIND_ARROW_MM : BESIDE_MM);
  return [place(long + off), place(-off)];
};

/** The dimension line as far as it is drawn, then its extension lines. */
export const dimensionLines = ({
  feet,
  ends,
  way,
  text: { at, text, sizeMm, isBold },
}: DimensionLine): [shaft: Line2, ...extensions: Line2[]] => {
  const [a, b] = ends;
  const long = distance(a, b);
  const start = isNarrow(ends) ? -ARROW_MM - 2 : 0;
  const half = textWidthMm(text, sizeMm, isBold) / 2;
  const middle = dot(sub(at, a), way);
  const from = Math.min(start, middle > long ? start : middle - half);
  const to = Math.max(long - start, middle > long ? middle + half : long - start);
  return [
    [along(a, way, from), along(a, way, to)],
    ...feet.map((foot, i) => extension(foot, ends[i] as Vec2)),
  ];
};

/** Arrows of so short a line point at it from outside. */
const isNarrow = ([a, b]: DimensionLine['ends']): boolean => distance(a, b) < 2 * ARROW_MM + 1;

const extension = (foot: Vec2, end: Vec2): Line2 => {
  const long = distance(foot, end);
  const out = unit(sub(end, foot));
  return [along(foot, out, Math.min(FOOT_GAP_MM, long / 2)), along(end, out, BEYOND_MM)];
};

/** What is drawn of a dimension; `lines` are its own, where some of them are drawn otherwise. */
export const dimensionItems = (
  dimension: DimensionLine,
  lines: readonly Line2[] = dimensionLines(dimension),
): PictureItem[] => {
  const { ends, way, text } = dimension;
  const side = isNarrow(ends) ? -1 : 1;
  return [
    ...lines.map((l) => line(...l, NARROW)),
    arrow(ends[0], way, side),
    arrow(ends[1], way, side === 1 ? -1 : 1),
    text,
  ];
};

/** A head with its tip at a point; its body lies `side` times along the way, a unit vector. */
export const arrow = (tip: Vec2, way: Vec2, side: 1 | -1): PictureItem => {
  const base = along(tip, way, side * ARROW_MM);
  const out = leftOf(way);
  return {
    kind: 'area',
    rims: [ring([tip, along(base, out, ARROW_HALF_MM), along(base, out, -ARROW_HALF_MM)])],
    fill: 0,
  };
};
