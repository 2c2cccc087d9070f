import { EDGE, isInRings, type NoFit } from './no-fit.ts';

/**
 * A no-fit polygon in a grid of cells, each of which knows the edges that may be the nearest one to
 * a point in it: three or four, mostly, of dozens. What a cell holds is worked out when a point first
 * comes to lie in it.
 */
export interface DepthCells extends NoFit {
  /** Cells each way, and how many there are to a millimetre. */
  readonly count: number;
  readonly perX: number;
  readonly perY: number;
  /** No point of a cell is farther than this from the point that is taken for its middle. */
  readonly reach: number;
  /** Of each cell where its list begins, or `UNKNOWN` or `OUTSIDE`. */
  readonly starts: Int32Array;
  /** The lists: how many edges, where the cell lies, and where in `edges` each of them begins. */
  readonly lists: number[];
  /** Of each edge where a point lies whose nearest point is the corner it starts at, or ends at. */
  readonly corners: Uint8Array;
}

const UNKNOWN = 0;
const OUTSIDE = -1;

/** A cell lies in the polygon as a whole, or its middle does, or its middle does not. */
const ALL_IN = 0;
const MIDDLE_IN = 1;
const MIDDLE_OUT = 2;

/** Beside its nearest edge or corner a point is out of the polygon, in it, or only counting tells. */
const OUT = 0;
const IN = 1;
const TOLD_BY_COUNTING = 2;

/** Cells each way: more for more edges, as far as what they take stays in a processor's memory. */
const CELLS = { least: 4, edgesToOne: 2, most: 10 };

/**
 * What is taken for the middle of a cell lies by these shares of it aside, so that in drawings with
 * round figures it lies on no edge and level with no corner.
 */
const ASIDE = [0.0137190283, 0.0096033198] as const;

export const depthCells = (noFit: NoFit): DepthCells => {
  const { edges, minX, minY, maxX, maxY } = noFit;
  const wanted = CELLS.least + Math.floor(edges.length / EDGE / CELLS.edgesToOne);
  const count = Math.min(CELLS.most, wanted);
  const [wide, high] = [(maxX - minX) / count, (maxY - minY) / count];
  return {
    ...noFit,
    count,
    perX: 1 / wide,
    perY: 1 / high,
    // A little more than it is, for the rounding of figures that put a point into its cell.
    reach: Math.hypot((0.501 + ASIDE[0]) * wide, (0.501 + ASIDE[1]) * high),
    starts: new Int32Array(count * count),
    // What begins at 0 is unknown.
    lists: [UNKNOWN],
    corners: cornersOf(edges),
  };
};

/**
 * Whether points in front of a corner are in the polygon, which is to the left of its edges: they
 * are where it turns to the right. Nothing is said where rings touch, or run back on themselves.
 */
const cornersOf = (edges: Float64Array): Uint8Array => {
  const startAt = new Map<string, number>();
  const told = new Map<string, number>();
  const keyOf = (k: number): string => `${edges[k]} ${edges[k + 1]}`;
  for (let k = 0; k < edges.length; k += EDGE) {
    if (startAt.has(keyOf(k))) told.set(keyOf(k), TOLD_BY_COUNTING);
    startAt.set(keyOf(k), k);
  }
  const endKeyOf = (k: number): string => `${edges[k + 6]} ${edges[k + 5]}`;
  for (let k = 0; k < edges.length; k += EDGE) {
    const next = startAt.get(endKeyOf(k));
    if (!told.has(endKeyOf(k)))
      told.set(endKeyOf(k), next === undefined ? TOLD_BY_COUNTING : besideCorner(edges, k, next));
  }
  return Uint8Array.from(
    Array.from({ length: edges.length / EDGE }, (_, e) => e * EDGE).flatMap((k) => [
      told.get(keyOf(k)) ?? TOLD_BY_COUNTING,
      told.get(endKeyOf(k)) ?? TOLD_BY_COUNTING,
    ]),
  );
};

/** Sine of the angle below which a corner is taken for straight, or for a spike. */
const NO_CORNER = 1e-9;

const besideCorner = (edges: Float64Array, k: number, next: number): number => {
  const [dx, dy] = [edges[k + 2] as number, edges[k + 3] as number];
  const [ex, ey] = [edges[next + 2] as number, edges[next + 3] as number];
  const turn = dx * ey - dy * ex;
  if (Math.abs(turn) <= NO_CORNER * Math.hypot(dx, dy) * Math.hypot(ex, ey))
    return TOLD_BY_COUNTING;
  return turn < 0 ? IN : OUT;
};

/**
 * How deep a point lies in a no-fit polygon: the way to its nearest edge; 0 where the shapes do not
 * overlap.
 */
