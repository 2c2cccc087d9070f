import { angleWish, length3, scale3, sub3 } from '../../src/template.ts';
import type { Wish } from '../../src/template.ts';
import type { Facet } from '../duct-transition/surface.ts';
import { areaMm2, outwardOf } from './chains.ts';

/** So many walls of a blank, the largest, are stated against each other. */
const MOST_WALLS = 6;

/**
 * What the openings and their places mean on a blank: the angles between its largest walls, as the
 * points of both openings in space give them.
 */
export const ductWishes = (chain: readonly Facet[]): Wish[] => {
  const largest = chain
    .toSorted((a, b) => areaMm2(b) - areaMm2(a))
    .slice(0, MOST_WALLS)
    .map(({ id }) => id);
  const walls = chain.filter(({ id }) => largest.includes(id));
  return walls.flatMap((a, i) =>
    walls.slice(i + 1).map((b) => {
      const [n, m] = [outwardOf(a), outwardOf(b)];
      // This form stays accurate near 0 and near 180, where a cosine does not.
      const turned = 2 * Math.atan2(length3(sub3(n, m)), length3(sub3(n, scale3(m, -1))));
      return angleWish(
        `openings and their places, ${a.id} against ${b.id}`,
        (turned * 180) / Math.PI,
        a.id,
        b.id,
      );
    }),
  );
};
