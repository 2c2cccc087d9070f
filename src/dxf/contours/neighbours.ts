import type { Extents } from '../../geometry/extents.ts';
import { type Piece, partBulge, pointOn } from '../../geometry/piece.ts';
import { boxOfAll, pieceBox, pieceLength } from '../../geometry/piece-length.ts';

/** The most pairs that are compared; more take longer than a person waits. */
const MOST_PAIRS = 3_000_000;
/** Limit for the pairs whose boxes meet, which take far longer to compare. */
const MOST_VISITS = 500_000;
/** The most steps in which a long piece is entered among many short ones. */
const MOST_STEPS = 200;

/**
 * Visits all pairs of pieces whose boxes come within `nearMm` of each other, using a grid whose
 * cells are about as large as a piece is long. Returns false when there were too many pairs.
 */
export const forNeighbours = (
  pieces: readonly Piece[],
  nearMm: number,
  visit: (a: number, b: number) => void,
): boolean => {
  const boxes = pieces.map(pieceBox);
  const all = boxOfAll(boxes);
  if (all === undefined) return true;
  const grid = new Grid(pieces, boxes, all, nearMm);
  const seen = new Int32Array(pieces.length).fill(-1);
  let [pairs, visits] = [0, 0];
  for (let a = 0; a < pieces.length; a++) {
    for (const cell of grid.cellsOf[a] as readonly string[]) {
      for (const b of grid.in(cell)) {
        if (++pairs > MOST_PAIRS) return false;
        if (b <= a || seen[b] === a) continue;
        seen[b] = a;
        if (!meet(boxes[a] as Extents, boxes[b] as Extents, nearMm)) continue;
        if (++visits > MOST_VISITS) return false;
        visit(a, b);
      }
    }
  }
  return true;
};

const meet = (a: Extents, b: Extents, near: number): boolean =>
  a.minX <= b.maxX + near &&
  b.minX <= a.maxX + near &&
  a.minY <= b.maxY + near &&
  b.minY <= a.maxY + near;

class Grid {
  readonly cellsOf: readonly (readonly string[])[];
  private readonly cells = new Map<string, number[]>();

  constructor(pieces: readonly Piece[], boxes: readonly Extents[], all: Extents, near: number) {
    const lengths = pieces.map(pieceLength);
    const mean = lengths.reduce((a, b) => a + b, 0) / lengths.length;
    const extent = Math.max(all.maxX - all.minX, all.maxY - all.minY);
    const size = Math.max(mean, extent / Math.max(1, 2 * Math.sqrt(pieces.length)), 10 * near);
    this.cellsOf = pieces.map((p, i) =>
      cellsAlong(p, boxes[i] as Extents, lengths[i] as number, size, near),
    );
    this.cellsOf.forEach((keys, i) => {
      for (const key of keys) {
        const cell = this.cells.get(key);
        if (cell === undefined) this.cells.set(key, [i]);
        else cell.push(i);
      }
    });
  }

  in(cell: string): readonly number[] {
    return this.cells.get(cell) ?? [];
  }
}

const cellsAlong = (
  p: Piece,
  box: Extents,
  length: number,
  size: number,
  near: number,
): string[] => {
  const steps = Math.min(MOST_STEPS, Math.max(1, Math.ceil(length / size)));
  const keys = new Set<string>();
  for (let k = 0; k < steps; k++) {
    const part =
      steps === 1
        ? box
        : pieceBox({
            from: pointOn(p, k / steps),
            to: pointOn(p, (k + 1) / steps),
            bulge: partBulge(p.bulge, 0, 1 / steps),
          });
    const [i0, i1] = [Math.floor((part.minX - near) / size), Math.floor((part.maxX + near) / size)];
    const [j0, j1] = [Math.floor((part.minY - near) / size), Math.floor((part.maxY + near) / size)];
    for (let i = i0; i <= i1; i++) for (let j = j0; j <= j1; j++) keys.add(`${i},${j}`);
  }
  return [...keys];
};