export const depthIn = (cells: DepthCells, x: number, y: number): number => {
  const { minX, minY, maxX, maxY } = cells;
  if (x <= minX || y <= minY || x >= maxX || y >= maxY) return 0;
  const { count, starts, lists, perX, perY } = cells;
  const column = Math.min(count - 1, ((x - minX) * perX) | 0);
  const row = Math.min(count - 1, ((y - minY) * perY) | 0);
  const known = starts[row * count + column] as number;
  const start = known === UNKNOWN ? lookThrough(cells, column, row) : known;
  if (start === OUTSIDE) return 0;
  const { edges, corners } = cells;
  const end = start + 2 + (lists[start] as number);
  let least = Infinity;
  let side = OUT;
  for (let at = start + 2; at < end; at++) {
    const k = lists[at] as number;
    const px = x - (edges[k] as number);
    const py = y - (edges[k + 1] as number);
    const dx = edges[k + 2] as number;
    const dy = edges[k + 3] as number;
    const along = (px * dx + py * dy) * (edges[k + 4] as number);
    const t = along < 0 ? 0 : along > 1 ? 1 : along;
    const ox = px - t * dx;
    const oy = py - t * dy;
    const squared = ox * ox + oy * oy;
    if (squared >= least) continue;
    least = squared;
    side =
      t === along ? (dx * py - dy * px > 0 ? IN : OUT) : (corners[(2 * k) / EDGE + t] as number);
  }
  if (lists[start + 1] === ALL_IN || side === IN) return Math.sqrt(least);
  return side === TOLD_BY_COUNTING && isInByCounting(cells, start, column, row, x, y)
    ? Math.sqrt(least)
    : 0;
};

const isInByCounting = (
  cells: DepthCells,
  start: number,
  column: number,
  row: number,
  x: number,
  y: number,
): boolean => {
  const where = cells.lists[start + 1] as number;
  const crossings = crossingsFrom(cells, start, middleX(cells, column), middleY(cells, row), x, y);
  return (where === MIDDLE_IN) === (crossings % 2 === 0);
};

const middleX = ({ minX, perX }: DepthCells, column: number): number =>
  minX + (column + 0.5 + ASIDE[0]) / perX;
const middleY = ({ minY, perY }: DepthCells, row: number): number =>
  minY + (row + 0.5 + ASIDE[1]) / perY;

/** How often the way from a cell's middle to a point crosses edges of the cell. */
const crossingsFrom = (
  { lists, edges }: DepthCells,
  start: number,
  fromX: number,
  fromY: number,
  x: number,
  y: number,
): number => {
  const [u, v] = [x - fromX, y - fromY];
  const end = start + 2 + (lists[start] as number);
  let crossings = 0;
  for (let at = start + 2; at < end; at++) {
    const k = lists[at] as number;
    const ax = (edges[k] as number) - fromX;
    const ay = (edges[k + 1] as number) - fromY;
    const bx = (edges[k + 6] as number) - fromX;
    const by = (edges[k + 5] as number) - fromY;
    // Sides are compared as they are: the end of an edge is the start of the next to the last bit.
    if (u * ay - v * ax > 0 === u * by - v * bx > 0) continue;
    const dx = edges[k + 2] as number;
    const dy = edges[k + 3] as number;
    if (dy * ax - dx * ay > 0 !== dx * (v - ay) - dy * (u - ax) > 0) crossings++;
  }
  return crossings;
};

/** The square of the way from a point to the edge that begins at `k`. */
const squaredTo = (edges: Float64Array, k: number, x: number, y: number): number => {
  const px = x - (edges[k] as number);
  const py = y - (edges[k + 1] as number);
  const dx = edges[k + 2] as number;
  const dy = edges[k + 3] as number;
  const along = (px * dx + py * dy) * (edges[k + 4] as number);
  const t = along < 0 ? 0 : along > 1 ? 1 : along;
  const ox = px - t * dx;
  const oy = py - t * dy;
  return ox * ox + oy * oy;
};

/** Works out what a cell holds, keeps it, and gives where its list begins, or `OUTSIDE`. */
const lookThrough = (cells: DepthCells, column: number, row: number): number => {
  const { edges, starts, lists, reach, count } = cells;
  const [x, y] = [middleX(cells, column), middleY(cells, row)];
  const isIn = isInRings(edges, x, y);
  const ways: number[] = [];
  for (let k = 0; k < edges.length; k += EDGE) ways.push(Math.sqrt(squaredTo(edges, k, x, y)));
  const least = Math.min(...ways);
  const start = !isIn && least > reach ? OUTSIDE : lists.length;
  starts[row * count + column] = start;
  if (start === OUTSIDE) return start;
  // From nowhere in the cell is the nearest edge farther than this from the middle.
  const near = ways.flatMap((way, e) => (way <= least + 2 * reach ? [e * EDGE] : []));
  const where = !isIn ? MIDDLE_OUT : least > reach ? ALL_IN : MIDDLE_IN;
  lists.push(near.length, where, ...near);
  return start;
};
