import type { GivenFold } from '../../src/template.ts';
import { type Facet, foldAngleDeg } from './surface.ts';

/** Folds between facets that follow each other, from the root both ways along the chain. */
export const chainFolds = (
  { insideRadiusMm }: { readonly insideRadiusMm: number },
  chain: readonly Facet[],
  root: number,
): GivenFold[] =>
  chain.slice(1).map((after, i): GivenFold => {
    const before = chain[i] as Facet;
    const angle = foldAngleDeg(before, after);
    const sides = [
      { panel: before.id, edge: 'exit' },
      { panel: after.id, edge: 'entry' },
    ] as const;
    const [parent, child] = i < root ? [sides[1], sides[0]] : sides;
    return {
      id: `F${i + 1}`,
      parent,
      child,
      angleDeg: Math.abs(angle),
      direction: angle < 0 ? 'down' : 'up',
      insideRadiusMm,
      rule: MIDDLE_OF_SHEET,
      midSurface: true,
    };
  });

/** Bend rule of a line on which facets meet: it keeps its length. */
const MIDDLE_OF_SHEET = { id: 'k', k: 0.5 } as const;
