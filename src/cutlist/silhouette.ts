import { withChords } from '../geometry/chords.ts';
import { hullOf } from '../geometry/convex-polygon.ts';
import { type Extents, loopExtents } from '../geometry/extents.ts';
import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import { circle } from '../geometry/shapes.ts';
import { stretchInBox } from '../geometry/stretch-in-box.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { FlatCutout, FlatPattern } from '../model/flat.ts';

/**
 * As much of a blank as is needed to tell how it can lie on a sheet, mm. Every size is at most the
 * blank's own.
 */
export interface Silhouette {
  /** The corners of its convex hull, arcs as chords. */
  readonly hull: readonly Vec2[];
  /** A rectangle inside its outline, the largest that is found; holes count as metal. */
  readonly core: Extents | undefined;
  /** The largest such rectangle that is free of holes. */
  readonly solid: Extents | undefined;
  /** Sizes of its holes, in which smaller blanks may find room. */
  readonly holes: readonly (readonly [widthMm: number, heightMm: number])[];
  /** Area of the metal. */
  readonly areaMm2: number;
}

/** Chords leave their arcs by no more than this, mm. */
const SILHOUETTE_CHORD_MM = 0.2;

export const silhouetteOf = ({ outline, cutouts, areaMm2 }: FlatPattern): Silhouette => {
  const rim = withChords(outline, SILHOUETTE_CHORD_MM);
  const holes = cutouts.map((cutout) => withChords(loopOf(cutout), SILHOUETTE_CHORD_MM));
  // Where the rim is hollow, chords cut off a little that is not metal. In a hole it is the other
  // way round.
  const less = outline.some(({ bulge }) => bulge < 0) ? SILHOUETTE_CHORD_MM : 0;
  const core = smaller(rectangleIn(rim, []), less);
  return {
    hull: hullOf(rim.map(({ x, y }): Vec2 => [x, y])),
    core,
    solid: holes.length === 0 ? core : smaller(rectangleIn(rim, holes), SILHOUETTE_CHORD_MM),
    holes: holes.flatMap((hole) => {
      const box = loopExtents(hole);
      return box === undefined
        ? []
        : [
            [
              box.maxX - box.minX + 2 * SILHOUETTE_CHORD_MM,
              box.maxY - box.minY + 2 * SILHOUETTE_CHORD_MM,
            ] as const,
          ];
    }),
    areaMm2,
  };
};

const smaller = (box: Extents | undefined, by: number): Extents | undefined =>
  box === undefined || box.maxX - box.minX <= 2 * by || box.maxY - box.minY <= 2 * by
    ? undefined
    : { minX: box.minX + by, minY: box.minY + by, maxX: box.maxX - by, maxY: box.maxY - by };

const loopOf = (cutout: FlatCutout): Loop =>
  cutout.kind === 'round' ? circle(cutout.centre, cutout.diameterMm / 2) : cutout.loop;

/** Number of grid lines each way, enough to find almost all of most rectangles. */
const MOST_LINES = 40;

/**
 * The largest upright rectangle inside a loop and outside others, made of whole cells of the grid
 * that their corners form. Whatever the grid, the rectangle lies in the metal: a cell that an edge
 * runs through does not count.
 */
const rectangleIn = (rim: Loop, holes: readonly Loop[]): Extents | undefined => {
  const corners = [rim, ...holes].flat();
  const [xs, ys] = [linesAt(corners.map((v) => v.x)), linesAt(corners.map((v) => v.y))];
  const isFull = fullCells(xs, ys, rim, holes);
  let best: Extents | undefined;
  // For each pair of lines across, this is the longest run of columns that are full all the way.
  for (let low = 0; low < ys.length - 1; low++) {
    const isOpen = xs.slice(1).map(() => true);
    for (let high = low; high < ys.length - 1; high++) {
      isOpen.forEach((open, i) => (isOpen[i] = open && isFull(i, high)));
      for (const [from, to] of runsOf(isOpen))
        best = larger(best, {
          minX: xs[from] as number,
          maxX: xs[to] as number,
          minY: ys[low] as number,
          maxY: ys[high + 1] as number,
        });
    }
  }
  return best;
};

