import { canBeHem } from '../../flatten/hem-cut.ts';
import { canBeJoined, isWeldable, type SeamCut } from '../../flatten/seam-cut.ts';
import { splitPart } from '../../flatten/split.ts';
import type { Fold, Part } from '../../model/part.ts';
import { setsOf } from '../../plan/of-part/half-folded.ts';
import type { Context } from './context.ts';
import { foldMm } from './redesign-cost.ts';
import type { TriedBlank, Trials } from './redesign-trials.ts';

/** Folds of a blank, in its order. */
export type FoldSet = readonly string[];

/** So many sets of as few seams as do are told of one blank. */
const MOST_SETS = 3;

/** So many choices of the panels that flanges or tabs are on are tried. */
const MOST_CHOICES = 8;

/**
 * The folds of a set joined by laps or by tabs, on those panels with which all pieces can be folded:
 * all on the panels that are usual, or all on the others, or some on one and some on the other.
 */
export function cutsFor(
  way: 'lap' | 'tab',
  { part }: TriedBlank,
  set: FoldSet,
  context: Context,
  trials: Trials,
): readonly (readonly SeamCut[])[] {
  const { rule, cornerGapMm, lapWidthMm, tabClearanceMm } = context.values;
  const folds = set.map((id) => part.folds.find((fold) => fold.id === id) as Fold);
  if (!folds.every((fold) => canBeJoined(fold, way))) return [];
  const cutOf = ({ id, parent, child }: Fold, isUsual: boolean): SeamCut => {
    const on = (isUsual === (way === 'lap') ? parent : child).panel;
    return way === 'lap'
      ? { fold: id, way, on, landMm: lapWidthMm }
      : { fold: id, way, on, clearanceMm: tabClearanceMm };
  };
  for (const choice of choicesOf(folds.length)) {
    const cuts = folds.map((fold, i) => cutOf(fold, choice[i] === true));
    const split = splitPart(part, rule, cuts, cornerGapMm);
    if (split.ok && split.pieces.every((piece) => trials.canBeFolded(piece, context)))
      return [cuts];
  }
  return [];
}

/** A fold right over as a hem, and the folds that are welded beside it. */
export interface HemSet {
  readonly hem: string;
  readonly weld: FoldSet;
}

/** So many folds are welded beside a hem: with more, seams alone are as good. */
const MOST_BESIDE_HEM = 2;

/**
 * Folds right over that, as a hem with the rest welded on and with as few other folds welded as do,
 * leave pieces which can all be folded; none beside seams that do by themselves.
 */
export const hemsFor = (
  { part, flat }: TriedBlank,
  context: Context,
  trials: Trials,
  enough: readonly FoldSet[],
): readonly HemSet[] => {
  const { rule, cornerGapMm, hemDepthMm: depthMm } = context.values;
  const free = part.folds.filter(isWeldable).map(({ id }) => id);
  const lengthOf = (folds: FoldSet): number => folds.reduce((sum, id) => sum + foldMm(flat, id), 0);
  const sets = Array.from({ length: MOST_BESIDE_HEM + 1 }, (_, size) =>
    setsOf(free, size).toSorted((a, b) => lengthOf(a) - lengthOf(b)),
  )
    .flat()
    .filter((set) => !enough.some((other) => other.every((id) => set.includes(id))));
  const works = (hem: string, weld: FoldSet): boolean => {
    if (trials.isSpent()) return false;
    const welds = weld.map((fold): SeamCut => ({ fold, way: 'weld' }));
    const split = splitPart(
      part,
      rule,
      [{ fold: hem, way: 'hem', depthMm }, ...welds],
      cornerGapMm,
    );
    return split.ok && split.pieces.every((piece) => trials.canBeFolded(piece, context));
  };
  return part.folds.filter(canBeHem).flatMap(({ id: hem }): readonly HemSet[] => {
    const weld = sets.find((set) => works(hem, set));
    return weld === undefined ? [] : [{ hem, weld }];
  });
};

/** Yes for all, no for all, and then what lies between. */
const choicesOf = (count: number): readonly (readonly boolean[])[] => {
  const all = Array.from({ length: 2 ** count }, (_, n) =>
    Array.from({ length: count }, (__, i) => ((n >> i) & 1) === 0),
  );
  return [...all.slice(0, 1), ...all.slice(1).slice(-1), ...all.slice(1, -1)].slice(
    0,
    MOST_CHOICES,
  );
};

/** Sets of as few folds as do, each with those that no machine is strong enough for. */
export function seamSets(
  blank: TriedBlank,
  context: Context,
  trials: Trials,
  always: readonly string[],
  mostSeams: number,
): readonly FoldSet[] {
  const { part } = blank;
  if (part.folds.some((fold) => always.includes(fold.id) && !isWeldable(fold))) return [];
  const free = part.folds.filter((fold) => isWeldable(fold) && !always.includes(fold.id));
  const lengthOf = (folds: FoldSet): number =>
    folds.reduce((sum, id) => sum + foldMm(blank.flat, id), 0);
  const refused = new Set<string>();
  const works = (cut: readonly string[]): boolean => {
    const groups = groupsOf(part, cut);
    if (groups.some((group) => refused.has(group))) return false;
    const cuts = cut.map((fold): SeamCut => ({ fold, way: 'weld' }));
    const split = splitPart(part, context.values.rule, cuts, context.values.cornerGapMm);
    if (!split.ok) return false;
    // Small pieces are soon planned, and one that is refused settles it.
    const pieces = split.pieces.toSorted((a, b) => a.folds.length - b.folds.length);
    for (const piece of pieces)
      if (!trials.canBeFolded(piece, context)) {
        if (!trials.isSpent())
          refused.add(
            piece.panels
              .map(({ id }) => id)
              .toSorted()
              .join('\n'),
          );
        return false;
      }
    return true;
  };
  for (let size = always.length === 0 ? 1 : 0; size <= mostSeams && !trials.isSpent(); size++) {
    const sets = setsOf(
      free.map(({ id }) => id),
      size,
    ).map((set) => [...always, ...set]);
    const found: FoldSet[] = [];
    for (const set of sets.toSorted((a, b) => lengthOf(a) - lengthOf(b))) {
      if (found.length >= MOST_SETS || trials.isSpent()) break;
      if (works(set)) found.push(inOrderOf(part, set));
    }
    if (found.length > 0) return found;
  }
  return [];
}

const inOrderOf = ({ folds }: Part, ids: readonly string[]): readonly string[] =>
  folds.map(({ id }) => id).filter((id) => ids.includes(id));

/** The panels of each piece, as one name. */
const groupsOf = ({ panels, folds }: Part, cut: readonly string[]): string[] => {
  const kept = folds.filter(({ id }) => !cut.includes(id));
  const rootOf = (panel: string): string => {
    const link = kept.find(({ child }) => child.panel === panel);
    return link === undefined ? panel : rootOf(link.parent.panel);
  };
  const ids = panels.map(({ id }) => id);
  return [...new Set(ids.map(rootOf))].map((root) =>
    ids
      .filter((id) => rootOf(id) === root)
      .toSorted()
      .join('\n'),
  );
};
