import type { PartToFold } from './plan-steps.ts';

/**
 * The pieces of a part that is cut apart at some of its folds, to be welded there. Each is laid flat
 * as the whole was.
 */
export function withoutFolds(fold: PartToFold, cut: readonly string[]): PartToFold[] {
  const { part, flat } = fold;
  const kept = part.folds.filter((f) => !cut.includes(f.id));
  const left = new Set(part.panels.map((p) => p.id));
  const pieces: PartToFold[] = [];
  for (const first of left) {
    const own = new Set([first]);
    for (const panel of own)
      for (const { parent, child } of kept)
        if (parent.panel === panel || child.panel === panel) own.add(parent.panel).add(child.panel);
    for (const panel of own) left.delete(panel);
    const folds = kept.filter((f) => own.has(f.parent.panel));
    const root = [...own].find((p) => !folds.some((f) => f.child.panel === p)) ?? first;
    pieces.push({
      ...fold,
      part: { ...part, root, folds, panels: part.panels.filter((p) => own.has(p.id)) },
      flat: {
        ...flat,
        panels: flat.panels.filter((p) => own.has(p.id)),
        bends: flat.bends.filter((b) => folds.some((f) => f.id === b.id)),
      },
    });
  }
  return pieces;
}
