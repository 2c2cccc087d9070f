import type { Vec2 } from '../../geometry/vec2.ts';
import { EDGE, type NoFit } from '../no-fit.ts';
import type { NoFits } from '../shapes.ts';

/**
 * The regions that a step from one cell of a lattice to another must not end in, seen along a
 * direction, which lies along x then. Edges take four figures each: from x, y to x, y.
 */
export interface Barred {
  readonly regions: readonly Float64Array[];
  /** The edges of all regions that reach over 0, the highest first. */
  readonly fromTop: Float64Array;
}

/** One shape, or two beside each other, which are repeated. */
export interface Cell {
  readonly shapes: readonly number[];
  readonly offsets: readonly Vec2[];
}

/** The steps that bring a shape of one cell into a shape of another, seen along a direction. */
export const barredFor = (noFits: NoFits, { shapes, offsets }: Cell, [c, s]: Vec2): Barred => {
  const regions = shapes.flatMap((stays, a) =>
    shapes.map((moves, b) => {
      const [fromX, fromY] = offsets[a] as Vec2;
      const [toX, toY] = offsets[b] as Vec2;
      return turned(noFits.of(stays, moves), fromX - toX, fromY - toY, c, s);
    }),
  );
  return { regions, fromTop: sortedByTop(regions) };
};

const sortedByTop = (regions: readonly Float64Array[]): Float64Array => {
  const edges = regions.flatMap((region) =>
    Array.from({ length: region.length / 4 }, (_, k) => region.subarray(4 * k, 4 * k + 4)),
  );
  const topOf = (edge: Float64Array): number => Math.max(edge[1] as number, edge[3] as number);
  const sorted = edges.filter((e) => topOf(e) > 0).toSorted((a, b) => topOf(b) - topOf(a));
  const out = new Float64Array(4 * sorted.length);
  sorted.forEach((edge, k) => out.set(edge, 4 * k));
  return out;
};

const turned = ({ edges }: NoFit, byX: number, byY: number, c: number, s: number): Float64Array => {
  const out = new Float64Array((edges.length / EDGE) * 4);
  for (let k = 0, n = 0; k < edges.length; k += EDGE, n += 4) {
    const [x, y] = [(edges[k] as number) + byX, (edges[k + 1] as number) + byY];
    const [u, v] = [(edges[k + 6] as number) + byX, (edges[k + 5] as number) + byY];
    out[n] = c * x + s * y;
    out[n + 1] = c * y - s * x;
    out[n + 2] = c * u + s * v;
    out[n + 3] = c * v - s * u;
  }
  return out;
};

/** Steps are longer by this, mm, than where shapes touch, so that sums of figures do not overlap. */
export const APART_MM = 1e-6;

/** The shortest step along x after which nothing overlaps, nor after two of them or more. */
export const stepAlong = ({ regions }: Barred): number => {
  const spans = regions.flatMap((region) => [
    ...spansAt(region, APART_MM),
    ...spansAt(region, -APART_MM),
  ]);
  const ends = spans.map(([, to]) => to).filter((to) => to > APART_MM);
  const farthest = Math.max(0, ...ends);
  const isFree = (x: number): boolean => !spans.some(([from, to]) => x > from && x < to);
  const isGood = (step: number): boolean => {
    for (let k = 1; k * step < farthest; k++) if (!isFree(k * step)) return false;
    return true;
  };
  const steps = [...ends, ...ends.map((to) => to / 2)].map((to) => to + APART_MM);
  return Math.min(...steps.filter(isGood));
};

/** Where a level line lies inside a region: from x to x, in pairs. */
const spansAt = (region: Float64Array, y: number): (readonly [number, number])[] => {
  const xs: number[] = [];
  for (let k = 0; k < region.length; k += 4) {
    const [fromY, toY] = [region[k + 1] as number, region[k + 3] as number];
    if (y < fromY === y < toY) continue;
    const share = (y - fromY) / (toY - fromY);
    xs.push((region[k] as number) + share * ((region[k + 2] as number) - (region[k] as number)));
  }
  xs.sort((a, b) => a - b);
  return Array.from({ length: xs.length >> 1 }, (_, n) => [
    xs[2 * n] as number,
    xs[2 * n + 1] as number,
  ]);
};

/**
 * How high above a row another one lies that is shifted by `shift`, so that nothing overlaps: rows
 * repeat by `step`, and the rows above that one are shifted on. Infinite where it is over `limit`.
 */
export const heightAt = (
  { fromTop }: Barred,
  step: number,
  shift: number,
  limit = Infinity,
): number => {
  const highest = Math.max(fromTop[1] ?? 0, fromTop[3] ?? 0);
  let height = APART_MM;
  // A row that is shifted on lies higher by as much again; only those in reach can meet the first.
  for (let row = 1; row === 1 || row * height < highest; row++) {
    const on = row * shift;
    const over = reachAbove(fromTop, step, on - step * Math.floor(on / step), row * height);
    height = Math.max(height, (over + APART_MM) / row);
    if (height > limit) return Infinity;
  }
  return height;
};

/** The highest over `known` that edges reach at x, or a whole number of steps from there. */
const reachAbove = (fromTop: Float64Array, step: number, x: number, known: number): number => {
  let top = known;
  for (let k = 0; k < fromTop.length; k += 4) {
    const [fromX, fromY] = [fromTop[k] as number, fromTop[k + 1] as number];
    const [toX, toY] = [fromTop[k + 2] as number, fromTop[k + 3] as number];
    if (fromY <= top && toY <= top) return top;
    const [low, high] = fromX < toX ? [fromX, toX] : [toX, fromX];
    const slope = high - low < APART_MM ? undefined : (toY - fromY) / (toX - fromX);
    for (let at = x + step * Math.ceil((low - x) / step); at <= high; at += step) {
      const y = slope === undefined ? Math.max(fromY, toY) : fromY + slope * (at - fromX);
      if (y > top) top = y;
    }
  }
  return top;
};
