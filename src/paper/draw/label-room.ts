import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import type { Extents } from '../../geometry/extents.ts';
import { invert, type Motion2, movePoint } from '../../geometry/motion2.ts';
import { stretchInBox } from '../../geometry/stretch-in-box.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Label } from '../../model/picture.ts';
import { textWidthMm } from './text-width.ts';

/** Of letters under the base line and above it, as shares of the size of Helvetica. */
const DEPTH = 0.22;
const HEIGHT = 0.75;

/** The box of a line of text as it lies before it is turned about `at`. */
export const levelBoxOf = ({ sizeMm, text, align = 'left', isBold = false }: Label): Extents => {
  const wide = textWidthMm(text, sizeMm, isBold);
  const minX = -wide * { left: 0, middle: 1 / 2, right: 1 }[align];
  return { minX, minY: -DEPTH * sizeMm, maxX: minX + wide, maxY: HEIGHT * sizeMm };
};

const turnOf = ({ at, angleDeg = 0 }: Label): Motion2 => ({
  c: cosDeg(angleDeg),
  s: sinDeg(angleDeg),
  x: at[0],
  y: at[1],
});

/** The four corners of a line of text on the paper. */
export const cornersOf = (label: Label): Vec2[] => {
  const { minX, minY, maxX, maxY } = levelBoxOf(label);
  return (
    [
      [minX, minY],
      [maxX, minY],
      [maxX, maxY],
      [minX, maxY],
    ] as const
  ).map((p) => movePoint(turnOf(label), p));
};

/**
 * Whether the boxes of two lines of text have anything in common: turned rectangles miss each other
 * along a side of one of them.
 */
export const doOverlap = (a: Label, b: Label): boolean => !isApart(a, b) && !isApart(b, a);

const isApart = (a: Label, b: Label): boolean => {
  const box = levelBoxOf(a);
  const home = invert(turnOf(a));
  const other = cornersOf(b).map((p) => movePoint(home, p));
  const isAll = (test: (p: Vec2) => boolean): boolean => other.every(test);
  return (
    isAll(([x]) => x <= box.minX) ||
    isAll(([x]) => x >= box.maxX) ||
    isAll(([, y]) => y <= box.minY) ||
    isAll(([, y]) => y >= box.maxY)
  );
};

/** Whether a straight line runs through the box of a text. */
export const runsThroughLabel = (label: Label, [from, to]: readonly [Vec2, Vec2]): boolean => {
  const home = invert(turnOf(label));
  const stretch = stretchInBox(levelBoxOf(label), movePoint(home, from), movePoint(home, to));
  return stretch !== undefined && stretch[0] < stretch[1];
};

/** A line on the paper, and what it costs a text to lie across it. */
export interface Obstacle {
  readonly line: readonly [Vec2, Vec2];
  readonly cost: number;
}

export interface Candidate {
  readonly label: Label;
  /** What this place costs by itself. */
  readonly cost: number;
  /** A line that comes with it, from the text to what it names. */
  readonly leader?: readonly [Vec2, Vec2];
}

/**
 * Where on a sheet of paper there is room for texts: it remembers those that were placed. No two of
 * them overlap.
 */
export class LabelRoom {
  readonly #page: Extents;
  readonly #obstacles: Obstacle[];
  readonly #placed: Label[] = [];

  constructor(page: Extents, obstacles: readonly Obstacle[]) {
    this.#page = page;
    this.#obstacles = [...obstacles];
  }

  /** Takes a text as it stands. */
  take(label: Label): void {
    this.#placed.push(label);
  }

  /**
   * The cheapest candidate that touches no text and stays on the paper, taken; the first of equals.
   */
  place(candidates: readonly Candidate[]): Candidate | undefined {
    let best: { readonly cost: number; readonly candidate: Candidate } | undefined;
    for (const candidate of candidates) {
      if (best !== undefined && candidate.cost >= best.cost) continue;
      if (!this.#isFree(candidate)) continue;
      const cost =
        candidate.cost +
        this.#obstacles.reduce(
          (sum, o) => sum + (runsThroughLabel(candidate.label, o.line) ? o.cost : 0),
          0,
        );
      if (best === undefined || cost < best.cost) best = { cost, candidate };
    }
    if (best === undefined) return undefined;
    this.#placed.push(best.candidate.label);
    if (best.candidate.leader !== undefined)
      this.#obstacles.push({ line: best.candidate.leader, cost: LEADER_COST });
    return best.candidate;
  }

  #isFree({ label, leader }: Candidate): boolean {
    const { minX, minY, maxX, maxY } = this.#page;
    if (cornersOf(label).some(([x, y]) => x < minX || y < minY || x > maxX || y > maxY))
      return false;
    return this.#placed.every(
      (other) =>
        !doOverlap(label, other) && (leader === undefined || !runsThroughLabel(other, leader)),
    );
  }
}

const LEADER_COST = 200;
