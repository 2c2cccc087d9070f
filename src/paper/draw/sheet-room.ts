import { type Extents, pointExtents } from '../../geometry/extents.ts';
import { stretchInBox } from '../../geometry/stretch-in-box.ts';
import { add, cross, dot, leftOf, scale, sub, type Vec2 } from '../../geometry/vec2.ts';
import { textWidthMm } from './text-width.ts';
import { NEARLY_PARALLEL_SINE } from '../../geometry/tolerance.ts';

/** A line of text on a sheet, its box turned with it. */
export interface TextBox {
  readonly text: string;
  readonly sizeMm: number;
  /** The middle of its base line. */
  readonly at: Vec2;
  /** The way it reads; length 1. */
  readonly way: Vec2;
}

export interface Line2 {
  readonly from: Vec2;
  readonly to: Vec2;
}

/** Clear paper round a text, mm. */
const CLEAR_MM = 0.7;

/** What is taken on a sheet of paper: lines, and texts that nothing may run through. */
export class SheetRoom {
  readonly #lines: Line2[] = [];
  readonly #texts: TextBox[] = [];

  takeLine(...lines: readonly Line2[]): void {
    this.#lines.push(...lines);
  }

  takeText(...texts: readonly TextBox[]): void {
    this.#texts.push(...texts);
  }

  /** Whether a text meets no line and no other text, and lies within a box. */
  isFreeText(text: TextBox, within: Extents): boolean {
    const points = corners(text);
    if (!points.every((p) => isWithin(p, within))) return false;
    const box = pointExtents(points) as Extents;
    return (
      this.#lines.every((l) => !isNear(l, box) || !runsThrough(l, text)) &&
      this.#texts.every((other) => !doOverlap(text, other))
    );
  }

  /** Whether a line runs through no text. */
  isFreeLine(line: Line2, within: Extents): boolean {
    return (
      isWithin(line.from, within) &&
      isWithin(line.to, within) &&
      this.#texts.every((text) => !runsThrough(line, text))
    );
  }

  /** Whether a line crosses or runs along another one. */
  crosses(line: Line2): boolean {
    return this.#lines.some((other) => doCross(line, other));
  }
}

/** Whether a line may meet what lies in a box: a quick look that leaves the exact one to few. */
const isNear = ({ from, to }: Line2, { minX, minY, maxX, maxY }: Extents): boolean =>
  Math.max(from[0], to[0]) >= minX &&
  Math.min(from[0], to[0]) <= maxX &&
  Math.max(from[1], to[1]) >= minY &&
  Math.min(from[1], to[1]) <= maxY;

const isWithin = ([x, y]: Vec2, { minX, minY, maxX, maxY }: Extents): boolean =>
  x >= minX && x <= maxX && y >= minY && y <= maxY;

/** From the base line down and up, and half across, with clear paper round it. */
const reach = ({ text, sizeMm }: TextBox): Extents => {
  const half = textWidthMm(text, sizeMm) / 2 + CLEAR_MM;
  return {
    minX: -half,
    maxX: half,
    minY: -0.22 * sizeMm - CLEAR_MM,
    maxY: 0.74 * sizeMm + CLEAR_MM,
  };
};

const local = ({ at, way }: TextBox, p: Vec2): Vec2 => [
  dot(sub(p, at), way),
  dot(sub(p, at), leftOf(way)),
];

const corners = (text: TextBox): Vec2[] => {
  const { minX, minY, maxX, maxY } = reach(text);
  const place = (x: number, y: number): Vec2 =>
    add(text.at, add(scale(text.way, x), scale(leftOf(text.way), y)));
  return [place(minX, minY), place(maxX, minY), place(maxX, maxY), place(minX, maxY)];
};

const runsThrough = ({ from, to }: Line2, text: TextBox): boolean => {
  const stretch = stretchInBox(reach(text), local(text, from), local(text, to));
  return stretch !== undefined && stretch[0] < stretch[1];
};

const doOverlap = (a: TextBox, b: TextBox): boolean => {
  const sides = (t: TextBox): Line2[] =>
    corners(t).map((from, i, all) => ({ from, to: all[(i + 1) % 4] as Vec2 }));
  return sides(a).some((l) => runsThrough(l, b)) || sides(b).some((l) => runsThrough(l, a));
};

/** Nearer than this, mm, a line runs along another. */
const ALONG_MM = 0.4;

const doCross = (a: Line2, b: Line2): boolean => {
  const [u, v] = [sub(a.to, a.from), sub(b.to, b.from)];
  const turn = cross(u, v);
  const size = Math.hypot(...u) * Math.hypot(...v);
  if (size === 0) return false;
  if (Math.abs(turn) < NEARLY_PARALLEL_SINE * size) return runsAlong(a, b);
  const w = sub(b.from, a.from);
  const [s, t] = [cross(w, v) / turn, cross(w, u) / turn];
  return s > AT_END && s < 1 - AT_END && t > AT_END && t < 1 - AT_END;
};

const runsAlong = (a: Line2, b: Line2): boolean => {
  const long = Math.hypot(...sub(a.to, a.from));
  const way = scale(sub(a.to, a.from), 1 / long);
  if (Math.abs(cross(way, sub(b.from, a.from))) > ALONG_MM) return false;
  const [s, t] = [dot(way, sub(b.from, a.from)), dot(way, sub(b.to, a.from))].toSorted(
    (p, q) => p - q,
  ) as [number, number];
  return Math.min(t, long) - Math.max(s, 0) > ALONG_MM;
};

/** Lines that meet within this share of an end do not cross: one ends on the other. */
const AT_END = 1e-6;
