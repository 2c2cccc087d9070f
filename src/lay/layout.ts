import { emptyNear, type Near } from './near.ts';
import type { NoFit } from './no-fit.ts';
import { NoFits, type Shape } from './shapes.ts';

/** What the search is given: shapes, things that are to be laid as some of them, and sheets. */
export interface Task {
  readonly shapes: readonly Shape[];
  /**
   * Of each item, for each kind of sheet, the shapes that it may lie as there, which are the numbers
   * of `shapes`. Items of the same kind share one list.
   */
  readonly items: readonly Choices[];
  /** Items with the same number here lie on the same sheet; the others have none. */
  readonly groups?: readonly (number | undefined)[];
  /** Sheets as rectangles with their corner at 0,0; a strip is one. */
  readonly sheets: readonly Sheet[];
}

/** The shapes that an item may lie as, by the kind of sheet. */
export type Choices = readonly (readonly number[])[];

export interface Sheet {
  /** Number of its kind: 0 for all where there is one. */
  readonly kind: number;
  readonly length: number;
  readonly width: number;
  /** What lies on it and stays there: holes cut already, what is cut off a rectangle. */
  readonly fixed: readonly { readonly shape: number; readonly x: number; readonly y: number }[];
}

/**
 * Where everything lies, items first and fixed things after them. The state of a search: it is
 * changed in place, for a copy at each of a million moves would take longer than the moves.
 */
export interface Layout {
  readonly task: Task;
  readonly noFits: NoFits;
  readonly count: number;
  readonly shape: Int32Array;
  readonly sheet: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** The box round each thing where it lies: least x and y, greatest x and y. */
  readonly boxes: Float64Array;
  /** Of each pair how much its overlap counts; both halves of the table are kept. */
  readonly weight: Float64Array;
  /** Lengths and widths of the sheets, which the search makes less for a while. */
  readonly lengths: Float64Array;
  readonly widths: Float64Array;
  /** The numbers of the sheets that the search may lay items on. */
  readonly open: number[];
  /** The numbers of what lies on each sheet. */
  readonly on: readonly number[][];
  /** Room for what lies near an item that is moved. */
  readonly near: Near;
}

export const emptyLayout = (task: Task): Layout => {
  const fixed = task.sheets.flatMap((sheet, k) => sheet.fixed.map((f) => ({ ...f, sheet: k })));
  const all = task.items.length + fixed.length;
  const layout: Layout = {
    task,
    noFits: new NoFits(task.shapes),
    count: task.items.length,
    shape: new Int32Array(all),
    sheet: new Int32Array(all).fill(-1),
    x: new Float64Array(all),
    y: new Float64Array(all),
    boxes: new Float64Array(4 * all),
    weight: new Float64Array(all * all).fill(1),
    lengths: Float64Array.from(task.sheets, (s) => s.length),
    widths: Float64Array.from(task.sheets, (s) => s.width),
    open: task.sheets.map((_, k) => k),
    on: task.sheets.map(() => []),
    near: emptyNear(all),
  };
  fixed.forEach((f, i) => lay(layout, task.items.length + i, f.shape, f.sheet, f.x, f.y));
  return layout;
};

/** Lays a thing, or moves it to another place. */
export const lay = (
  layout: Layout,
  i: number,
  shape: number,
  sheet: number,
  x: number,
  y: number,
): void => {
  const before = layout.sheet[i] as number;
  if (before !== sheet) {
    if (before >= 0) {
      const on = layout.on[before] as number[];
      on.splice(on.indexOf(i), 1);
    }
    if (sheet >= 0) (layout.on[sheet] as number[]).push(i);
    layout.sheet[i] = sheet;
  }
  layout.shape[i] = shape;
  moveTo(layout, i, x, y);
};

/** Moves a thing on its sheet. */
export const moveTo = (layout: Layout, i: number, x: number, y: number): void => {
  const { task, shape, boxes } = layout;
  layout.x[i] = x;
  layout.y[i] = y;
  const { minX, minY, maxX, maxY } = task.shapes[shape[i] as number] as Shape;
  const k = 4 * i;
  boxes[k] = x + minX;
  boxes[k + 1] = y + minY;
  boxes[k + 2] = x + maxX;
  boxes[k + 3] = y + maxY;
};

/** How deep an item, as a shape at a place, overlaps another thing that is laid on that sheet. */
export const overlapWith = (
  { noFits, shape, x, y }: Layout,
  j: number,
  as: number,
  atX: number,
  atY: number,
): number => noFits.depth(shape[j] as number, as, atX - (x[j] as number), atY - (y[j] as number));

/**
 * The weighted overlap of an item as a shape at a place with all else on the sheet; what is over
 * `limit` is not worked out to its end.
 */
export const overlapAt = (
  layout: Layout,
  i: number,
  as: number,
  sheet: number,
  atX: number,
  atY: number,
  limit: number,
): number => {
  const { on, weight, sheet: sheets, boxes, task } = layout;
  const { minX, minY, maxX, maxY } = task.shapes[as] as Shape;
  const [left, low, right, high] = [atX + minX, atY + minY, atX + maxX, atY + maxY];
  const row = i * sheets.length;
  const there = on[sheet] as number[];
  let sum = 0;
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
    const depth = overlapWith(layout, j, as, atX, atY);
    if (depth > 0) {
      sum += depth * (weight[row + j] as number);
      if (sum >= limit) return sum;
    }
  }
  return sum;
};

/** Where the 0,0 of a shape may lie so that the shape is on the sheet; empty when it is larger. */
export interface Room {
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
}

export const roomFor = ({ lengths, widths, task }: Layout, as: number, sheet: number): Room => {
  const { minX, minY, maxX, maxY } = task.shapes[as] as Shape;
  return {
    minX: -minX,
    maxX: (lengths[sheet] as number) - maxX,
    minY: -minY,
    maxY: (widths[sheet] as number) - maxY,
  };
};

/** The shapes that an item may lie as on a sheet. */
export const shapesOn = ({ task }: Layout, i: number, sheet: number): readonly number[] =>
  (task.items[i] as Choices)[(task.sheets[sheet] as Sheet).kind] as readonly number[];

/** The no-fit polygon between two things that are laid; of the second, beside the first. */
export const noFitBetween = ({ noFits, shape }: Layout, j: number, i: number): NoFit =>
  noFits.of(shape[j] as number, shape[i] as number);
