import { figure } from '../text/figures.ts';
import type { Flange, Stretch, Working } from './piece.ts';
import { edgeOf, type Shape, SIZE } from './shape.ts';

/**
 * Tells each flange that takes metal of its edge which another flange has already, and the longest
 * stretch that is free there.
 */
export function tellTaken(
  base: Shape,
  flanges: readonly Flange[],
  { figures, values }: Pick<Working, 'figures' | 'values'>,
): void {
  const roomMm = RELIEFS * Math.max(values.thicknessMm, values.leastSlotMm);
  const shapes = new Map([base, ...flanges.map(({ shape }) => shape)].map((s) => [s.id, s]));
  for (const [i, flange] of flanges.entries()) {
    const parent = shapes.get(flange.parent);
    const long = parent === undefined ? 0 : (edgeOf(parent, flange.edge)?.lengthMm ?? 0);
    const stretchOf = ({ stretch }: Flange): Stretch => stretch ?? [0, long];
    const before = flanges
      .slice(0, i)
      .filter(({ parent: id, edge }) => id === flange.parent && edge === flange.edge);
    const [from, to] = stretchOf(flange);
    const other = before.find((one) => {
      const [start, end] = stretchOf(one);
      return Math.min(end, to) - Math.max(start, from) >= SIZE.least;
    });
    if (other === undefined) continue;
    const [start, end] = stretchOf(other);
    const free = longestFree(before.map(stretchOf), long, roomMm);
    const key = (['from', 'to', 'width'] as const).find((k) => flange.given[k] !== undefined);
    figures.problem(
      `${flange.at}.${key ?? 'on'}`,
      flange.given[key ?? 'on'],
      `a stretch of ${flange.parent} ${flange.edge} that is free; ${other.id} takes it from ${figure(start)} to ${figure(end)}`,
      free === undefined
        ? 'grow it on another edge'
        : `give from ${figure(free[0])} to ${figure(free[1])}`,
    );
  }
}

/** Widths of a relief between two folds on one edge: either has one, and a tab is left between. */
const RELIEFS = 3;

/** The longest stretch of an edge that nothing takes, with room for the reliefs beside it. */
const longestFree = (
  taken: readonly Stretch[],
  long: number,
  roomMm: number,
): Stretch | undefined => {
  const sorted = taken.toSorted(([a], [b]) => a - b);
  let [best, at]: [Stretch | undefined, number] = [undefined, 0];
  for (const [start, end] of [...sorted, [long + roomMm, long] as const]) {
    const to = start - roomMm;
    if (to - at >= SIZE.least && to - at > (best === undefined ? 0 : best[1] - best[0]))
      best = [at, to];
    at = Math.max(at, end + roomMm);
  }
  return best;
};
