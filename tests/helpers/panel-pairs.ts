import type { Part } from '../../src/model/part.ts';

/** Two panels of a part, and whether a fold joins them. */
export interface PanelPair {
  readonly first: string;
  readonly second: string;
  readonly joined: boolean;
}

/** Every two panels of a part. */
export const pairsOf = (part: Part): PanelPair[] =>
  part.panels.flatMap(({ id: first }, i) =>
    part.panels.slice(i + 1).map(({ id: second }) => ({
      first,
      second,
      joined: part.folds.some(
        ({ parent: { panel: a }, child: { panel: b } }) =>
          (a === first && b === second) || (a === second && b === first),
      ),
    })),
  );