const areaOf = ({ minX, minY, maxX, maxY }: Extents): number => (maxX - minX) * (maxY - minY);
const larger = (best: Extents | undefined, other: Extents): Extents =>
  best === undefined || areaOf(other) > areaOf(best) ? other : best;

/** The distinct values in order, evenly thinned out where there are many. */
const linesAt = (values: readonly number[]): number[] => {
  const all = [...new Set(values)].toSorted((a, b) => a - b);
  if (all.length <= MOST_LINES) return all;
  return Array.from(
    { length: MOST_LINES },
    (_, i) => all[Math.round((i * (all.length - 1)) / (MOST_LINES - 1))] as number,
  );
};

/** Start of each run of `true` and the place behind its end. */
const runsOf = (flags: readonly boolean[]): (readonly [number, number])[] => {
  const starts = flags.flatMap((flag, i) => (flag && flags[i - 1] !== true ? [i] : []));
  return starts.map((from) => {
    const end = flags.findIndex((flag, i) => i > from && !flag);
    return [from, end < 0 ? flags.length : end];
  });
};

const fullCells = (
  xs: readonly number[],
  ys: readonly number[],
  rim: Loop,
  holes: readonly Loop[],
): ((column: number, row: number) => boolean) => {
  const isCrossed = xs.map(() => ys.map(() => false));
  for (const loop of [rim, ...holes]) {
    loop.forEach((v, i) => {
      const next = loop[(i + 1) % loop.length] as (typeof loop)[number];
      for (const [column, row] of cellsAlong(xs, ys, [v.x, v.y], [next.x, next.y]))
        (isCrossed[column] as boolean[])[row] = true;
    });
  }
  const isMetal = (middle: Vec2): boolean =>
    isInside(rim, middle) && !holes.some((hole) => isInside(hole, middle));
  const full = isCrossed.map((rows, i) =>
    rows.map(
      (crossed, j) =>
        !crossed &&
        isMetal([
          ((xs[i] as number) + (xs[i + 1] ?? 0)) / 2,
          ((ys[j] as number) + (ys[j + 1] ?? 0)) / 2,
        ]),
    ),
  );
  return (column, row) => full[column]?.[row] === true;
};

/** The cells that a straight line runs through; a cell that it only runs along does not count. */
const cellsAlong = (
  xs: readonly number[],
  ys: readonly number[],
  a: Vec2,
  b: Vec2,
): [column: number, row: number][] =>
  spansOver(xs, a[0], b[0]).flatMap((column) =>
    spansOver(ys, a[1], b[1]).flatMap((row): [number, number][] => {
      const cell = {
        minX: xs[column] as number,
        maxX: xs[column + 1] as number,
        minY: ys[row] as number,
        maxY: ys[row + 1] as number,
      };
      return runsThrough(cell, a, b) ? [[column, row]] : [];
    }),
  );

/** The grid lines between which a stretch from one value to another lies, or which it crosses. */
const spansOver = (lines: readonly number[], one: number, other: number): number[] => {
  const [low, high] = [Math.min(one, other), Math.max(one, other)];
  return lines.flatMap((line, i) =>
    (lines[i + 1] ?? -Infinity) >= low && line <= high ? [i] : [],
  );
};

const runsThrough = (cell: Extents, a: Vec2, b: Vec2): boolean => {
  const shares = stretchInBox(cell, a, b);
  if (shares === undefined) return false;
  const at = (shares[0] + shares[1]) / 2;
  const [x, y] = [a[0] + at * (b[0] - a[0]), a[1] + at * (b[1] - a[1])];
  return x > cell.minX && x < cell.maxX && y > cell.minY && y < cell.maxY;
};
