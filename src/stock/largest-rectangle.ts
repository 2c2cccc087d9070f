import { withChords } from '../geometry/chords.ts';
import type { Extents } from '../geometry/extents.ts';
import type { Region } from '../geometry/region.ts';
import { vertexAt } from '../geometry/loop.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { STOCK_CHORD_MM } from './chord.ts';

/** Lines of the grid stand no farther apart than this along an edge that leans, mm. */
const STEP_MM = 1;
/**
 * The most lines each way: on a sheet full of round parts they then stand some two millimetres
 * apart, and the answer takes a tenth of a second in place of one.
 */
const MOST_LINES = 1500;

/** A straight edge, its lower end first. */
interface Edge {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/**
 * The largest upright rectangle in a region, mm; `undefined` where it has no area. Arcs count as
 * their chords. Its sides lie on lines through all corners, and along edges that lean through a
 * point every millimetre, or fewer where there are too many: among all such rectangles it is the
 * largest, the lowest of several, then the one farthest left. It never leaves the region of the
 * chords.
 *
 * Each row of cells between two lines is swept once: how far up each column has been free is the
 * height of a bar, and the largest rectangle under the bars is found with a stack (the largest
 * rectangle in a histogram; from memory).
 */
export const largestRectangle = ({ outline, holes }: Region): Extents | undefined => {
  const edges = [outline, ...holes].flatMap((loop) => {
    const ring = withChords(loop, STOCK_CHORD_MM);
    return ring.map((v, i): Edge => {
      const w = vertexAt(ring, i + 1);
      return v.y <= w.y
        ? { x0: v.x, y0: v.y, x1: w.x, y1: w.y }
        : { x0: w.x, y0: w.y, x1: v.x, y1: v.y };
    });
  });
  const [xs, ys] = gridOf(edges);
  return sweep(
    edges.toSorted((a, b) => a.y0 - b.y0),
    xs,
    ys,
  );
};

const gridOf = (edges: readonly Edge[]): readonly [Float64Array, Float64Array] => {
  const [squareX, squareY] = [new Set<number>(), new Set<number>()];
  const [leanX, leanY] = [new Set<number>(), new Set<number>()];
  for (const { x0, y0, x1, y1 } of edges) {
    const [dx, dy] = [x1 - x0, y1 - y0];
    const isSquare = dx === 0 || dy === 0;
    const [xs, ys] = isSquare ? [squareX, squareY] : [leanX, leanY];
    const steps = isSquare
      ? 1
      : Math.max(1, Math.ceil(Math.max(Math.abs(dx), Math.abs(dy)) / STEP_MM));
    for (let k = 0; k < steps; k += 1) {
      xs.add(x0 + (dx * k) / steps);
      ys.add(y0 + (dy * k) / steps);
    }
    xs.add(x1);
    ys.add(y1);
  }
  return [linesOf(squareX, leanX), linesOf(squareY, leanY)];
};

/** Lines along upright and level edges, and as many of the others as there is room for. */
const linesOf = (square: ReadonlySet<number>, lean: ReadonlySet<number>): Float64Array => {
  const first = thinned(inOrder([...square]), MOST_LINES);
  const others = thinned(inOrder([...lean]), Math.max(2, MOST_LINES - first.length));
  return inOrder([...first, ...others]);
};

/** In their order, those that differ by rounding once. */
const inOrder = (values: readonly number[]): Float64Array =>
  Float64Array.from(values)
    .sort()
    .filter((at, i, sorted) => i === 0 || at - (sorted[i - 1] as number) > NOISE_MM);

const thinned = (all: Float64Array, most: number): Float64Array => {
  if (all.length <= most) return all;
  const share = (all.length - 1) / (most - 1);
  return Float64Array.from({ length: most }, (_, i) => all[Math.round(i * share)] as number);
};

const sweep = (edges: readonly Edge[], xs: Float64Array, ys: Float64Array): Extents | undefined => {
  const columns = xs.length - 1;
  const free = new Uint8Array(Math.max(0, columns));
  /** The y from which each column has been free. */
  const since = new Float64Array(Math.max(0, columns)).fill(Infinity);
  let [best, found]: [number, Extents | undefined] = [0, undefined];
  let open: Edge[] = [];
  let next = 0;
  for (let row = 0; row + 1 < ys.length; row += 1) {
    const [low, high] = [ys[row] as number, ys[row + 1] as number];
    while (next < edges.length && (edges[next] as Edge).y0 < high) open.push(edges[next++] as Edge);
    open = open.filter(({ y0, y1 }) => y1 > low || (y0 === y1 && y0 > low));
    markFree(free, open, xs, low, high);
    for (let c = 0; c < columns; c += 1)
      if (free[c] === 0) since[c] = Infinity;
      else if (since[c] === Infinity) since[c] = low;
    const widest = underBars(since, xs, high, best);
    if (widest === undefined) continue;
    best = (widest.maxX - widest.minX) * (widest.maxY - widest.minY);
    found = widest;
  }
  return found;
};

/**
 * Marks the cells of a row that lie in the region and that no edge runs through. What ends on a
 * line does not reach into the cell beyond it by rounding.
 */
const markFree = (
  free: Uint8Array,
  edges: readonly Edge[],
  xs: Float64Array,
  low: number,
  high: number,
): void => {
  const middle = (low + high) / 2;
  const crossings = edges
    .filter(({ y0, y1 }) => y0 <= middle && y1 > middle)
    .map((e) => xAt(e, middle));
  crossings.sort((a, b) => a - b);
  free.fill(0);
  for (let i = 0; i + 1 < crossings.length; i += 2)
    free.fill(
      1,
      firstFrom(xs, (crossings[i] as number) - NOISE_MM),
      Math.max(0, lastTo(xs, (crossings[i + 1] as number) + NOISE_MM)),
    );
  for (const edge of edges) {
    if (edge.y1 <= low + NOISE_MM || edge.y0 >= high - NOISE_MM) continue;
    const ends = [xAt(edge, Math.max(low, edge.y0)), xAt(edge, Math.min(high, edge.y1))];
    if (edge.y0 === edge.y1) ends.push(edge.x0, edge.x1);
    const from = lastTo(xs, Math.min(...ends) + NOISE_MM);
    const to = firstFrom(xs, Math.max(...ends) - NOISE_MM);
    if (to > from) free.fill(0, Math.max(0, from), to);
  }
};

const xAt = ({ x0, y0, x1, y1 }: Edge, y: number): number =>
  x0 === x1 || y0 === y1 || y <= y0 ? x0 : y >= y1 ? x1 : x0 + ((x1 - x0) * (y - y0)) / (y1 - y0);

/** The first line at or after x. */
const firstFrom = (xs: Float64Array, x: number): number => {
  let [from, to] = [0, xs.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if ((xs[middle] as number) < x) from = middle + 1;
    else to = middle;
  }
  return from;
};

/** The last line at or before x; -1 where there is none. */
const lastTo = (xs: Float64Array, x: number): number => {
  const at = firstFrom(xs, x);
  return xs[at] === x ? at : at - 1;
};

/** The largest rectangle that ends at `high`, if it is larger than `best`. */
const underBars = (
  since: Float64Array,
  xs: Float64Array,
  high: number,
  best: number,
): Extents | undefined => {
  let [most, found]: [number, Extents | undefined] = [best, undefined];
  /** Columns where rising bars begin, with their heights. */
  const stack: { readonly column: number; readonly low: number }[] = [];
  for (let c = 0; c <= since.length; c += 1) {
    const low = c < since.length ? (since[c] as number) : Infinity;
    let column = c;
    for (let top = stack.at(-1); top !== undefined && top.low < low; top = stack.at(-1)) {
      stack.pop();
      column = top.column;
      const [minX, maxX] = [xs[column] as number, xs[c] as number];
      const area = (maxX - minX) * (high - top.low);
      if (area > most) [most, found] = [area, { minX, minY: top.low, maxX, maxY: high }];
    }
    if (low < high && stack.at(-1)?.low !== low) stack.push({ column, low });
  }
  return found;
};
