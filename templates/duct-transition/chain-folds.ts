import { MIDDLE_OF_SHEET, turnedFold } from '../../src/template.ts';
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
    const sides = [
      { panel: before.id, edge: 'exit' },
      { panel: after.id, edge: 'entry' },
    ] as const;
    return {
      ...turnedFold(`F${i + 1}`, sides, foldAngleDeg(before, after), i < root, insideRadiusMm),
      rule: MIDDLE_OF_SHEET,
      midSurface: true,
    };
  });
