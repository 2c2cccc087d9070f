import type { Extents } from '../../geometry/extents.ts';
import type { Layout, Sheet } from '../layout.ts';
import type { Shape } from '../shapes.ts';

/** With more pieces than this whole boxes are looked at: the grid grows with the square. */
const MANY_PIECES = 60;

/**
 * Area of the largest rectangle along the axes that nothing lies in, on the room of a sheet, mm2.
 * Shapes count as the boxes of their convex pieces, so there may be a little more.
 */
export const cleanAreaOn = (layout: Layout, sheet: number): number => {
  const { length, width } = layout.task.sheets[sheet] as Sheet;
  const there = layout.on[sheet] as readonly number[];
  const shapesThere = there.map((i) => layout.task.shapes[layout.shape[i] as number] as Shape);
  const isMany = shapesThere.reduce((sum, { pieces }) => sum + pieces.length, 0) > MANY_PIECES;
  const boxes = there.flatMap((i, n) => {
    const { pieces } = shapesThere[n] as Shape;
    const [x, y] = [layout.x[i] as number, layout.y[i] as number];
    return (isMany ? [pieces.flat()] : pieces).map((points): Extents => {
      const [xs, ys] = [points.map((p) => p[0] + x), points.map((p) => p[1] + y)];
      return {
        minX: Math.max(0, Math.min(...xs)),
        maxX: Math.min(length, Math.max(...xs)),
        minY: Math.max(0, Math.min(...ys)),
        maxY: Math.min(width, Math.max(...ys)),
      };
    });
  });
  return largestBetween(boxes, length, width);
};

/**
 * Area of the largest rectangle along the axes between boxes: row by row of the grid that their sides
 * make, by how far each column is free downwards from there.
 */
export const largestBetween = (
  boxes: readonly Extents[],
  length: number,
  width: number,
): number => {
  const xs = linesOf([0, length, ...boxes.flatMap((b) => [b.minX, b.maxX])]);
  const ys = linesOf([0, width, ...boxes.flatMap((b) => [b.minY, b.maxY])]);
  const [atX, atY] = [numbersOf(xs), numbersOf(ys)];
  const columns = xs.length - 1;
  const isTaken = new Uint8Array(columns * (ys.length - 1));
  for (const { minX, maxX, minY, maxY } of boxes)
    for (let row = atY(minY); row < atY(maxY); row++)
      isTaken.fill(1, row * columns + atX(minX), row * columns + atX(maxX));
  // The number of the line down to which each column is free.
  const freeTo = new Int32Array(columns);
  let best = 0;
  for (let row = 0; row < ys.length - 1; row++) {
    for (let c = 0; c < columns; c++) if (isTaken[row * columns + c] === 1) freeTo[c] = row + 1;
    best = Math.max(best, largestUnder(xs, ys, freeTo, row + 1));
  }
  return best;
};

/**
 * The largest rectangle under one level, over columns that are free down to lines of their own: each
 * is as wide as no column between stops it, for which those that still rise are kept on a stack.
 */
const largestUnder = (
  xs: readonly number[],
  ys: readonly number[],
  freeTo: Int32Array,
  level: number,
): number => {
  const rising: { readonly from: number; readonly to: number }[] = [];
  let best = 0;
  for (let c = 0; c <= freeTo.length; c++) {
    const to = c < freeTo.length ? (freeTo[c] as number) : level;
    let from = c;
    for (let last = rising.at(-1); last !== undefined && last.to <= to; last = rising.at(-1)) {
      rising.pop();
      from = last.from;
      const high = (ys[level] as number) - (ys[last.to] as number);
      best = Math.max(best, high * ((xs[c] as number) - (xs[from] as number)));
    }
    rising.push({ from, to });
  }
  return best;
};

const linesOf = (figures: readonly number[]): number[] =>
  [...new Set(figures)].toSorted((a, b) => a - b);

const numbersOf = (lines: readonly number[]): ((figure: number) => number) => {
  const numbers = new Map(lines.map((figure, n) => [figure, n]));
  return (figure) => numbers.get(figure) as number;
};
