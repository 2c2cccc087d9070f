import { along, distance, dot, leftOf, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { PictureItem, Stroke } from '../../model/picture.ts';
import type { Line2, TextBox } from './sheet-room.ts';
import { line, ring } from './strokes.ts';
import { textWidthMm } from './text-width.ts';

/** A dimension as it is drawn: from foot to foot, its line between two ends, its text. */
export interface DimensionLine {
  readonly feet: readonly [Vec2, Vec2];
  /** Of the dimension line; the second lies in the direction of `way` from the first. */
  readonly ends: readonly [Vec2, Vec2];
  readonly way: Vec2;
  readonly text: TextBox;
}

export const TEXT_MM = 4;
/** Arrow heads of 15 degrees, filled (ISO 129-1, from memory). */
export const ARROW_MM = 3;
const ARROW_HALF_MM = ARROW_MM * Math.tan((7.5 * Math.PI) / 180);
/** Extension lines begin a little off the part and end beyond the dimension line. */
const FOOT_GAP_MM = 0.8;
const BEYOND_MM = 1.5;

const THIN: Stroke = { widthMm: 0.18 };

/** The dimension line as far as it is drawn, then its extension lines. */
export const dimensionLines = ({ feet, ends, way, text }: DimensionLine): Line2[] => {
  const [a, b] = ends;
  const long = distance(a, b);
  const isNarrow = long < 2 * ARROW_MM + 1;
  const start = isNarrow ? -ARROW_MM - 2 : 0;
  const half = textWidthMm(text.text, text.sizeMm) / 2;
  const middle = dot(sub(text.at, a), way);
  const from = Math.min(start, middle > long ? start : middle - half);
  const to = Math.max(long - start, middle > long ? middle + half : long - start);
  return [
    { from: along(a, way, from), to: along(a, way, to) },
    ...feet.map((foot, i) => extension(foot, ends[i] as Vec2)),
  ];
};

const extension = (foot: Vec2, end: Vec2): Line2 => {
  const long = distance(foot, end);
  const out = unit(sub(end, foot));
  return {
    from: along(foot, out, Math.min(FOOT_GAP_MM, long / 2)),
    to: along(end, out, BEYOND_MM),
  };
};

export const dimensionItems = (dimension: DimensionLine): PictureItem[] => {
  const {
    ends: [a, b],
    way,
    text,
  } = dimension;
  const isNarrow = distance(a, b) < 2 * ARROW_MM + 1;
  return [
    ...dimensionLines(dimension).map((l) => line(l.from, l.to, THIN)),
    arrow(a, way, isNarrow ? -1 : 1),
    arrow(b, way, isNarrow ? 1 : -1),
    textItem(text),
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

export const textItem = ({ text, sizeMm, at, way }: TextBox): PictureItem => ({
  kind: 'label',
  at,
  sizeMm,
  text,
  align: 'middle',
  angleDeg: (Math.atan2(way[1], way[0]) * 180) / Math.PI,
});
