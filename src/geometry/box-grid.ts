import { type Extents, jointExtents } from './extents.ts';
import { NOISE_MM } from './tolerance.ts';
import type { Vec2 } from './vec2.ts';

/** A point as a box. */
export const spot = ([x, y]: Vec2): Extents => ({ minX: x, minY: y, maxX: x, maxY: y });

/** So few boxes are gone through one by one, which is sooner done than a grid is made. */
export const FEW_BOXES = 24;
/** A box over more cells than this is looked at with every question instead. */
const MOST_CELLS = 64;

/** Boxes by where they are, for finding those that come near another. */
export class BoxGrid {
  readonly #boxes: readonly Extents[];
  #cells: Cells | undefined;

  /** Boxes never change. Nothing is sorted before the first question. */
  constructor(boxes: readonly Extents[]) {
    this.#boxes = boxes;
  }

  /**
   * Numbers of the boxes that come within `withinMm` of a box, across and upright each taken alone,
   * or within `NOISE_MM` more, in their order: who asks measures what he is given.
   */
  near(box: Extents, withinMm: number): number[] {
    const asked = grown(box, withinMm + NOISE_MM);
    const boxes = this.#boxes;
    const some =
      boxes.length <= FEW_BOXES ? undefined : (this.#cells ??= new Cells(boxes)).candidates(asked);
    if (some === undefined) return meeting(boxes, asked);
    return some.filter((i) => meet(boxes[i] as Extents, asked)).sort((a, b) => a - b);
  }
}

const meeting = (boxes: readonly Extents[], asked: Extents): number[] => {
  const found: number[] = [];
  for (let i = 0; i < boxes.length; i++) if (meet(boxes[i] as Extents, asked)) found.push(i);
  return found;
};

const grown = ({ minX, minY, maxX, maxY }: Extents, by: number): Extents => ({
  minX: minX - by,
  minY: minY - by,
  maxX: maxX + by,
  maxY: maxY + by,
});

const meet = (a: Extents, b: Extents): boolean =>
  a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY && b.minY <= a.maxY;

/** First and last column, first and last row. */
type Span = readonly [i0: number, i1: number, j0: number, j1: number];

/** A grid over all boxes, with about as many cells as there are boxes. */
class Cells {
  readonly #at: Extents;
  readonly #columns: number;
  readonly #rows: number;
  readonly #sizeMm: number;
  /** Where the numbers of each cell begin in `#numbers`, the cells row by row. */
  readonly #begins: Int32Array;
  readonly #numbers: Int32Array;
  readonly #wide: number[] = [];
  /** The last question in which each box came up: it lies in several cells. */
  readonly #seen: Int32Array;
  #question = 0;

  constructor(boxes: readonly Extents[]) {
    const at = jointExtents(boxes) as Extents;
    const [width, height] = [at.maxX - at.minX, at.maxY - at.minY];
    this.#at = at;
    this.#sizeMm =
      Math.max(Math.sqrt((width * height) / boxes.length), (width + height) / boxes.length) || 1;
    this.#columns = Math.floor(width / this.#sizeMm) + 1;
    this.#rows = Math.floor(height / this.#sizeMm) + 1;
    this.#begins = new Int32Array(this.#columns * this.#rows + 1);
    this.#seen = new Int32Array(boxes.length);
    const spans = boxes.map((box) => this.#spanOf(box));
    this.#wide = spans.flatMap((span, i) => (cellsIn(span) > MOST_CELLS ? [i] : []));
    const narrow = spans.map((span) => (cellsIn(span) > MOST_CELLS ? undefined : span));
    this.#numbers = this.#filled(narrow);
  }

  /** The numbers of all boxes in the cells that a box reaches; undefined where that is most. */
  candidates(box: Extents): number[] | undefined {
    const span = this.#spanOf(box);
    if (2 * cellsIn(span) > this.#begins.length) return undefined;
    this.#question += 1;
    const found = [...this.#wide];
    this.#forCells(span, (cell) => {
      const end = this.#begins[cell + 1] as number;
      for (let k = this.#begins[cell] as number; k < end; k++) {
        const i = this.#numbers[k] as number;
        if (this.#seen[i] === this.#question) continue;
        this.#seen[i] = this.#question;
        found.push(i);
      }
    });
    return found;
  }

  /** Sorts the boxes into the cells: counts them, then puts each behind those before it. */
  #filled(spans: readonly (Span | undefined)[]): Int32Array {
    const begins = this.#begins;
    for (const span of spans)
      if (span !== undefined) this.#forCells(span, (cell) => (begins[cell + 1] as number)++);
    for (let cell = 1; cell < begins.length; cell++)
      (begins[cell] as number) += begins[cell - 1] as number;
    const numbers = new Int32Array(begins.at(-1) as number);
    const next = begins.slice();
    for (const [i, span] of spans.entries())
      if (span !== undefined)
        this.#forCells(span, (cell) => {
          numbers[(next[cell] as number)++] = i;
        });
    return numbers;
  }

  #forCells([i0, i1, j0, j1]: Span, visit: (cell: number) => void): void {
    for (let j = j0; j <= j1; j++) for (let i = i0; i <= i1; i++) visit(j * this.#columns + i);
  }

  #spanOf({ minX, minY, maxX, maxY }: Extents): Span {
    const { minX: left, minY: low } = this.#at;
    const cell = (mm: number, count: number): number =>
      Math.min(count - 1, Math.max(0, Math.floor(mm / this.#sizeMm)));
    return [
      cell(minX - left, this.#columns),
      cell(maxX - left, this.#columns),
      cell(minY - low, this.#rows),
      cell(maxY - low, this.#rows),
    ];
  }
}

const cellsIn = ([i0, i1, j0, j1]: Span): number => (i1 - i0 + 1) * (j1 - j0 + 1);
