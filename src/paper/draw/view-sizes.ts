import {
  add,
  along,
  distance,
  dot,
  leftOf,
  middle,
  sub,
  unit,
  type Vec2,
} from '../../geometry/vec2.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import type { Label, PictureItem, Stroke } from '../../model/picture.ts';
import { type Camera, seen } from './camera.ts';
import type { Placing } from './folded-view.ts';
import { LEAST_LINE_MM } from './line-types.ts';
import { textWidthMm } from './text-width.ts';
import { readableWay } from './readable.ts';

/**
 * From the box round the part to the line of a size, and where the lines that lead there begin and
 * end, mm.
 */
const OFFSET_MM = 7;
const GAP_MM = 1;
const BEYOND_MM = 1.2;
const TICK_MM = 1.1;
const TEXT_MM = 4;
/** Between a text and the end of a line. */
const PAST_LINE_MM = 0.5;

const THIN: Stroke = { widthMm: LEAST_LINE_MM };
const TICK: Stroke = { widthMm: 0.35 };

/** How far a text that stands beside the line of a size reaches from the part, mm. */
export const besideMm = (text: string): number =>
  OFFSET_MM + 2 * TICK_MM + textWidthMm(text, TEXT_MM);

/** The corners of the box round a part that its sizes lead to, as they are seen. */
export interface SizeCorners {
  /** The nearest on the ground, and from there along x and along y. */
  readonly near: Vec3;
  readonly alongX: Vec3;
  readonly alongY: Vec3;
  /**
   * The corner on the left of those two, its other sides pointing away from the part, and the one
   * above it.
   */
  readonly foot: Vec3;
  readonly top: Vec3;
}

export const sizeCorners = ([low, high]: readonly [Vec3, Vec3], camera: Camera): SizeCorners => {
  const [nearX, farX] = camera.toward[0] > 0 ? [high[0], low[0]] : [low[0], high[0]];
  const [nearY, farY] = camera.toward[1] > 0 ? [high[1], low[1]] : [low[1], high[1]];
  const corner = (x: number, y: number, z = low[2]): Vec3 => seen(camera, [x, y, z]);
  const [alongX, alongY] = [corner(farX, nearY), corner(nearX, farY)];
  const isXLeft = alongX[0] < alongY[0];
  return {
    near: corner(nearX, nearY),
    alongX,
    alongY,
    foot: isXLeft ? alongX : alongY,
    top: isXLeft ? corner(farX, nearY, high[2]) : corner(nearX, farY, high[2]),
  };
};

/**
 * The three overall sizes on lines beside the box round the part: two along its nearer sides on the
 * ground, the height at its left.
 */
export const sizeLines = (
  corners: SizeCorners,
  { at }: Placing,
  texts: readonly [string, string, string],
): PictureItem[] => {
  const [near, alongX, alongY, foot, top] = [
    corners.near,
    corners.alongX,
    corners.alongY,
    corners.foot,
    corners.top,
  ].map(at) as [Vec2, Vec2, Vec2, Vec2, Vec2];
  return [
    ...sizeLine(near, alongX, unit(sub(near, alongY)), texts[0]),
    ...sizeLine(near, alongY, unit(sub(near, alongX)), texts[1]),
    ...sizeLine(foot, top, unit(sub(foot, near)), texts[2]),
  ];
};

/**
 * A line between two points, moved outwards, with ticks at its ends and its text on the outer side.
 */
const sizeLine = (from: Vec2, to: Vec2, out: Vec2, text: string): PictureItem[] => {
  const [a, b] = [along(from, out, OFFSET_MM), along(to, out, OFFSET_MM)];
  const line = (p: Vec2, q: Vec2, stroke: Stroke): PictureItem => ({
    kind: 'curve',
    pieces: [{ from: p, to: q, bulge: 0 }],
    stroke,
  });
  const leads = [from, to].map((p) => [
    along(p, out, GAP_MM),
    along(p, out, OFFSET_MM + BEYOND_MM),
  ]);
  const way = unit(sub(b, a));
  const slant = unit(add(way, leftOf(way)));
  const ticks = [a, b].map((p) => [along(p, slant, -TICK_MM), along(p, slant, TICK_MM)]);
  const drawn = (lines: readonly Vec2[][], stroke: Stroke): PictureItem[] =>
    lines.map(([p, q]) => line(p as Vec2, q as Vec2, stroke));
  return [
    ...drawn(leads, THIN),
    line(a, b, THIN),
    ...drawn(ticks, TICK),
    distance(a, b) < textWidthMm(text, TEXT_MM) + 2 * TICK_MM
      ? besideText(middle(a, b), out, text, [
          ...leads.map(([, end]) => end as Vec2),
          ...ticks.flat(),
        ])
      : sizeText(middle(a, b), way, out, text),
  ];
};

/**
 * Beside a line that is shorter than its text; past the ends of its lines where one of them would
 * come to lie on the text.
 */
const besideText = (at: Vec2, out: Vec2, text: string, ends: readonly Vec2[]): Label => {
  const [x, middleY] = along(at, out, 2 * TICK_MM);
  const y = middleY - 0.36 * TEXT_MM;
  const side = out[0] < 0 ? -1 : 1;
  const inTheWay = ends.filter(
    ([px, py]) =>
      (px - x) * side > -PAST_LINE_MM &&
      (px - x) * side < textWidthMm(text, TEXT_MM) &&
      py > y - PAST_LINE_MM &&
      py < y + 0.72 * TEXT_MM + PAST_LINE_MM,
  );
  const past = inTheWay.map(([px]) => px + side * 2 * PAST_LINE_MM);
  return {
    kind: 'label',
    at: [side < 0 ? Math.min(x, ...past) : Math.max(x, ...past), y],
    sizeMm: TEXT_MM,
    text,
    align: side < 0 ? 'right' : 'left',
  };
};

/** Read from below or from the right, clear of its line on the side away from the part. */
const sizeText = (at: Vec2, way: Vec2, out: Vec2, text: string): Label => {
  const reading = readableWay(way);
  const rise = leftOf(reading);
  const clear = dot(rise, out) > 0 ? GAP_MM : -GAP_MM - 0.72 * TEXT_MM;
  return {
    kind: 'label',
    at: along(at, rise, clear),
    sizeMm: TEXT_MM,
    text,
    align: 'middle',
    angleDeg: (Math.atan2(reading[1], reading[0]) * 180) / Math.PI,
  };
};
