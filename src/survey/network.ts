import { cross, distance, sub, type Vec2 } from '../geometry/vec2.ts';
import type { Distance, SideStatement } from './survey.ts';

/** A distance between the points number `a` and `b`, mm. */
export interface Tie {
  readonly a: number;
  readonly b: number;
  readonly mm: number;
}

/** Named points and the distances between them; a point is referred to by its place in `names`. */
export interface Network {
  readonly names: readonly string[];
  readonly ties: readonly Tie[];
}

/** One place for each point of a network, mm. */
export type Figure = readonly Vec2[];

/**
 * The network of some distances. Points are numbered in the order in which they are first named.
 */
export function networkOf(distances: readonly Distance[]): Network {
  const names: string[] = [];
  const numberOf = (name: string): number => {
    const known = names.indexOf(name);
    return known < 0 ? names.push(name) - 1 : known;
  };
  const ties = distances.map(({ from, to, mm }) => ({ a: numberOf(from), b: numberOf(to), mm }));
  return { names, ties };
}

export const at = (figure: Figure, point: number): Vec2 => figure[point] as Vec2;

export const nameOf = (net: Network, point: number): string => net.names[point] as string;

/** The distance that a figure gives a tie, mm. */
export const foundMm = (figure: Figure, { a, b }: Tie): number =>
  distance(at(figure, a), at(figure, b));

/** Sum of the squared residuals, mm2. */
export const costOf = (net: Network, figure: Figure): number =>
  net.ties.reduce((sum, tie) => sum + (foundMm(figure, tie) - tie.mm) ** 2, 0);

/** Points that share a tie with `point`, each once, in order. */
export const neighboursOf = (ties: readonly Tie[], point: number): number[] => {
  const met = ties.flatMap(({ a, b }) => (a === point ? [b] : b === point ? [a] : []));
  return [...new Set(met)].sort((p, q) => p - q);
};

/** How far `point` lies to the left of the line from -> to, mm; negative to the right. */
export function offsetMm(figure: Figure, from: number, to: number, point: number): number {
  const way = sub(at(figure, to), at(figure, from));
  const long = Math.hypot(...way);
  return long === 0 ? 0 : cross(way, sub(at(figure, point), at(figure, from))) / long;
}

/** A statement that refers to its points by number. */
export interface Sided {
  readonly from: number;
  readonly to: number;
  readonly point: number;
  readonly sign: 1 | -1;
}

export const sidedOf = (net: Network, { from, to, point, side }: SideStatement): Sided => ({
  from: net.names.indexOf(from),
  to: net.names.indexOf(to),
  point: net.names.indexOf(point),
  sign: side === 'left' ? 1 : -1,
});

/** Whether a figure keeps a statement; a point on the line itself keeps neither side. */
export const keeps = (figure: Figure, { from, to, point, sign }: Sided): boolean =>
  sign * offsetMm(figure, from, to, point) > 0;

export const brokenCount = (figure: Figure, sides: readonly Sided[]): number =>
  sides.filter((s) => !keeps(figure, s)).length;

/** Whether all distances among `points` agree within `slackMm`: equal figures, or mirror images. */
export function congruent(
  one: Figure,
  other: Figure,
  points: readonly number[],
  slackMm: number,
): boolean {
  return points.every((p, i) =>
    points
      .slice(i + 1)
      .every(
        (q) =>
          Math.abs(distance(at(one, p), at(one, q)) - distance(at(other, p), at(other, q))) <=
          slackMm,
      ),
  );
}
