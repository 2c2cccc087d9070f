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
 * Area of the largest rectangle along the axes between boxes: for each pair of lines across, the
 * longest run of columns that are free all the way.
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
  let best = 0;
  for (let low = 0; low < ys.length - 1; low++) {
    const isOpen = new Uint8Array(columns).fill(1);
    for (let high = low; high < ys.length - 1; high++) {
      for (let c = 0; c < columns; c++) if (isTaken[high * columns + c] === 1) isOpen[c] = 0;
      const height = (ys[high + 1] as number) - (ys[low] as number);
      best = Math.max(best, height * longestRun(xs, isOpen));
    }
  }
  return best;
};

const linesOf = (figures: readonly number[]): number[] =>
  [...new Set(figures)].toSorted((a, b) => a - b);

const numbersOf = (lines: readonly number[]): ((figure: number) => number) => {
  const numbers = new Map(lines.map((figure, n) => [figure, n]));
  return (figure) => numbers.get(figure) as number;
};

const longestRun = (xs: readonly number[], isOpen: Uint8Array): number => {
  let [longest, from] = [0, 0];
  for (let c = 0; c < isOpen.length; c++) {
    if (isOpen[c] === 0) from = c + 1;
    else longest = Math.max(longest, (xs[c + 1] as number) - (xs[from] as number));
  }
  return longest;
};
