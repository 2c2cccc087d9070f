import type { HemCut } from '../../flatten/hem-cut.ts';
import type { SeamCut } from '../../flatten/seam-cut.ts';
import type { AT } from '../../forms/named-folds.ts';
import { bendTable } from '../../model/shop.ts';
import { beyondCapacity } from '../../plan/of-part/capacity.ts';
import type { Context } from './context.ts';
import { foldMm } from './redesign-cost.ts';
import { cutsFor, type FoldSet, hemsFor, seamSets } from './redesign-seams.ts';
import type { Design, TriedBlank, Trials } from './redesign-trials.ts';

/** Folds of one design that are made otherwise, by the names that the inputs take, and how long. */
export type Joints = Readonly<Record<(typeof AT)[number], readonly string[]>> & {
  readonly seamMm: number;
  readonly slitMm: number;
  readonly lapMm: number;
  readonly tabMm: number;
};

export const NO_JOINTS: Joints = {
  weldAt: [],
  slitAt: [],
  lapAt: [],
  tabAt: [],
  hemAt: [],
  seamMm: 0,
  slitMm: 0,
  lapMm: 0,
  tabMm: 0,
};

/** The most folds of one blank that become seams. */
const MOST_SEAMS = 5;

/** So many choices of folds are told of one design. */
const MOST_SETS = 3;

type Way = (SeamCut | HemCut)['way'];

const WAYS: readonly Way[] = ['weld', 'lap', 'tab', 'hem'];

/**
 * Sets of folds that, welded, slit, lapped or held by tabs, leave pieces which can all be folded: as
 * few folds as do, the shortest seams first. A blank that can be folded stays as it is.
 */
export function jointsFor(
  design: Design,
  trials: Trials,
  mostSeams = MOST_SEAMS,
  ways = WAYS,
): readonly Joints[] {
  const { context, blanks } = design;
  const stuck = blanks
    .filter(({ part }) => !trials.canBeFolded(part, context))
    .map((blank) => {
      const tooMuch = beyondEveryMachine(blank, context);
      return { blank, tooMuch, sets: seamSets(blank, context, trials, tooMuch, mostSeams) };
    });
  if (stuck.length === 0) return [];
  return ways.flatMap((way) =>
    // Every blank gets its best; the others of the first are told beside it.
    stuck.reduce<readonly Joints[]>(
      (all, { blank, tooMuch, sets }) => {
        const own = [
          ...(way === 'weld' ? slitAlone(blank, tooMuch, design, trials) : []),
          ...joinedBy(way, blank, sets, design, trials),
        ];
        return all.flatMap((before) => own.map((now) => together(before, now))).slice(0, MOST_SETS);
      },
      [NO_JOINTS],
    ),
  );
}

const together = (a: Joints, b: Joints): Joints => ({
  weldAt: [...a.weldAt, ...b.weldAt],
  slitAt: [...a.slitAt, ...b.slitAt],
  lapAt: [...a.lapAt, ...b.lapAt],
  tabAt: [...a.tabAt, ...b.tabAt],
  hemAt: [...a.hemAt, ...b.hemAt],
  seamMm: a.seamMm + b.seamMm,
  slitMm: a.slitMm + b.slitMm,
  lapMm: a.lapMm + b.lapMm,
  tabMm: a.tabMm + b.tabMm,
});

const named = (id: string, blank: TriedBlank, { blanks }: Design): string =>
  blanks.length > 1 ? `${blank.id} ${id}` : id;

/** The sets as seams of one way; of laps and tabs those of the first set that can be joined so. */
function joinedBy(
  way: Way,
  blank: TriedBlank,
  sets: readonly FoldSet[],
  design: Design,
  trials: Trials,
): readonly Joints[] {
  if (way === 'hem')
    return hemsFor(blank, design.context, trials, sets).map(({ hem, weld }) => ({
      ...NO_JOINTS,
      hemAt: [named(hem, blank, design)],
      weldAt: weld.map((id) => named(id, blank, design)),
      seamMm: lengthOf(blank, [hem, ...weld]),
    }));
  if (way === 'weld')
    return sets.map((set) => ({
      ...NO_JOINTS,
      weldAt: set.map((id) => named(id, blank, design)),
      seamMm: lengthOf(blank, set),
    }));
  const [cuts] = sets.flatMap((set) => cutsFor(way, blank, set, design.context, trials));
  if (cuts === undefined) return [];
  const names = cuts.map((cut) => {
    const fold = blank.part.folds.find(({ id }) => id === cut.fold);
    const usual = way === 'lap' ? fold?.parent.panel : fold?.child.panel;
    const name = named(cut.fold, blank, design);
    return 'on' in cut && cut.on !== usual ? `${name} on ${cut.on}` : name;
  });
  const mm = lengthOf(
    blank,
    cuts.map(({ fold }) => fold),
  );
  return way === 'lap'
    ? [{ ...NO_JOINTS, lapAt: names, lapMm: mm }]
    : [{ ...NO_JOINTS, tabAt: names, tabMm: mm }];
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

/** Those folds slit that are beyond every machine, where that is enough; the slots need their lands. */
function slitAlone(
  blank: TriedBlank,
  tooMuch: readonly string[],
  design: Design,
  trials: Trials,
): readonly Joints[] {
  if (tooMuch.length === 0) return [];
  const { raw, context } = design;
  const slitAt = tooMuch.map((id) => named(id, blank, design));
  const slit = trials.designOf({ ...raw, slitAt: [...context.values.slitAt, ...slitAt] });
  const isEnough =
    slit !== undefined &&
    slit.blanks.some(({ id, part }) => id === blank.id && trials.canBeFolded(part, slit.context));
  return isEnough ? [{ ...NO_JOINTS, slitAt, slitMm: lengthOf(blank, tooMuch) }] : [];
}
