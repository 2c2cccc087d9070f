import { dot, sub, type Vec2 } from '../geometry/vec2.ts';
import { nullSpace, zeroRow } from '../statistics/linear.ts';
import { at, type Figure, type Network } from './network.ts';
import { numbers } from './numbers.ts';

/** A motion changes a distance when the change exceeds this, for points in a unit square. */
const CHANGES = 1e-7;

/**
 * The largest set of points that hold each other by their distances, in order of number; the
 * earliest among equals. Two points hold each other when no motion that keeps all ties changes the
 * distance between them. The test uses the rows of the Jacobian at points in no special position,
 * as the theory of rigid frameworks does, so that a chance alignment of the true figure plays no
 * part.
 */
export function rigidPointsOf(net: Network): readonly number[] {
  const figure = unrelatedPlaces(net);
  const motions = motionsOf(net, figure);
  const holds = (p: number, q: number): boolean =>
    motions.every(
      (v) =>
        Math.abs(dot(sub(at(figure, p), at(figure, q)), sub(moveOf(v, p), moveOf(v, q)))) < CHANGES,
    );
  let best: number[] = [];
  for (const { a, b } of net.ties) {
    const cluster = [...net.names.keys()].filter(
      (k) => k === a || k === b || (holds(a, k) && holds(b, k)),
    );
    if (cluster.length > best.length) best = cluster;
  }
  return best;
}

/** The least number of distances that a set needs in addition to hold all its points together. */
export const missingOf = (net: Network): number =>
  motionsOf(net, unrelatedPlaces(net)).length - RIGID_MOTIONS;

/** Number of motions that change no distance: two shifts and a turn. */
const RIGID_MOTIONS = 3;

/** All points that a chain of ties joins to `start`, without stepping on `barred`. */
export function reached(
  net: Network,
  start: number,
  barred: readonly number[] = [],
): ReadonlySet<number> {
  const seen = new Set([start]);
  for (let size = 0; size < seen.size;) {
    size = seen.size;
    for (const { a, b } of net.ties) {
      if (seen.has(a) && !barred.includes(b)) seen.add(b);
      if (seen.has(b) && !barred.includes(a)) seen.add(a);
    }
  }
  return seen;
}

function unrelatedPlaces(net: Network): Figure {
  const next = numbers(20_011);
  return net.names.map((): Vec2 => [next(), next()]);
}

/** All first-order motions that change no tie, as x and y of every point in turn. */
function motionsOf(net: Network, figure: Figure): number[][] {
  const columns = 2 * net.names.length;
  const rows = net.ties.map(({ a, b }) => {
    const row = zeroRow(columns);
    const [dx, dy] = sub(at(figure, a), at(figure, b));
    [row[2 * a], row[2 * a + 1], row[2 * b], row[2 * b + 1]] = [dx, dy, -dx, -dy];
    return row;
  });
  return nullSpace(rows, columns);
}

const moveOf = (motion: readonly number[], point: number): Vec2 => [
  motion[2 * point] as number,
  motion[2 * point + 1] as number,
];
