import type { Extents } from '../../geometry/extents.ts';
import { type Ground, type Line2, runsThrough } from '../draw/ground.ts';

/** Side of a cell, mm of paper. */
const CELL_MM = 8;

/** Lines on paper by where they are, so that a text asks only those near it. */
export class LineGrid {
  readonly #cells = new Map<string, Line2[]>();

  constructor(lines: readonly Line2[]) {
    for (const line of lines)
      for (const key of keysOf(boxOf(line))) {
        const cell = this.#cells.get(key);
        if (cell === undefined) this.#cells.set(key, [line]);
        else cell.push(line);
      }
  }

  /** Whether none of the lines runs through a ground. */
  isClear(ground: Ground): boolean {
    return keysOf(ground.box).every(
      (key) => this.#cells.get(key)?.every((line) => !runsThrough(ground, line)) !== false,
    );
  }
}

const boxOf = ([[ax, ay], [bx, by]]: Line2): Extents => ({
  minX: Math.min(ax, bx),
  minY: Math.min(ay, by),
  maxX: Math.max(ax, bx),
  maxY: Math.max(ay, by),
});

const keysOf = ({ minX, minY, maxX, maxY }: Extents): string[] => {
  const cell = (mm: number): number => Math.floor(mm / CELL_MM);
  const keys: string[] = [];
  for (let i = cell(minX); i <= cell(maxX); i++)
    for (let j = cell(minY); j <= cell(maxY); j++) keys.push(`${i} ${j}`);
  return keys;
};
