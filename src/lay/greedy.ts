import { lay, type Layout, overlapWith, roomFor } from './layout.ts';
import { EDGE } from './no-fit.ts';
import type { Shape } from './shapes.ts';

/** Area of the box round an item as it lies, or as it may lie first. */
export const boxArea = ({ task, shape, sheet }: Layout, i: number): number => {
  const as = (sheet[i] as number) < 0 ? (task.items[i] as readonly number[])[0] : shape[i];
  const { minX, minY, maxX, maxY } = task.shapes[as as number] as Shape;
  return (maxX - minX) * (maxY - minY);
};

/** The numbers of all items, the largest first. */
export const bySize = (layout: Layout): number[] => {
  const areas = Array.from({ length: layout.count }, (_, i) => boxArea(layout, i));
  return areas.map((_, i) => i).sort((a, b) => (areas[b] as number) - (areas[a] as number));
};

interface Spot {
  readonly shape: number;
  readonly sheet: number;
  readonly x: number;
  readonly y: number;
  /** Where the item ends along the sheet. */
  readonly end: number;
}

/**
 * Lays each item where it ends farthest to the left, the largest first, on the first sheet that
 * takes it: at corners of no-fit polygons, and where these are level with the edges. Gives the
 * numbers of those that no sheet takes.
 */
export const layGreedily = (layout: Layout, order: readonly number[]): number[] => {
  const left: number[] = [];
  for (const i of order) {
    let spot: Spot | undefined;
    for (let k = 0; k < layout.on.length && spot === undefined; k++) spot = leftmost(layout, i, k);
    if (spot === undefined) left.push(i);
    else lay(layout, i, spot.shape, spot.sheet, spot.x, spot.y);
  }
  return left;
};

const leftmost = (layout: Layout, i: number, sheet: number): Spot | undefined => {
  let best: Spot | undefined;
  for (const shape of layout.task.items[i] as readonly number[]) {
    const room = roomFor(layout, shape, sheet);
    const { maxX } = layout.task.shapes[shape] as Shape;
    eachSpot(layout, shape, sheet, (x, y) => {
      if (x < room.minX || x > room.maxX || y < room.minY || y > room.maxY) return;
      const end = x + maxX;
      if (best !== undefined && (end > best.end || (end === best.end && y >= best.y))) return;
      if (isFree(layout, shape, sheet, x, y)) best = { shape, sheet, x, y, end };
    });
  }
  return best;
};

const eachSpot = (
  layout: Layout,
  shape: number,
  sheet: number,
  consider: (x: number, y: number) => void,
): void => {
  const room = roomFor(layout, shape, sheet);
  consider(room.minX, room.minY);
  consider(room.minX, room.maxY);
  for (const j of layout.on[sheet] as readonly number[]) {
    const { edges, maxX, maxY } = layout.noFits.of(layout.shape[j] as number, shape);
    const [jx, jy] = [layout.x[j] as number, layout.y[j] as number];
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

const isFree = (layout: Layout, shape: number, sheet: number, x: number, y: number): boolean =>
  (layout.on[sheet] as readonly number[]).every(
    (j) => overlapWith(layout, j, shape, x, y) <= TOUCHING,
  );
