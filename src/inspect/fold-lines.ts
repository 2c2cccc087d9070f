import { loopOf } from '../dxf/contours/join.ts';
import { PointIndex } from '../dxf/contours/point-index.ts';
import { layerKey } from '../dxf/read/layers.ts';
import { type Extents, loopExtents } from '../geometry/extents.ts';
import { pointGap } from '../geometry/gap.ts';
import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import { cross, distance, middle, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { intentOf } from './intent.ts';
import type { Chain } from './understand.ts';

/** A straight line of one piece, or of several in a row. */
interface Run {
  readonly from: Vec2;
  readonly to: Vec2;
}

/** An end nearer to the edge of the metal than this, mm, was meant to lie on it. */
const EDGE_MM = 1;
/** An end nearer to another line's end than this share of its length was meant to meet it. */
const MEETS_SHARE = 0.25;
const MOST_NEAR_MM = 20;
/** Sine of the angle up to which two lines run the same way, about 3 degrees. */
const SAME_WAY_SINE = 0.05;
/**
 * The most corners of contours, and ends of lines, that are examined in all; more take longer than
 * a person waits.
 */
const MOST_STEPS = 10_000_000;

/**
 * The open chains that are lines which a blank is folded or measured along, and not contours that
 * were left open. Such a chain is on a layer without contours whose name does not speak of cutting;
 * it is straight, it lies within a closed contour, and each of its ends lies on an edge, beyond it,
 * or by itself. All others count as contours that do not close: one question too many is better
 * than a part that does not come out of the sheet.
 */
export const foldLikes = (open: readonly Chain[], closed: readonly Chain[]): ReadonlySet<Chain> => {
  const cutLayers = new Set(closed.flatMap((chain) => chain.map((p) => layerKey(p.layer))));
  const asked = open.filter((chain) =>
    chain.every(
      (p) => p.bulge === 0 && !cutLayers.has(layerKey(p.layer)) && intentOf(p.layer) !== 'cut',
    ),
  );
  if (asked.length === 0 || closed.length === 0) return new Set();
  const metal = new Metal(closed);
  const lines = new Lines(open.flatMap(runsOf));
  return new Set(
    asked.filter((chain) => runsOf(chain).every((run) => isFoldLike(run, metal, lines))),
  );
};

const isFoldLike = (run: Run, metal: Metal, lines: Lines): boolean =>
  metal.holds(middle(run.from, run.to)) &&
  [run.from, run.to].every((end) => metal.isAtEdge(end) || !lines.meet(run, end));

/** A chain cut where it bends. */
const runsOf = (chain: Chain): Run[] => {
  const runs: { from: Vec2; to: Vec2 }[] = [];
  let before: Vec2 | undefined;
  for (const { from, to } of chain) {
    const along = unit(sub(to, from));
    const last = runs.at(-1);
    if (last !== undefined && before !== undefined && isParallel(before, along)) last.to = to;
    else runs.push({ from, to });
    before = along;
  }
  return runs;
};

const isParallel = (a: Vec2, b: Vec2): boolean => Math.abs(cross(a, b)) < SAME_WAY_SINE;

/** Tells where the metal of the closed contours is. */
class Metal {
  private readonly loops: readonly { readonly loop: Loop; readonly box: Extents }[];
  private steps = 0;

  constructor(closed: readonly Chain[]) {
    this.loops = closed
      .map((chain) => loopOf(chain))
      .map((loop) => ({ loop, box: loopExtents(loop) as Extents }));
  }

  /** Whether any contour lies round a point; none does when there is too much to examine. */
  holds(p: Vec2): boolean {
    return this.near(p, 0).some((loop) => isInside(loop, p));
  }

  isAtEdge(p: Vec2): boolean {
    const near = this.near(p, EDGE_MM);
    return (
      near.some((loop) => pointGap(p, loop) <= EDGE_MM) || !near.some((loop) => isInside(loop, p))
    );
  }

  private near([x, y]: Vec2, mm: number): Loop[] {
    const found = this.loops
      .filter(
        ({ box }) =>
          x >= box.minX - mm && x <= box.maxX + mm && y >= box.minY - mm && y <= box.maxY + mm,
      )
      .map(({ loop }) => loop);
    this.steps += this.loops.length + found.reduce((sum, loop) => sum + loop.length, 0);
    return this.steps > MOST_STEPS ? [] : found;
  }
}

/** The places where straight lines end. */
class Lines {
  private readonly runs: readonly Run[];
  private readonly ends = new PointIndex(MOST_NEAR_MM);
  private steps = 0;

  constructor(runs: readonly Run[]) {
    this.runs = runs;
    for (const { from, to } of runs) {
      this.ends.add(from);
      this.ends.add(to);
    }
  }

  /** Whether another line that runs another way ends where a line does, or nearly so. */
  meet(run: Run, end: Vec2): boolean {
    const along = unit(sub(run.to, run.from));
    const reach = Math.min(
      MOST_NEAR_MM,
      Math.max(EDGE_MM, MEETS_SHARE * distance(run.from, run.to)),
    );
    // Thousands of lines that end in one place make a star, not folds.
    if (this.steps > MOST_STEPS) return true;
    const near = this.ends.near(end);
    this.steps += near.length;
    return near.some((i) => {
      const { from, to } = this.runs[i >> 1] as Run;
      const at = i % 2 === 0 ? from : to;
      return distance(at, end) <= reach && !isParallel(along, unit(sub(to, from)));
    });
  }
}
