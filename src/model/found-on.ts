import { type Finding, type KnownRule, orInstead, refuse } from './finding.ts';
import type { Part } from './part.ts';

/** Panels and folds of a part that a stop is about. */
export interface FoundOn {
  readonly panels: readonly string[];
  readonly folds?: readonly string[];
}

/**
 * A stop about panels and folds: what is wrong with them, what would help where nothing else is
 * known, and what helps in any case, both in words. The caller, who knows the inputs, finds out
 * which of them caused it and which changes would help.
 */
export const foundOn = (
  rule: KnownRule,
  { panels, folds = [] }: FoundOn,
  what: string,
  instead: string,
  ...others: readonly string[]
): Finding => ({
  ...orInstead(refuse(rule, [], what, [], ...others), instead),
  on: { panels: [...new Set(panels)], folds: [...new Set(folds)] },
});

/** How findings name a fold: `fold A`, or the words of whoever asked for it. */
export const foldName = ({ folds }: Pick<Part, 'folds'>, id: string): string =>
  folds.find((f) => f.id === id)?.asked?.called ?? `fold ${id}`;
