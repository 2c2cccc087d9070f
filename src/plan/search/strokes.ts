import { cosDeg } from '../../geometry/degrees.ts';
import type { Machine } from '../../model/machine.ts';
import { brakeRules } from '../machines/brake.ts';
import { bitCount } from '../machines/bits.ts';
import { ALL, type Effort } from './conflicts.ts';
import { folderRules } from '../machines/folder.ts';
import { type FoldNet, type NetFold, type PreFold } from '../machines/net.ts';
import { crossingMm, preBit } from '../machines/pre-fold.ts';
import type { Help, StrokeRules } from '../machines/stroke-rules.ts';
import { sheetOf } from '../machines/section.ts';
import { helpedStrokes } from './helped-strokes.ts';
import { makeStroke, type Stroke } from './stroke.ts';
import { CONTACT_GAP_MM } from '../../geometry/tolerance.ts';

/** How a stroke is made, where it is not from flat by the machine alone. */
interface Manner {
  /** The angle that the fold stands at before, degrees. */
  readonly startDeg?: number;
  readonly help?: Help | undefined;
  /** Height of the packers, where they are not the highest. */
  readonly packerMm?: number | undefined;
}

/**
 * The rules of a fold's stroke. The tools stand on the sheet where the bodies have its thickness,
 * and are set for the radius of the bend.
 */
const rulesOf = (
  machine: Machine,
  net: FoldNet,
  fold: NetFold,
  { startDeg = 0, help, packerMm }: Manner,
): StrokeRules => {
  // Before a stroke the sides of a flat part lie nearer to each other, by a deduction, than where
  // they begin to turn about the hinge.
  const nearerMm = net.isSolid
    ? Math.max(
        0,
        (crossingMm(net, fold, fold.angleDeg) - crossingMm(net, fold, startDeg)) *
          (1 + cosDeg(startDeg)),
      )
    : 0;
  const sheet = { ...sheetOf(net, fold), nearerMm, packerMm };
  const overbendDeg =
    fold.overbendDeg === undefined
      ? machine.overbendDeg
      : { ...machine.overbendDeg, value: fold.overbendDeg };
  const { angleDeg } = fold;
  const { thicknessMm } = net;
  const key = JSON.stringify([angleDeg, overbendDeg.value, thicknessMm, sheet, startDeg, help]);
  return onceFor(machine, key, () =>
    machine.kind === 'folder'
      ? folderRules({ ...machine, overbendDeg }, angleDeg, sheet, startDeg, help)
      : brakeRules({ ...machine, overbendDeg }, angleDeg, thicknessMm, sheet, startDeg, help),
  );
};

/** The most rules that are kept of one machine: those of a part or two. */
const MOST_RULES = 500;

const rulesKnown = new WeakMap<Machine, Map<string, StrokeRules>>();

/**
 * Rules that were worked out before. Many folds are alike, and every question about a part begins
 * with the rules of all its strokes.
 */
const onceFor = (machine: Machine, key: string, workOut: () => StrokeRules): StrokeRules => {
  const known = rulesKnown.get(machine) ?? new Map<string, StrokeRules>();
  rulesKnown.set(machine, known);
  const found = known.get(key) ?? workOut();
  if (known.size >= MOST_RULES) known.clear();
  known.set(key, found);
  return found;
};

/** When more folds than this lie on one line, only all that are left of them are tried together. */
const MOST_PARTED = 3;

/**
 * Every stroke that the part may be made by: each fold alone, and together the folds that lie on
 * one line in the blank and have the same angle to the same side. Strokes of several folds come
 * first, and within them the longest fold is in front.
 *
 * @param only folds, as bits, of which each stroke makes one at least
 */
