import { dot3, type Vec3 } from '../../geometry/vec3.ts';
import type { Mesh } from '../../model/mesh.ts';
import { type Camera, cameraAt, seen } from './camera.ts';

/**
 * From the left and right of each side, and from two heights; the first is taken where others show
 * no more.
 */
const SIDES = [-60, -120, -30, -150, 60, 120, 30, 150];
const RISES = [35, 50];
/** From lower only where that shows panels that are not seen from above: under a table. */
const LOW_RISES = [20];
/** Of many facets it does not matter whether each is seen. */
const MOST_COUNTED = 12;

/** Rows of the raster on which a direction is judged. */
const ROWS = 48;

/** A later direction is taken only if it shows this much more. */
const BETTER = 1.02;

/** The direction from above in which most panels are seen, and most of each. */
export const bestCamera = (mesh: Mesh): Camera => {
  const above = bestAt(mesh, RISES);
  const panels = new Set(mesh.faces.flatMap(({ of, kind }) => (kind === 'panel' ? [of] : []))).size;
  if (above.panels === panels || panels > MOST_COUNTED) return above.camera;
  const low = bestAt(mesh, LOW_RISES);
  return low.panels > above.panels ? low.camera : above.camera;
};

interface View extends Shown {
  readonly camera: Camera;
}

const bestAt = (mesh: Mesh, rises: readonly number[]): View => {
  const [low, high] = boxOf(mesh.points);
  const size = Math.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]) || 1;
  const middle: Vec3 = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2];
  const views = rises.flatMap((rise) => SIDES.map((side) => cameraAt(side, rise)));
  return views
    .map((camera): View => ({ camera, ...shownIn(mesh, camera, middle, size) }))
    .reduce((best, view) => (view.score > best.score * BETTER ? view : best));
};

/** Lowest and highest corner of the upright box round points. */
export const boxOf = (points: readonly Vec3[]): [Vec3, Vec3] => {
  const ends = (pick: (...values: number[]) => number, start: number): Vec3 =>
    points.reduce<Vec3>(
      (m, p) => [pick(m[0], p[0]), pick(m[1], p[1]), pick(m[2], p[2])],
      [start, start, start],
    );
  return [ends(Math.min, Infinity), ends(Math.max, -Infinity)];
};

/** What is seen of a part. */
interface Shown {
  /**
   * The sum of the roots of what is seen of each panel: a small flange counts for more than as much
   * of a large one.
   */
  readonly score: number;
  /** How many panels are seen. */
  readonly panels: number;
}

/** Places of the raster that a panel covers at least to be seen. */
const SEEN = 6;

const shownIn = (
  { points, triangles, faces }: Mesh,
  camera: Camera,
  middle: Vec3,
  size: number,
): Shown => {
  const raster = new Raster(ROWS);
  const step = size / ROWS;
  const [mx, my] = seen(camera, middle);
  const placed = points.map((p): Vec3 => {
    const [x, y, z] = seen(camera, p);
    return [(x - mx) / step + ROWS / 2, (y - my) / step + ROWS / 2, z];
  });
  for (const { corners, face } of triangles) {
    const [a, b, c] = [placed[corners[0]], placed[corners[1]], placed[corners[2]]] as [
      Vec3,
      Vec3,
      Vec3,
    ];
    if ((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]) > 0)
      raster.paint(a, b, c, face);
  }
  const cells = new Int32Array(faces.length);
  for (const face of raster.face) if (face >= 0) cells[face] = (cells[face] as number) + 1;
  const shown = new Map<string, number>();
  faces.forEach(({ of, kind }, face) => {
    if (kind === 'panel' && cells[face] !== 0)
      shown.set(of, (shown.get(of) ?? 0) + (cells[face] as number));
  });
  const cellsOf = [...shown.values()];
  return {
    // What lies towards the viewer more squarely is seen better.
    score:
      cellsOf.reduce((sum, n) => sum + Math.sqrt(n), 0) *
      (1 + 0.02 * dot3(camera.toward, [0, 0, 1])),
    panels: cellsOf.filter((n) => n >= SEEN).length,
  };
};

/** Which face is nearest at each point of a coarse raster. */
class Raster {
  readonly face: Int32Array;
  private readonly near: Float64Array;
  private readonly rows: number;

  constructor(rows: number) {
    this.rows = rows;
    this.face = new Int32Array(rows * rows).fill(-1);
    this.near = new Float64Array(rows * rows).fill(-Infinity);
  }

  paint(a: Vec3, b: Vec3, c: Vec3, face: number): void {
    const whole = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
    const [left, right] = this.span(a[0], b[0], c[0]);
    const [low, high] = this.span(a[1], b[1], c[1]);
    for (let row = low; row <= high; row++) {
      for (let column = left; column <= right; column++) {
        const [x, y] = [column + 0.5, row + 0.5];
        const v = ((x - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (y - a[1])) / whole;
        const w = ((b[0] - a[0]) * (y - a[1]) - (x - a[0]) * (b[1] - a[1])) / whole;
        if (v < 0 || w < 0 || v + w > 1) continue;
        const z = a[2] + v * (b[2] - a[2]) + w * (c[2] - a[2]);
        const at = row * this.rows + column;
        if (z <= (this.near[at] as number)) continue;
        this.near[at] = z;
        this.face[at] = face;
      }
    }
  }

  private span(a: number, b: number, c: number): [number, number] {
    return [
      Math.max(0, Math.ceil(Math.min(a, b, c) - 0.5)),
      Math.min(this.rows - 1, Math.floor(Math.max(a, b, c) - 0.5)),
    ];
  }
}
