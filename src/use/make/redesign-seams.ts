import { isWeldable, splitPart } from '../../flatten/split.ts';
import type { Part } from '../../model/part.ts';
import { beyondCapacity } from '../../plan/of-part/capacity.ts';
import { setsOf } from '../../plan/of-part/half-folded.ts';
import { bendTable } from '../../model/shop.ts';
import type { Context } from './context.ts';
import { foldMm } from './redesign-cost.ts';
import type { Design, TriedBlank, Trials } from './redesign-trials.ts';

/** Folds of one design that are welded, and that are slit, by the names that the inputs take. */
export interface Joints {
  readonly weldAt: readonly string[];
  readonly slitAt: readonly string[];
  readonly seamMm: number;
  readonly slitMm: number;
}

/** The most folds of one blank that become seams. */
const MOST_SEAMS = 5;

/** So many sets of as few seams as do are told of one blank. */
const MOST_SETS = 3;

/**
 * Sets of folds that, welded or slit, leave pieces which can all be folded: as few folds as do, the
 * shortest seams first. A blank that can be folded stays as it is.
 */
export function jointsFor(
  design: Design,
  trials: Trials,
  mostSeams = MOST_SEAMS,
): readonly Joints[] {
  const { blanks, context } = design;
  let all: readonly Joints[] = [NO_JOINTS];
  for (const blank of blanks) {
    if (trials.canBeFolded(blank.part, context)) continue;
    const own = jointsOfBlank(blank, design, trials, mostSeams);
    // Every blank gets its best; the others of the first are told beside it.
    all = all.flatMap((before) => own.map((now) => together(before, now))).slice(0, MOST_SETS);
  }
  return all.filter((joints) => joints.weldAt.length + joints.slitAt.length > 0);
}

const NO_JOINTS: Joints = { weldAt: [], slitAt: [], seamMm: 0, slitMm: 0 };

const together = (a: Joints, b: Joints): Joints => ({
  weldAt: [...a.weldAt, ...b.weldAt],
  slitAt: [...a.slitAt, ...b.slitAt],
  seamMm: a.seamMm + b.seamMm,
  slitMm: a.slitMm + b.slitMm,
});

function jointsOfBlank(
  blank: TriedBlank,
  design: Design,
  trials: Trials,
  mostSeams: number,
): readonly Joints[] {
  const { context, blanks } = design;
  const tooMuch = beyondEveryMachine(blank, context);
  const named = (folds: readonly string[]): string[] =>
    folds.map((id) => (blanks.length > 1 ? `${blank.id} ${id}` : id));
  const joints = (weld: readonly string[], slit: readonly string[]): Joints => ({
    weldAt: named(weld),
    slitAt: named(slit),
    seamMm: lengthOf(blank, weld),
    slitMm: lengthOf(blank, slit),
  });
  const slitAlone =
    tooMuch.length > 0 && isFoldableSlit(blank, named(tooMuch), design, trials)
      ? [joints([], tooMuch)]
      : [];
  return [
    ...slitAlone,
    ...seamSets(blank, context, trials, tooMuch, mostSeams).map((set) => joints(set, [])),
  ];
}

const lengthOf = ({ flat }: TriedBlank, folds: readonly string[]): number =>
  folds.reduce((sum, id) => sum + foldMm(flat, id), 0);

/** Folds that no machine of the shop is strong or long enough for. */
const beyondEveryMachine = (
  { part, flat }: TriedBlank,
  { options: { shop }, values: { material } }: Context,
): string[] => {
  const fold = { part, flat, material, bends: bendTable(shop, material.id) };
  const beyond = shop.machines.map((machine) => beyondCapacity(fold, machine).map((b) => b.bend));
  return part.folds
    .map(({ id }) => id)
    .filter((id) => beyond.length > 0 && beyond.every((folds) => folds.includes(id)));
};

/** Whether a blank is folded with nothing but these folds slit; the slots need their lands. */
const isFoldableSlit = (
  { id }: TriedBlank,
  slitAt: readonly string[],
  { raw, context }: Design,
  trials: Trials,
): boolean => {
  const slit = trials.designOf({ ...raw, slitAt: [...context.values.slitAt, ...slitAt] });
  return (
    slit !== undefined &&
    slit.blanks.some((blank) => blank.id === id && trials.canBeFolded(blank.part, slit.context))
  );
};

/** Sets of as few folds as do, each with those that no machine is strong enough for. */
function seamSets(
  blank: TriedBlank,
  context: Context,
  trials: Trials,
  always: readonly string[],
  mostSeams: number,
): readonly (readonly string[])[] {
  const { part } = blank;
  if (part.folds.some((fold) => always.includes(fold.id) && !isWeldable(fold))) return [];
  const free = part.folds.filter((fold) => isWeldable(fold) && !always.includes(fold.id));
  const refused = new Set<string>();
  const works = (cut: readonly string[]): boolean => {
    const groups = groupsOf(part, cut);
    if (groups.some((group) => refused.has(group))) return false;
    const split = splitPart(part, context.values.rule, cut, context.values.cornerGapMm);
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
    const found: (readonly string[])[] = [];
    for (const set of sets.toSorted((a, b) => lengthOf(blank, a) - lengthOf(blank, b))) {
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
