import { distance, type Vec2 } from '../../geometry/vec2.ts';

/** Points by place, for finding those that lie near another. */
export class PointIndex {
  readonly points: Vec2[] = [];
  private readonly cells = new Map<string, number[]>();
  private readonly reach: number;

  /** `reach` is how far near may be, mm. */
  constructor(reach: number) {
    this.reach = reach;
  }

  /** Gives the number of the point. */
  add(p: Vec2): number {
    const [i, j] = this.cellOf(p);
    const key = `${i},${j}`;
    const cell = this.cells.get(key);
    const id = this.points.push(p) - 1;
    if (cell === undefined) this.cells.set(key, [id]);
    else cell.push(id);
    return id;
  }

  /** Numbers of the points that are near, the nearest first. */
  near(p: Vec2): number[] {
    const [i, j] = this.cellOf(p);
    const found: number[] = [];
    for (let di = -1; di <= 1; di++) for (let dj = -1; dj <= 1; dj++) found.push(...(this.cells.get(`${i + di},${j + dj}`) ?? []));
    const far = (id: number): number => distance(p, this.points[id] as Vec2);
    return found.filter((id) => far(id) <= this.reach).sort((a, b) => far(a) - far(b));
  }

  private cellOf([x, y]: Vec2): Vec2 {
    return [Math.floor(x / this.reach), Math.floor(y / this.reach)];
  }
}

/** Gives points that are one the same number: the first of them stands for all. */
export class Nodes {
  private readonly index: PointIndex;

  constructor(reach: number) {
    this.index = new PointIndex(reach);
  }

  at(p: Vec2): number {
    return this.index.near(p)[0] ?? this.index.add(p);
  }

  get count(): number {
    return this.index.points.length;
  }
}
