import type { Fold, Part } from './part.ts';

/**
 * The same part with another panel as the one that stays put. Folds on the way to it swap parent
 * and child. Where no folds lead to it, only the root changes, and `partFlaws` reports that.
 */
export const reroot = (part: Part, root: string): Part => {
  const turned = new Set<string>();
  for (let at = root; at !== part.root;) {
    const up = part.folds.find((f) => f.child.panel === at);
    if (up === undefined || turned.has(up.id)) return { ...part, root };
    turned.add(up.id);
    at = up.parent.panel;
  }
  const turn = (f: Fold): Fold =>
    turned.has(f.id) ? { ...f, parent: f.child, child: f.parent } : f;
  return { ...part, root, folds: part.folds.map(turn) };
};
