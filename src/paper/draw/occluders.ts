import type { Vec3 } from '../../geometry/vec3.ts';

/** A triangle as it is seen: corners as right, up and nearness, counter-clockwise. */
export type SeenTriangle = readonly [Vec3, Vec3, Vec3];

/**
 * Triangles are taken as larger by this, mm, so that nothing is seen between two that share a side.
 */
const GROWN_MM = 1e-6;

/** What lies less than this behind a triangle, mm, lies on it. */
const BEHIND_MM = 1e-4;

/** A triangle narrower than this, mm, hides nothing. */
const LEAST_WIDTH_MM = 1e-3;

/**
 * Numbers kept of a triangle: three sides as a x + b y + c, its nearness as the same, and how far
 * behind it one has to be.
 */
const FIELDS = 13;

/**
 * The triangles of a closed body that face whoever looks, ready to be asked what they hide: exact
 * but for the tolerances above. A grid over the picture keeps each question to the triangles near
 * it.
 */
export class Occluders {
  private readonly data: Float64Array;
  private readonly cells: number[][] = [];
  private readonly stamp: Int32Array;
  private question = 0;
  private readonly count: number;
  private readonly lowX: number;
  private readonly lowY: number;
  private readonly step: number;

  constructor(triangles: readonly SeenTriangle[]) {
    const used = triangles.filter(isWide);
    this.data = new Float64Array(used.length * FIELDS);
    this.stamp = new Int32Array(used.length);
    this.count = Math.max(1, Math.min(200, Math.ceil(Math.sqrt(used.length))));
    let [lowX, lowY, highX, highY] = [Infinity, Infinity, -Infinity, -Infinity];
    for (const triangle of used) {
      for (const [x, y] of triangle) {
        lowX = Math.min(lowX, x);
        lowY = Math.min(lowY, y);
        highX = Math.max(highX, x);
        highY = Math.max(highY, y);
      }
    }
    this.lowX = lowX;
    this.lowY = lowY;
    this.step = Math.max(highX - lowX, highY - lowY, LEAST_WIDTH_MM) / this.count;
    this.cells = Array.from({ length: this.count * this.count }, () => []);
    used.forEach((triangle, i) => this.put(triangle, i));
  }

  /** Stretches of a line that are hidden, as shares of it, rising and apart from each other. */
  hidden(from: Vec3, to: Vec3): [number, number][] {
    const found: [number, number][] = [];
    this.near(from, to, (i) => {
      const stretch = this.stretch(i, from, to);
      if (stretch !== undefined) found.push(stretch);
    });
    return merged(found);
  }

  isHidden(at: Vec3): boolean {
    return this.hidden(at, at).length > 0;
  }

  /** Whether there is metal at a place of the picture, near or far. */
  covers(x: number, y: number): boolean {
    return this.isHidden([x, y, -1e9]);
  }

  private put(triangle: SeenTriangle, i: number): void {
    const at = i * FIELDS;
    triangle.forEach(([x, y], k) => {
      const [nx, ny] = triangle[(k + 1) % 3] as Vec3;
      const long = Math.hypot(nx - x, ny - y);
      const [a, b] = [(y - ny) / long, (nx - x) / long];
      this.data.set([a, b, -a * x - b * y], at + 3 * k);
    });
    const [[x0, y0, z0], [x1, y1, z1], [x2, y2, z2]] = triangle;
    const whole = (x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0);
    const px = ((z1 - z0) * (y2 - y0) - (z2 - z0) * (y1 - y0)) / whole;
    const py = ((x1 - x0) * (z2 - z0) - (x2 - x0) * (z1 - z0)) / whole;
    this.data.set(
      [px, py, z0 - px * x0 - py * y0, BEHIND_MM + 2 * GROWN_MM * Math.hypot(px, py)],
      at + 9,
    );
    const [left, right] = [
      this.cell(Math.min(x0, x1, x2) - this.lowX),
      this.cell(Math.max(x0, x1, x2) - this.lowX),
    ];
    const [low, high] = [
      this.cell(Math.min(y0, y1, y2) - this.lowY),
      this.cell(Math.max(y0, y1, y2) - this.lowY),
    ];
    for (let row = low; row <= high; row++)
      for (let column = left; column <= right; column++)
        this.cells[row * this.count + column]?.push(i);
  }

  private cell(offset: number): number {
    return Math.min(this.count - 1, Math.max(0, Math.floor(offset / this.step)));
  }

  /** Each triangle of the cells that a line runs through, once. */
  private near([x0, y0]: Vec3, [x1, y1]: Vec3, use: (triangle: number) => void): void {
    this.question += 1;
    const [low, high] = [
      this.cell(Math.min(y0, y1) - this.lowY - GROWN_MM),
      this.cell(Math.max(y0, y1) - this.lowY + GROWN_MM),
    ];
    for (let row = low; row <= high; row++) {
      // The part of the line within the row, and a little more.
      const [bottom, top] = [this.lowY + row * this.step, this.lowY + (row + 1) * this.step];
      const shareAt = (y: number): number =>
        low === high ? 0 : Math.min(1, Math.max(0, (y - y0) / (y1 - y0)));
      const [s, t] = low === high ? [0, 1] : [shareAt(bottom - GROWN_MM), shareAt(top + GROWN_MM)];
      const [xs, xt] = [x0 + s * (x1 - x0), x0 + t * (x1 - x0)];
      const [left, right] = [
        this.cell(Math.min(xs, xt) - this.lowX - GROWN_MM),
        this.cell(Math.max(xs, xt) - this.lowX + GROWN_MM),
      ];
      for (let column = left; column <= right; column++) {
        for (const i of this.cells[row * this.count + column] as number[]) {
          if (this.stamp[i] === this.question) continue;
          this.stamp[i] = this.question;
          use(i);
        }
      }
    }
  }

  /** Where a line is inside a triangle's shape and behind it: five linear conditions. */
  private stretch(i: number, [x0, y0, z0]: Vec3, [x1, y1, z1]: Vec3): [number, number] | undefined {
    const d = this.data;
    const at = i * FIELDS;
    let [from, to] = [0, 1];
    for (let k = 0; k < 4; k++) {
      const [a, b, c] = [
        d[at + 3 * k] as number,
        d[at + 3 * k + 1] as number,
        d[at + 3 * k + 2] as number,
      ];
      const behind = d[at + 12] as number;
      const first = a * x0 + b * y0 + c + (k < 3 ? GROWN_MM : -z0 - behind);
      const last = a * x1 + b * y1 + c + (k < 3 ? GROWN_MM : -z1 - behind);
      if (first < 0 && last < 0) return undefined;
      if (first < 0) from = Math.max(from, first / (first - last));
      else if (last < 0) to = Math.min(to, first / (first - last));
      if (from > to) return undefined;
    }
    return [from, to];
  }
}

const isWide = ([[x0, y0], [x1, y1], [x2, y2]]: SeenTriangle): boolean => {
  const area = (x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0);
  return (
    area >
    LEAST_WIDTH_MM *
      Math.max(
        Math.hypot(x1 - x0, y1 - y0),
        Math.hypot(x2 - x1, y2 - y1),
        Math.hypot(x0 - x2, y0 - y2),
      )
  );
};

const merged = (stretches: [number, number][]): [number, number][] => {
  const sorted = stretches.toSorted((a, b) => a[0] - b[0]);
  const found: [number, number][] = [];
  for (const [from, to] of sorted) {
    const last = found[found.length - 1];
    if (last !== undefined && from <= last[1]) last[1] = Math.max(last[1], to);
    else found.push([from, to]);
  }
  return found;
};
