import type { Vec2 } from '../geometry/vec2.ts';
import type { Choices, Task } from './layout.ts';
import { type Shape, shapeOf } from './shapes.ts';
import { simplifiedOutward } from './simplify.ts';

/** One kind of item of a strip, any number of them. */
export interface StripItem {
  readonly id: number;
  readonly demand: number;
  readonly turnsDeg: readonly number[];
  /** Its outline, whichever way round. */
  readonly polygon: readonly Vec2[];
}

/** An open strip of some width, and what is to be laid on as little of its length as can be. */
export interface Strip {
  readonly width: number;
  readonly items: readonly StripItem[];
}

/** The strip as a task. */
export interface StripTask {
  readonly task: Task;
  /** Of each thing the number of its item. */
  readonly itemOf: readonly number[];
}

/** Outlines with more corners than this are made simpler before they are laid. */
const MANY_CORNERS = 40;

/** How far an outline may grow by that, as shares of the strip's width: as little as will do. */
const SIMPLER_SHARES = [1e-5, 3e-5, 1e-4, 3e-4, 1e-3];

const simpleEnough = (ring: readonly Vec2[], width: number): readonly Vec2[] => {
  if (ring.length <= MANY_CORNERS) return ring;
  const tried = SIMPLER_SHARES.map((share) => () => simplifiedOutward(ring, share * width));
  let simple = ring;
  for (const simplify of tried) {
    simple = simplify();
    if (simple.length <= MANY_CORNERS) break;
  }
  return simple;
};

/** Area inside a polygon, less than 0 where it runs clockwise. */
export const signedArea = (polygon: readonly Vec2[]): number =>
  polygon.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = polygon[(i + 1) % polygon.length] as Vec2;
    return sum + (x * nextY - nextX * y) / 2;
  }, 0);

export const areaOfItems = ({ items }: Strip): number =>
  items.reduce((sum, item) => sum + item.demand * Math.abs(signedArea(item.polygon)), 0);

/** The strip as the search takes it. Items of the same outline share its shapes. */
export const stripTask = (strip: Strip): StripTask => {
  const shapes: Shape[] = [];
  const known = new Map<string, number>();
  const forms = new Map<string, number>();
  const shapeNumber = (polygon: readonly Vec2[], turnDeg: number): number => {
    const text = JSON.stringify(polygon);
    const form = forms.get(text) ?? forms.size;
    forms.set(text, form);
    const key = `${form} ${turnDeg}`;
    const old = known.get(key);
    if (old !== undefined) return old;
    known.set(key, shapes.length);
    return shapes.push(shapeOf({ outer: polygon, holes: [] }, form, turnDeg)) - 1;
  };
  const things = strip.items.flatMap((item, n) => {
    const ring = signedArea(item.polygon) < 0 ? item.polygon.toReversed() : item.polygon;
    const outline = simpleEnough(ring, strip.width);
    const as = item.turnsDeg.map((deg) => shapeNumber(outline, deg));
    const choices = [as];
    return Array.from({ length: item.demand }, () => ({ n, as: choices }));
  });
  return {
    task: {
      shapes,
      items: things.map(({ as }) => as),
      sheets: [{ kind: 0, length: lengthOfAll(shapes, things), width: strip.width, fixed: [] }],
    },
    itemOf: things.map(({ n }) => n),
  };
};

/** More than a strip needs on which all things lie one behind the other. */
const lengthOfAll = (
  shapes: readonly Shape[],
  things: readonly { readonly as: Choices }[],
): number =>
  things.reduce((sum, { as }) => {
    const { minX, maxX } = shapes[as[0]?.[0] as number] as Shape;
    return sum + 2 * (maxX - minX);
  }, 1);
