import {
  type Choices,
  lay,
  type Layout,
  overlapWith,
  roomFor,
  shapesOn,
  type Sheet,
} from './layout.ts';
import { EDGE } from './no-fit.ts';
import type { Shape } from './shapes.ts';

/** Area of the box round an item as it lies, or as it may lie first. */
export const boxArea = ({ task, shape, sheet }: Layout, i: number): number => {
  const as = (sheet[i] as number) < 0 ? firstShape(task.items[i] as Choices) : shape[i];
  const { minX, minY, maxX, maxY } = task.shapes[as as number] as Shape;
  return (maxX - minX) * (maxY - minY);
};

const firstShape = (choices: Choices): number | undefined => choices.find((c) => c.length > 0)?.[0];

/** The numbers of all items, the largest first. */
export const bySize = (layout: Layout): number[] => {
  const areas = Array.from({ length: layout.count }, (_, i) => boxArea(layout, i));
  return areas.map((_, i) => i).sort((a, b) => (areas[b] as number) - (areas[a] as number));
};

interface Spot {
  readonly shape: number;
  readonly x: number;
  readonly y: number;
  /** Where the item ends along the sheet. */
  readonly end: number;
}

/**
 * Lays each item where it ends farthest to the left, in the order given, on the first of some sheets
 * that takes it: at corners of no-fit polygons, and where these are level with the edges. Items of a
 * group come onto one sheet. Gives the numbers of those that no sheet takes. Every item asks
 * `mayGoOn` first, and is left where the answer is no.
 */
export const layGreedily = (
  layout: Layout,
  order: readonly number[],
  sheets: readonly number[],
  mayGoOn: () => boolean = () => true,
): number[] => {
  const filling: Filling = { layout, ends: new Map(), full: new Set() };
  const left: number[] = [];
  for (const items of inGroups(layout, order)) {
    const isLaid =
      mayGoOn() && worthTrying(layout, sheets).some((k) => layAllOn(filling, items, k));
    if (!isLaid) left.push(...items);
  }
  return left;
};

/** Of the empty sheets of a kind the first one: where that does not take an item, none does. */
const worthTrying = ({ on, task }: Layout, sheets: readonly number[]): number[] => {
  const isTried = new Set<number>();
  return sheets.filter((k) => {
    const { kind, fixed } = task.sheets[k] as Sheet;
    if ((on[k] as readonly number[]).length > fixed.length) return true;
    return isTried.has(kind) ? false : isTried.add(kind);
  });
};

/** What is known of sheets that only ever get fuller. */
interface Filling {
  readonly layout: Layout;
  /** By shape and sheet where the last one of it came to end: no other ends farther to the left. */
  readonly ends: Map<string, number>;
  /** Kinds of items and sheets that have no more room for one. */
  readonly full: Set<string>;
}

/** Items of a group follow its first one. */
const inGroups = ({ task: { groups } }: Layout, order: readonly number[]): (readonly number[])[] =>
  groups === undefined
    ? order.map((i) => [i])
    : order.flatMap((i, at) => {
        const group = groups[i];
        if (group === undefined) return [[i]];
        const all = order.filter((j) => groups[j] === group);
        return order.indexOf(all[0] as number) === at ? [all] : [];
      });

/** All of them on the sheet, or none. */
const layAllOn = (filling: Filling, items: readonly number[], sheet: number): boolean => {
  const { layout } = filling;
  const laid: number[] = [];
  for (const i of items) {
    const spot = leftmost(filling, i, sheet);
    if (spot === undefined) {
      for (const j of laid) lay(layout, j, layout.shape[j] as number, -1, 0, 0);
      // What was known of a fuller sheet does not hold for the emptied one.
      if (laid.length > 0) forget(filling, sheet);
      return false;
    }
    lay(layout, i, spot.shape, sheet, spot.x, spot.y);
    laid.push(i);
  }
  return true;
};

const forget = ({ ends, full }: Filling, sheet: number): void => {
  for (const known of [ends, full])
    for (const key of known.keys()) if (key.endsWith(` ${sheet}`)) known.delete(key);
};

const leftmost = (filling: Filling, i: number, sheet: number): Spot | undefined => {
  const { layout, ends, full } = filling;
  const shapes = shapesOn(layout, i, sheet);
  const kind = `${shapes.join(',')} ${sheet}`;
  if (full.has(kind)) return undefined;
  let best: Spot | undefined;
  for (const shape of shapes) {
    const room = roomFor(layout, shape, sheet);
    const { maxX } = layout.task.shapes[shape] as Shape;
    const from = (ends.get(`${shape} ${sheet}`) ?? -Infinity) - maxX - TOUCHING;
    eachSpot(layout, shape, sheet, from, (x, y) => {
      if (x < room.minX || x > room.maxX || y < room.minY || y > room.maxY || x < from) return;
      const end = x + maxX;
      if (best !== undefined && (end > best.end || (end === best.end && y >= best.y))) return;
      if (isFree(layout, shape, sheet, x, y)) best = { shape, x, y, end };
    });
  }
  if (best === undefined) full.add(kind);
  else ends.set(`${best.shape} ${sheet}`, best.end);
  return best;
};

/** Places beside no more than so many things are tried, those laid last: all would take too long. */
const MOST_NEIGHBOURS = 60;

/** Spots from `from` on along the sheet. */
const eachSpot = (
  layout: Layout,
  shape: number,
  sheet: number,
  from: number,
  consider: (x: number, y: number) => void,
): void => {
  const room = roomFor(layout, shape, sheet);
  consider(room.minX, room.minY);
  consider(room.minX, room.maxY);
  for (const j of (layout.on[sheet] as readonly number[]).slice(-MOST_NEIGHBOURS)) {
    const { edges, maxX, maxY } = layout.noFits.of(layout.shape[j] as number, shape);
    const [jx, jy] = [layout.x[j] as number, layout.y[j] as number];
    if (jx + maxX < from) continue;
    for (let k = 0; k < edges.length; k += EDGE) {
      const [x, y] = [jx + (edges[k] as number), jy + (edges[k + 1] as number)];
      consider(x, y);
      consider(room.minX, y);
      consider(x, room.minY);
      consider(x, room.maxY);
    }
    consider(jx + maxX, room.minY);
    consider(room.minX, jy + maxY);
  }
};

/** Touching is no overlap; sums of figures are only exact to so much. */
const TOUCHING = 1e-9;

/** Whether a place is free of all that lies there; what was laid last is nearest, and asked first. */
export const isFree = (
  layout: Layout,
  shape: number,
  sheet: number,
  x: number,
  y: number,
): boolean => {
  const there = layout.on[sheet] as readonly number[];
  for (let k = there.length - 1; k >= 0; k--)
    if (overlapWith(layout, there[k] as number, shape, x, y) > TOUCHING) return false;
  return true;
};
