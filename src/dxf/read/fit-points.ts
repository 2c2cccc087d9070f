import { add, along, distance, sub, type Vec2 } from '../../geometry/vec2.ts';
import type { Spline } from './primitive.ts';

/** How a curve begins and ends; undefined where the file does not say in which direction. */
export interface Ends {
  readonly start: Vec2 | undefined;
  readonly end: Vec2 | undefined;
  /** Whether it comes back to its first point without a corner. */
  readonly isClosed: boolean;
}

/**
 * The curve through the fit points of a spline that has no control points: cubic from each point to
 * the next, bending without a jump, its parameter the sum of the chords, straight at ends without a
 * direction (ezdxf documentation, `fit_points_to_cad_cv`, for the parameter, the degree and the
 * ends; L. Piegl and W. Tiller, The NURBS Book, 9.2.3, for the sums; from memory). The points are
 * those of the file; fewer than two that differ are no curve.
 */
export const throughFitPoints = (given: readonly Vec2[], ends: Ends): Spline | undefined => {
  const apart = given.filter((p, i) => i === 0 || distance(p, given[i - 1] as Vec2) > 0);
  if (apart.length < 2) return undefined;
  const isShort = ends.isClosed && distance(apart[0] as Vec2, apart.at(-1) as Vec2) > 0;
  const points = isShort ? [...apart, apart[0] as Vec2] : apart;
  const slopes =
    ends.isClosed && points.length > 3 ? closedSlopes(points) : openSlopes(points, ends);
  const controls = points.slice(1).flatMap((to, i): Vec2[] => {
    const from = points[i] as Vec2;
    const third = distance(from, to) / 3;
    return [along(from, slopes[i] as Vec2, third), along(to, slopes[i + 1] as Vec2, -third), to];
  });
  const chords = chordsOf(points);
  let t = 0;
  const inner = chords.flatMap((h) => {
    t += h;
    return [t, t, t];
  });
  return {
    kind: 'spline',
    degree: 3,
    knots: [0, 0, 0, 0, ...inner, t],
    points: [points[0] as Vec2, ...controls],
    weights: Array.from({ length: controls.length + 1 }, () => 1),
  };
};

const chordsOf = (points: readonly Vec2[]): number[] =>
  points.slice(1).map((p, i) => distance(points[i] as Vec2, p));

/** A row of the sums: what the slopes before, at and behind a point weigh, and what they come to. */
interface Row {
  readonly before: number;
  readonly at: number;
  readonly behind: number;
  readonly sum: Vec2;
}

/** The bend is the same before and behind a point that lies between two chords. */
const innerRow = (a: Vec2, p: Vec2, b: Vec2): Row => {
  const [h, k] = [distance(a, p), distance(p, b)];
  return {
    before: k,
    at: 2 * (h + k),
    behind: h,
    sum: add(scaled(sub(p, a), (3 * k) / h), scaled(sub(b, p), (3 * h) / k)),
  };
};

const scaled = ([x, y]: Vec2, by: number): Vec2 => [x * by, y * by];

const openSlopes = (points: readonly Vec2[], { start, end }: Ends): Vec2[] => {
  const straight = (a: number, b: number): Vec2 => {
    const [p, q] = [points.at(a) as Vec2, points.at(b) as Vec2];
    return scaled(sub(q, p), 3 / distance(p, q));
  };
  const inner = points
    .slice(1, -1)
    .map((p, i) => innerRow(points[i] as Vec2, p, points[i + 2] as Vec2));
  return solved([
    start === undefined
      ? { before: 0, at: 2, behind: 1, sum: straight(0, 1) }
      : { before: 0, at: 1, behind: 0, sum: start },
    ...inner,
    end === undefined
      ? { before: 1, at: 2, behind: 0, sum: straight(-2, -1) }
      : { before: 0, at: 1, behind: 0, sum: end },
  ]);
};

/**
 * Where the curve is closed, the first row reaches back to the last one. Its part there is split off
 * and solved for by itself (Sherman and Morrison; W. H. Press and others, Numerical Recipes, "Cyclic
 * Tridiagonal Systems"; from memory).
 */
const closedSlopes = (points: readonly Vec2[]): Vec2[] => {
  const once = points.slice(0, -1);
  const n = once.length;
  const rows = once.map((p, i) => innerRow(once.at(i - 1) as Vec2, p, once[(i + 1) % n] as Vec2));
  const [first, last] = [rows[0] as Row, rows[n - 1] as Row];
  const gamma = -first.at;
  const changed = rows.map((row, i): Row => {
    if (i === 0) return { ...row, at: row.at - gamma };
    return i === n - 1 ? { ...row, at: row.at - (first.before * last.behind) / gamma } : row;
  });
  const plain = solved(changed);
  const unit = solved(
    changed.map((row, i): Row => ({
      ...row,
      sum: i === 0 ? [gamma, 0] : i === n - 1 ? [last.behind, 0] : [0, 0],
    })),
  ).map(([x]) => x);
  const reach = first.before / gamma;
  const [u0, u1] = [unit[0] as number, unit[n - 1] as number];
  const share = scaled(
    along(plain[0] as Vec2, plain[n - 1] as Vec2, reach),
    1 / (1 + u0 + reach * u1),
  );
  const slopes = plain.map((s, i) => along(s, share, -(unit[i] as number)));
  return [...slopes, slopes[0] as Vec2];
};

/** Rows that reach no farther than their neighbours, solved from the first to the last and back. */
const solved = (rows: readonly Row[]): Vec2[] => {
  const [behind, sums]: [number[], Vec2[]] = [[], []];
  rows.forEach((row, i) => {
    const by = row.at - row.before * (behind[i - 1] ?? 0);
    behind.push(row.behind / by);
    sums.push(scaled(along(row.sum, sums[i - 1] ?? [0, 0], -row.before), 1 / by));
  });
  for (let i = rows.length - 2; i >= 0; i--)
    sums[i] = along(sums[i] as Vec2, sums[i + 1] as Vec2, -(behind[i] as number));
  return sums;
};
