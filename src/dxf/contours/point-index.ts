import { distance, type Vec2 } from '../../geometry/vec2.ts';

/** Points by place, for finding those near another. */
export class PointIndex {
  readonly points: Vec2[] = [];
  private readonly cells = new Map<number, number[]>();
  private readonly reach: number;

  /** `reach` is the distance up to which a point counts as near, mm. */
  constructor(reach: number) {
    this.reach = reach;
  }

  /** Adds a point and returns its number. */
  add(p: Vec2): number {
    const key = keyOf(this.cellOf(p[0]), this.cellOf(p[1]));
    const cell = this.cells.get(key);
    const id = this.points.push(p) - 1;
    if (cell === undefined) this.cells.set(key, [id]);
    else cell.push(id);
    return id;
  }

  /** Numbers of the points that are near, the nearest first. */
  near(p: Vec2): number[] {
    const found: { readonly id: number; readonly far: number }[] = [];
    for (const cell of this.cellsAround(p)) {
      for (const id of cell) {
        const far = distance(p, this.points[id] as Vec2);
        if (far <= this.reach) found.push({ id, far });
      }
    }
    return found.sort((a, b) => a.far - b.far).map((f) => f.id);
  }

  /** Number of the nearest of them. */
  nearest(p: Vec2): number | undefined {
    let best: number | undefined;
    let least = this.reach;
    for (const cell of this.cellsAround(p)) {
      for (const id of cell) {
        const far = distance(p, this.points[id] as Vec2);
        if (far > least || (far === least && best !== undefined)) continue;
        [best, least] = [id, far];
      }
    }
    return best;
  }

  /** The one to four cells round a point; two that share a key are one. */
  private cellsAround([x, y]: Vec2): number[][] {
    const { reach } = this;
    const keys: number[] = [];
    const cells: number[][] = [];
    for (let i = this.cellOf(x - reach); i <= this.cellOf(x + reach); i++) {
      for (let j = this.cellOf(y - reach); j <= this.cellOf(y + reach); j++) {
        const key = keyOf(i, j);
        const cell = this.cells.get(key);
        if (cell === undefined || keys.includes(key)) continue;
        keys.push(key);
        cells.push(cell);
      }
    }
    return cells;
  }

  private cellOf(x: number): number {
    return Math.floor(x / (2 * this.reach));
  }
}

/**
 * Cells far from one another may share a key, which does no harm, because the distance to every
 * point in them is measured anyway.
 */
const keyOf = (i: number, j: number): number => Math.imul(i, 73_856_093) ^ Math.imul(j, 19_349_663);

/** Gives points that are one the same number; the first of them stands for all. */
export class Nodes {
  private readonly index: PointIndex;

  constructor(reach: number) {
    this.index = new PointIndex(reach);
  }

  at(p: Vec2): number {
    return this.index.nearest(p) ?? this.index.add(p);
  }

  get count(): number {
    return this.index.points.length;
  }
}
