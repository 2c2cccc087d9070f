import { pointExtents } from '../../geometry/extents.ts';
import type { Piece } from '../../geometry/piece.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Area, Label, Picture, PictureItem } from '../../model/picture.ts';

/** The size of a letter's cell on the picture, mm. */
export interface CellSize {
  readonly width: number;
  readonly height: number;
}

/**
 * A picture in letters, for a terminal, a line of text for each row of cells: level and upright lines,
 * `+` where they meet, arrow heads, circles of any size as `o`, and texts. What is white clears what was
 * painted before it. Slanted lines and groups have no letters, and are passed over.
 */
export const pictureText = ({ heightMm, items }: Picture, cell: CellSize): string[] => {
  const grid = new Grid(heightMm, cell);
  for (const item of items) grid.paint(item);
  return grid.lines();
};

const LINES = { level: '-', upright: '|' } as const;
/** A share of a cell: a line that ends on the edge of one does not reach into the next. */
const EDGE = 1e-6;

class Grid {
  readonly #rows: string[][] = [];
  readonly #heightMm: number;
  readonly #cell: CellSize;

  constructor(heightMm: number, cell: CellSize) {
    this.#heightMm = heightMm;
    this.#cell = cell;
  }

  lines(): string[] {
    return this.#rows.map((row) => row.join('').trimEnd());
  }

  paint(item: PictureItem): void {
    switch (item.kind) {
      case 'curve':
        for (const piece of item.pieces) this.#line(piece);
        break;
      case 'area':
        this.#area(item);
        break;
      case 'round':
        this.#put(...this.#cellAt(item.centre), 'o');
        break;
      case 'label':
        this.#label(item);
        break;
      case 'group':
        break;
    }
  }

  /** Column and row, as numbers with shares of a cell. */
  #place([x, y]: Vec2): Vec2 {
    return [x / this.#cell.width, (this.#heightMm - y) / this.#cell.height];
  }

  #cellAt(p: Vec2): [column: number, row: number] {
    const [column, row] = this.#place(p);
    return [Math.floor(column), Math.floor(row)];
  }

  #put(column: number, row: number, letter: string): void {
    while (this.#rows.length <= row) this.#rows.push([]);
    const letters = this.#rows[row] as string[];
    while (letters.length < column) letters.push(' ');
    letters[column] = letter;
  }

  #line({ from, to, bulge }: Piece): void {
    const [a, b] = [this.#place(from), this.#place(to)];
    const along = a[1] === b[1] ? 0 : 1;
    if (bulge !== 0 || a[1 - along] !== b[1 - along]) return;
    const [own, other] = along === 0 ? [LINES.level, LINES.upright] : [LINES.upright, LINES.level];
    const across = Math.floor(a[1 - along] as number);
    const [first, last] = [a[along] as number, b[along] as number].toSorted((p, q) => p - q) as [
      number,
      number,
    ];
    for (let i = Math.floor(first + EDGE); i <= Math.floor(last - EDGE); i++) {
      const [column, row] = along === 0 ? [i, across] : [across, i];
      this.#put(column, row, this.#rows[row]?.[column] === other ? '+' : own);
    }
  }

  /** A head of an arrow where it is black; blank cells where it is white. */
  #area({ rims, fill }: Area): void {
    const corners = rims.flatMap((rim) => rim.map((p) => p.from));
    const box = pointExtents(corners);
    if (box === undefined) return;
    if (fill === 1) {
      const [left, top] = this.#place([box.minX, box.maxY]);
      const [right, bottom] = this.#place([box.maxX, box.minY]);
      for (let row = Math.round(top); row < Math.round(bottom); row++)
        for (let column = Math.round(left); column < Math.round(right); column++)
          this.#put(column, row, ' ');
    } else if (corners.length === 3) {
      const middle: Vec2 = [0, 1].map(
        (i) => corners.reduce((sum, p) => sum + (p[i] as number), 0) / 3,
      ) as unknown as Vec2;
      this.#put(...this.#cellAt(middle), headOf(corners, middle));
    }
  }

  /** The letters stand in the row in which the middle of the capitals lies. */
  #label({ at: [x, y], sizeMm, text, align = 'left' }: Label): void {
    const [column, row] = this.#place([x, y + 0.36 * sizeMm]);
    const start = column - text.length * { left: 0, middle: 1 / 2, right: 1 }[align];
    [...text].forEach((letter, i) => this.#put(Math.round(start) + i, Math.floor(row), letter));
  }
}

/** The tip lies farther from the middle of a head than its other corners. */
const headOf = (corners: readonly Vec2[], [x, y]: Vec2): string => {
  const ways = corners.map(([px, py]): Vec2 => [px - x, py - y]);
  const [dx, dy] = ways.reduce((tip, way) => (Math.hypot(...way) > Math.hypot(...tip) ? way : tip));
  if (Math.abs(dx) > Math.abs(dy)) return dx > 0 ? '>' : '<';
  return dy > 0 ? '^' : 'v';
};
