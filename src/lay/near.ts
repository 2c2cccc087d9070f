import { type DepthCells, depthIn } from './depth-cells.ts';
import type { Layout } from './layout.ts';
import type { Shape } from './shapes.ts';

/**
 * What an item may meet as long as it is moved only a little: of each such thing all that its
 * overlap is worked out from, side by side. Made once and filled again and again.
 */
export interface Near {
  count: number;
  /** How far the item may be moved from `x`, `y`, each way, until other things may be met too. */
  margin: number;
  x: number;
  y: number;
  readonly cells: DepthCells[];
  /** Of each thing where it lies, the cosine and sine of its turn, and how much its overlap counts. */
  readonly figures: Float64Array;
}

const FIGURES = 5;

export const emptyNear = (all: number): Near => ({
  count: 0,
  margin: 0,
  x: 0,
  y: 0,
  cells: [],
  figures: new Float64Array(FIGURES * all),
});

/** Fills in what an item may meet as a shape, within `margin` each way of a place. */
export const lookAround = (
  { on, weight, sheet: sheets, boxes, task, noFits, shape, near, x, y }: Layout,
  i: number,
  as: number,
  sheet: number,
  atX: number,
  atY: number,
  margin: number,
): void => {
  const { minX, minY, maxX, maxY } = task.shapes[as] as Shape;
  const left = atX + minX - margin;
  const low = atY + minY - margin;
  const right = atX + maxX + margin;
  const high = atY + maxY + margin;
  const row = i * sheets.length;
  const there = on[sheet] as number[];
  const { cells, figures } = near;
  let count = 0;
  for (let k = 0; k < there.length; k++) {
    const j = there[k] as number;
    const b = 4 * j;
    if (
      right <= (boxes[b] as number) ||
      low >= (boxes[b + 3] as number) ||
      left >= (boxes[b + 2] as number) ||
      high <= (boxes[b + 1] as number) ||
      j === i
    )
      continue;
    const stays = shape[j] as number;
    cells[count] = noFits.cellsOf(stays, as);
    const f = FIGURES * count;
    figures[f] = x[j] as number;
    figures[f + 1] = y[j] as number;
    figures[f + 2] = noFits.cosOf(stays);
    figures[f + 3] = noFits.sinOf(stays);
    figures[f + 4] = weight[row + j] as number;
    count++;
  }
  near.count = count;
  near.margin = margin;
  near.x = atX;
  near.y = atY;
};

/** Whether what was looked around for still is all that may be met at a place. */
export const isAround = (near: Near, atX: number, atY: number): boolean =>
  Math.abs(atX - near.x) <= near.margin && Math.abs(atY - near.y) <= near.margin;

/** The weighted overlap at a place; what is over `limit` is not worked out to its end. */
export const overlapNear = (near: Near, atX: number, atY: number, limit: number): number => {
  const { cells, figures, count } = near;
  let sum = 0;
  for (let k = 0, f = 0; k < count; k++, f += FIGURES) {
    const x = atX - (figures[f] as number);
    const y = atY - (figures[f + 1] as number);
    const c = figures[f + 2] as number;
    const s = figures[f + 3] as number;
    const depth = depthIn(cells[k] as DepthCells, c * x + s * y, c * y - s * x);
    if (depth > 0) {
      sum += depth * (figures[f + 4] as number);
      if (sum >= limit) return sum;
    }
  }
  return sum;
};
