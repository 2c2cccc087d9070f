import { type Layout, moveTo, noFitBetween, roomFor } from './layout.ts';
import { EDGE, isInRings, type NoFit } from './no-fit.ts';

/** Sweeps over all pairs before it is given up. */
const SWEEPS = 200;

/** What may stay of an overlap, as a share of the sheet's width: the noise of sums. */
export const SETTLED_SHARE = 1e-9;

/**
 * Pushes items that overlap a little out of each other, half the way each, again and again, within
 * their sheets; whether nothing overlaps in the end.
 */
export const settle = (layout: Layout): boolean => {
  const width = Math.max(...layout.task.sheets.map((s) => s.width));
  const pairs = closePairs(layout, NEIGHBOUR_SHARE * width);
  let before = Infinity;
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    const deepest = pushOnce(layout, pairs, SETTLED_SHARE * width);
    if (deepest <= SETTLED_SHARE * width) return true;
    if (sweep % PATIENCE !== PATIENCE - 1) continue;
    if (deepest > SETTLING * before) return false;
    before = deepest;
  }
  return false;
};

/** After so many sweeps the deepest overlap has to have come down to this share of what it was. */
const PATIENCE = 10;
const SETTLING = 0.6;

/** Items are pushed no farther than this, as a share of the width, so other pairs do not meet. */
const NEIGHBOUR_SHARE = 0.01;

/** Pairs of numbers that are no farther apart than `margin`, or overlap; one after the other. */
const closePairs = (layout: Layout, margin: number): Int32Array => {
  const { on, count, x, y } = layout;
  const pairs: number[] = [];
  for (const there of on)
    for (const i of there) {
      if (i >= count) continue;
      for (const j of there) {
        if (j <= i) continue;
        const noFit = noFitBetween(layout, j, i);
        const px = (x[i] as number) - (x[j] as number);
        const py = (y[i] as number) - (y[j] as number);
        if (
          px > noFit.minX - margin &&
          px < noFit.maxX + margin &&
          py > noFit.minY - margin &&
          py < noFit.maxY + margin
        )
          pairs.push(i, j);
      }
    }
  return Int32Array.from(pairs);
};

const pushOnce = (layout: Layout, pairs: Int32Array, enough: number): number => {
  const { x, y } = layout;
  let deepest = 0;
  for (let k = 0; k < pairs.length; k += 2) {
    const [i, j] = [pairs[k] as number, pairs[k + 1] as number];
    const noFit = noFitBetween(layout, j, i);
    const px = (x[i] as number) - (x[j] as number);
    const py = (y[i] as number) - (y[j] as number);
    if (px <= noFit.minX || px >= noFit.maxX || py <= noFit.minY || py >= noFit.maxY) continue;
    const way = wayOut(noFit, px, py);
    if (way === undefined) continue;
    deepest = Math.max(deepest, way.depth);
    if (way.depth > enough) push(layout, i, j, way);
  }
  return deepest;
};

interface Way {
  readonly dx: number;
  readonly dy: number;
  readonly depth: number;
}

/** Each gives way by half; what the edge of the sheet does not let one of them, the other one. */
const push = (layout: Layout, i: number, j: number, { dx, dy }: Way): void => {
  const share = j < layout.count ? 0.5 : 1;
  const [movedX, movedY] = move(layout, i, share * dx, share * dy);
  if (j < layout.count) {
    const [backX, backY] = move(layout, j, movedX - dx, movedY - dy);
    move(layout, i, dx - movedX + backX, dy - movedY + backY);
  }
};

const move = (layout: Layout, i: number, dx: number, dy: number): [number, number] => {
  const room = roomFor(layout, layout.shape[i] as number, layout.sheet[i] as number);
  const [x, y] = [layout.x[i] as number, layout.y[i] as number];
  const toX = Math.min(room.maxX, Math.max(room.minX, x + dx));
  const toY = Math.min(room.maxY, Math.max(room.minY, y + dy));
  moveTo(layout, i, toX, toY);
  return [toX - x, toY - y];
};

/** The shortest way out of a no-fit polygon; `undefined` for a point that is outside. */
const wayOut = ({ edges }: NoFit, x: number, y: number): Way | undefined => {
  if (!isInRings(edges, x, y)) return undefined;
  let [least, dx, dy] = [Infinity, 0, 0];
  for (let k = 0; k < edges.length; k += EDGE) {
    const px = x - (edges[k] as number);
    const py = y - (edges[k + 1] as number);
    const ex = edges[k + 2] as number;
    const ey = edges[k + 3] as number;
    const t = Math.min(1, Math.max(0, (px * ex + py * ey) * (edges[k + 4] as number)));
    const ox = t * ex - px;
    const oy = t * ey - py;
    const squared = ox * ox + oy * oy;
    if (squared < least) {
      least = squared;
      dx = ox;
      dy = oy;
    }
  }
  return { dx, dy, depth: Math.sqrt(least) };
};
