import type { Extents } from '../../geometry/extents.ts';
import { NEARLY_PARALLEL_SINE } from '../../geometry/tolerance.ts';
import { cross, dot, scale, sub, type Vec2 } from '../../geometry/vec2.ts';
import { doOverlap, type Ground, liesWithin, type Line2, runsThrough } from './ground.ts';

/** A place where something may be written. */
export interface Candidate {
  /** What is written there takes up. */
  readonly grounds: readonly Ground[];
  /** What this place costs by itself, 0 or more; nothing when left out. */
  readonly cost?: number;
  /**
   * What it costs beside that, `Infinity` where it cannot be: asked last, and only of a place that may
   * still be the best.
   */
  readonly more?: () => number;
  /** Lines that come with it, such as one from a text to what it names. */
  readonly lines?: readonly Line2[];
  /** The one of its lines that may neither cross another line nor run along one. */
  readonly shaft?: Line2;
}

/**
 * Places that are made only when one of them may still be the cheapest: most are never looked at, for
 * the first free one costs less.
 */
export interface Batch<C extends Candidate> {
  /** None of them costs less by itself. */
  readonly leastCost: number;
  readonly places: () => readonly C[];
}

/** A line on the paper, and what it costs to write across it; `Infinity` where nobody may. */
export interface Obstacle {
  readonly line: Line2;
  readonly cost: number;
}

/** What the lines cost that come with what is placed: to write across one, and to cross one by another. */
export interface LineCosts {
  readonly across: number;
  readonly crossing: number;
}

/** Bounds of a placer whose users keep within bounds of their own. */
export const NO_BOUNDS: Extents = {
  minX: -Infinity,
  minY: -Infinity,
  maxX: Infinity,
  maxY: Infinity,
};

/** Costs of two places that differ by less are equal; the first is taken. */
const EQUAL_COST = 1e-9;

/**
 * Finds places on a sheet of paper for what is written and drawn on it, one after the other, and
 * remembers them. What it places overlaps nothing else that it placed or was told of, stays within
 * its bounds, and has no line of its own through a text. Of the places that are left, the cheapest
 * is taken.
 */
export class Placer {
  readonly #bounds: Extents;
  readonly #costs: LineCosts;
  readonly #obstacles: Obstacle[] = [];
  readonly #taken: Ground[] = [];
  /** Lines that came with what was placed. */
  readonly #lines: Line2[] = [];

  constructor(bounds: Extents, costs: LineCosts) {
    this.#bounds = bounds;
    this.#costs = costs;
  }

  /** Tells it of lines. */
  avoid(...obstacles: readonly Obstacle[]): void {
    this.#obstacles.push(...obstacles);
  }

  /** Tells it of ground that is taken. */
  take(...grounds: readonly Ground[]): void {
    this.#taken.push(...grounds);
  }

  /** Whether something may stand there at all, whatever it costs. */
  isFree(candidate: Candidate, bounds = this.#bounds): boolean {
    const { grounds, lines = [], shaft } = candidate;
    return (
      grounds.every((ground) => liesWithin(ground, bounds)) &&
      grounds.every((ground) => this.#taken.every((other) => !doOverlap(ground, other))) &&
      lines.every(
        (line) =>
          line.every((p) => isWithin(p, bounds)) &&
          this.#taken.every((other) => !runsThrough(other, line)),
      ) &&
      (shaft === undefined || this.#obstacles.every(({ line }) => !doCross(shaft, line)))
    );
  }

  /** The cheapest candidate that is free, taken; the first of equals. */
  place<C extends Candidate>(
    candidates: readonly (C | Batch<C>)[],
    bounds = this.#bounds,
  ): C | undefined {
    let best: C | undefined;
    let least = Infinity;
    const look = (candidate: C): void => {
      if ((candidate.cost ?? 0) >= least - EQUAL_COST) return;
      if (!this.isFree(candidate, bounds)) return;
      const cost = this.#costOf(candidate, least);
      if (cost < least - EQUAL_COST) [best, least] = [candidate, cost];
    };
    for (const one of candidates) {
      if (!('places' in one)) look(one);
      else if (one.leastCost < least - EQUAL_COST) one.places().forEach(look);
    }
    return best === undefined ? undefined : this.#settle(best);
  }

  /** What was chosen is in the way of what comes after it. */
  #settle<C extends Candidate>(best: C): C {
    this.take(...best.grounds);
    const { lines = [] } = best;
    this.#lines.push(...lines);
    this.avoid(...lines.map((line) => ({ line, cost: this.#costs.across })));
    return best;
  }

  /** No more exact than is needed to see that it is not less than `least`. */
  #costOf({ grounds, cost = 0, more, lines = [] }: Candidate, least: number): number {
    let sum = cost;
    for (const line of lines)
      for (const other of this.#lines) if (doCross(line, other)) sum += this.#costs.crossing;
    for (const obstacle of this.#obstacles) {
      if (sum >= least) return sum;
      if (grounds.some((ground) => runsThrough(ground, obstacle.line))) sum += obstacle.cost;
    }
    return sum < least && more !== undefined ? sum + more() : sum;
  }
}

const isWithin = ([x, y]: Vec2, { minX, minY, maxX, maxY }: Extents): boolean =>
  x >= minX && x <= maxX && y >= minY && y <= maxY;

/** Nearer than this, mm, a line runs along another. */
const ALONG_MM = 0.4;
/** Lines that meet within this share of an end do not cross: one ends on the other. */
const AT_END = 1e-6;

const doCross = (a: Line2, b: Line2): boolean => {
  const [u, v] = [sub(a[1], a[0]), sub(b[1], b[0])];
  const turn = cross(u, v);
  const size = Math.hypot(...u) * Math.hypot(...v);
  if (size === 0) return false;
  if (Math.abs(turn) < NEARLY_PARALLEL_SINE * size) return runsAlong(a, b);
  const w = sub(b[0], a[0]);
  const [s, t] = [cross(w, v) / turn, cross(w, u) / turn];
  return s > AT_END && s < 1 - AT_END && t > AT_END && t < 1 - AT_END;
};

const runsAlong = (a: Line2, b: Line2): boolean => {
  const long = Math.hypot(...sub(a[1], a[0]));
  const way = scale(sub(a[1], a[0]), 1 / long);
  if (Math.abs(cross(way, sub(b[0], a[0]))) > ALONG_MM) return false;
  const [s, t] = [dot(way, sub(b[0], a[0])), dot(way, sub(b[1], a[0]))].toSorted(
    (p, q) => p - q,
  ) as [number, number];
  return Math.min(t, long) - Math.max(s, 0) > ALONG_MM;
};
