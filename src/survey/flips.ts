import { distance, type Vec2 } from '../geometry/vec2.ts';
import { reached } from './rigid-points.ts';
import { at, type Figure, type Network, neighboursOf } from './network.ts';

/** Points that may turn over together about the line through two others. */
export interface Flip {
  readonly points: readonly number[];
  readonly from: number;
  readonly to: number;
}

/** The network of the rigid points with the ties among them. */
export const insideOf = ({ names, ties }: Network, rigid: readonly number[]): Network => ({
  names,
  ties: ties.filter(({ a, b }) => rigid.includes(a) && rigid.includes(b)),
});

/**
 * Parts of a rigid figure that may turn over: those that hang on the rest by two points only, and
 * any single point, about the line of the points it is measured from (which leads to another figure
 * only where those lie nearly in line). Points that swing with a part, or carry one, are left to
 * the flips of that part.
 */
export function flipsOf(net: Network, rigid: readonly number[]): (figure: Figure) => Flip[] {
  const inside = insideOf(net, rigid);
  const hinged = hingedParts(inside, rigid);
  const swinging = new Set(hinged.flatMap(({ points, from, to }) => [...points, from, to]));
  const firm = rigid.filter((p) => !swinging.has(p));
  return (figure) => [...hinged, ...singles(inside, figure, firm)];
}

/**
 * Parts that two points separate from the rest. The part with the point named first stays where it
 * is.
 */
function hingedParts(net: Network, rigid: readonly number[]): Flip[] {
  return rigid.flatMap((from, i) =>
    rigid.slice(i + 1).flatMap((to) => {
      const rest = rigid.filter((p) => p !== from && p !== to);
      const parts: number[][] = [];
      for (const point of rest) {
        if (!parts.some((part) => part.includes(point)))
          parts.push([...reached(net, point, [from, to])].sort((p, q) => p - q));
      }
      return parts.slice(1).map((points) => ({ points, from, to }));
    }),
  );
}

/**
 * Points measured from three others or more; the line runs through the two of them that are
 * farthest apart.
 */
function singles(net: Network, figure: Figure, firm: readonly number[]): Flip[] {
  return firm.toReversed().flatMap((point) => {
    const near = neighboursOf(net.ties, point);
    if (near.length < 3) return [];
    const pairs = near.flatMap((from, i) => near.slice(i + 1).map((to) => ({ from, to })));
    const wide = ({ from, to }: { from: number; to: number }): number =>
      distance(at(figure, from), at(figure, to));
    const widest = pairs.reduce((best, pair) => (wide(pair) > wide(best) ? pair : best));
    return [{ points: [point], ...widest }];
  });
}

/** A figure with the points of a flip turned over. */
export function flipped(figure: Figure, { points, from, to }: Flip): Figure {
  const [a, b] = [at(figure, from), at(figure, to)];
  const long = distance(a, b);
  if (long === 0) return figure;
  const [ux, uy] = [(b[0] - a[0]) / long, (b[1] - a[1]) / long];
  return figure.map(([x, y], i): Vec2 => {
    if (!points.includes(i)) return [x, y];
    const off = ux * (y - a[1]) - uy * (x - a[0]);
    return [x + 2 * off * uy, y - 2 * off * ux];
  });
}