export function strokesOf(
  net: FoldNet,
  machine: Machine,
  effort: Effort,
  only = ALL,
): readonly Stroke[] {
  const sets = onOneLine(net).flatMap((line) =>
    line.length <= MOST_PARTED ? setsOf(line) : [line],
  );
  const inTwo = (fold: number): boolean => net.preFolds?.some((p) => p.fold === fold) === true;
  const isAsked = (folds: readonly number[]): boolean => folds.some((f) => (only & (1 << f)) !== 0);
  const alone = net.folds.map((_, i) => [i]).filter(isAsked);
  const isAllowed = (folds: readonly number[]): boolean =>
    isAsked(folds) &&
    (net.strokes?.includes(folds.reduce((sum, f) => sum | (1 << f), 0)) ?? true) &&
    (folds.length === 1 ||
      folds.reduce((sum, f) => sum + lengthOf(net, f), 0) <= (net.mostTogetherMm ?? Infinity));
  const longestFirst = (folds: readonly number[]): number[] =>
    folds.toSorted((a, b) => lengthOf(net, b) - lengthOf(net, a) || a - b);
  const together = sets
    .map(longestFirst)
    .toSorted((a, b) => (a[0] as number) - (b[0] as number) || b.length - a.length);
  const whole = [...together, ...alone].filter((folds) => isAllowed(folds) && !folds.some(inTwo));
  const isStrong = (folds: readonly number[]): boolean =>
    !folds.some((f) => ((net.hands?.beyondMachine ?? 0) & (1 << f)) !== 0);
  return [
    ...whole
      .filter(isStrong)
      .map((folds) => makeStroke(net, folds, withinLength(machine, net, folds), effort)),
    ...(net.hands === undefined
      ? []
      : helpedStrokes(net, net.hands, {
          onMachine: whole.filter(isStrong),
          rulesFor: (of, folds, help, packerMm) =>
            withinLength(machine, of, folds, { help, packerMm }),
          byHand: alone.map(([f]) => f as number),
          kind: machine.kind,
          effort,
        })),
    ...(net.preFolds ?? []).flatMap((p) =>
      isAllowed([p.fold]) ? inTwoStrokes(net, machine, p, effort) : [],
    ),
  ];
}

/**
 * The two strokes of a fold. The first goes to the smaller angle as if that were the whole; the
 * second goes from there to the end, with the sides as they stand by then.
 */
function inTwoStrokes(
  net: FoldNet,
  machine: Machine,
  { fold, made }: PreFold,
  effort: Effort,
): Stroke[] {
  const preFolded: FoldNet = { ...net, folds: net.folds.map((f, i) => (i === fold ? made : f)) };
  const bit = preBit(net, fold);
  return [
    {
      ...makeStroke(preFolded, [fold], withinLength(machine, preFolded, [fold]), effort),
      bits: bit,
    },
    {
      ...makeStroke(
        net,
        [fold],
        withinLength(machine, net, [fold], { startDeg: made.angleDeg }),
        effort,
      ),
      after: bit,
    },
  ];
}

const withinLength = (
  machine: Machine,
  net: FoldNet,
  folds: readonly number[],
  manner: Manner = {},
): StrokeRules => {
  const rules = rulesOf(machine, net, net.folds[folds[0] as number] as NetFold, manner);
  const longest = lengthOf(net, folds[0] as number);
  const most = machine.workingLengthMm.value;
  return longest <= most
    ? rules
    : {
        ...rules,
        beyond: `a fold of ${Math.round(longest)} mm is longer than the machine's ${most} mm`,
      };
};

const lengthOf = (net: FoldNet, fold: number): number => (net.folds[fold] as NetFold).lengthMm;

/** The folds of the blank, grouped by lines; a fold that is alone on its line is left out. */
function onOneLine(net: FoldNet): number[][] {
  const lines: number[][] = [];
  net.folds.forEach((fold, i) => {
    const line = lines.find((l) => isOnLine(net.folds[l[0] as number] as NetFold, fold));
    if (line === undefined) lines.push([i]);
    else line.push(i);
  });
  return lines.filter((l) => l.length > 1);
}

const SAME_DEG = 0.01;

const isOnLine = (a: NetFold, b: NetFold): boolean => {
  if (a.up !== b.up || Math.abs(a.angleDeg - b.angleDeg) > SAME_DEG) return false;
  const turn = Math.abs(a.headingDeg - b.headingDeg) % 180;
  if (Math.min(turn, 180 - turn) > SAME_DEG) return false;
  const rad = (a.headingDeg * Math.PI) / 180;
  return (
    Math.abs(
      (b.middle[0] - a.middle[0]) * Math.cos(rad) + (b.middle[1] - a.middle[1]) * Math.sin(rad),
    ) <= CONTACT_GAP_MM
  );
};

/** All subsets of two or more. */
const setsOf = (line: readonly number[]): number[][] =>
  Array.from({ length: 1 << line.length }, (_, set) => set)
    .filter((set) => bitCount(set) > 1)
    .map((set) => line.filter((_, i) => (set & (1 << i)) !== 0));
