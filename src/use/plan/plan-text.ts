import { type Printed, printedIn } from '../../text/printed.ts';
import { cautionText } from '../../data/cautions.ts';
import type { Blocked, FoldPlan, FoldStep, RollingPlan } from '../../contract/fold-plan.ts';
import type { Redesign } from '../../contract/redesign.ts';
import { redesignWords } from '../make/redesign-words.ts';
import { blockedSummary, noseWords, restsOnWords, stopWords } from '../../paper/draw/fold-words.ts';
import { rollingWords } from '../../plan/of-part/rolling.ts';
import { FEWER_STROKES } from '../../plan/of-part/shop-plan.ts';
import { figure } from '../../text/figures.ts';

/**
 * How a part is folded, or what prevents it, as a person reads it. Of a half folded part it is the
 * plan of what is left.
 */
export const planText = (
  name: string,
  plan: FoldPlan | null,
  state: 'flat' | 'half folded' = 'flat',
  print = printedIn(),
  rolling?: RollingPlan,
): string => {
  if (rolling === undefined) return foldsText(name, plan, state, print);
  const rolled = rollingWords(rolling).map((words) => print.words(words));
  return plan === null
    ? [`${name}: ${rolled[0]}`, ...rolled.slice(1).map((line) => `  ${line}`)].join('\n')
    : [foldsText(name, plan, state, print), ...rolled.map((line) => `  then ${line}`)].join('\n');
};

const foldsText = (
  name: string,
  plan: FoldPlan | null,
  state: 'flat' | 'half folded',
  print: Printed,
): string => {
  const isBegun = state === 'half folded';
  if (plan === null)
    return isBegun
      ? `${name}: no fold is left to make`
      : `${name}: no order of folds to plan: it stays flat`;
  if (plan.feasible === null)
    return `${name}: not decided whether ${plan.machine} can fold it; there are too many orders to try. ${FEWER_STROKES}`;
  if (plan.feasible)
    return [
      `${name}, ${isBegun ? 'finished' : 'folded'} on ${plan.machine}`,
      ...plan.steps.map((step, i) => stepText(step, i, print)),
      `  rests on ${restsOnWords(plan)}`,
    ].join('\n');
  const summary = isBegun ? [] : blockedSummary(plan).map((line) => `  ${print.words(line)}`);
  return [
    `${name}: no order of ${isBegun ? 'the folds that are left' : 'folds'} works on ${plan.machine}`,
    ...summary.slice(0, -1),
    ...plan.blockedBy.map((blocked) => print.words(blockedText(blocked))),
    ...summary.slice(-1),
    `  rests on ${restsOnWords(plan)}`,
  ].join('\n');
};

const stepText = (s: FoldStep, i: number, { tape, word, words }: Printed): string => {
  const moves = [
    ...(s.flip ? ['turn it over'] : []),
    ...(s.turnDeg > 0 ? [`turn it by ${figure(s.turnDeg, 1)} deg`] : []),
  ];
  const mark =
    s.sightLineMm === null
      ? `mark by ${s.from}`
      : `mark ${tape(s.sightLineMm, 1)} ${word} from ${s.from}`;
  const tools =
    s.fingersMm.length === 0
      ? []
      : [`tools ${s.fingersMm.map((w) => figure(w, 0)).join(' + ')} mm`];
  // What is set by eye has neither stop nor mark.
  if (s.way === 'by eye')
    return `  ${i + 1}. fold ${s.bend}: ${words(`${figure(s.stopAtDeg, 1)} deg ${s.note ?? ''}`)}`;
  const told = [
    ...moves,
    mark,
    ...[
      ...noseWords(s),
      `clamp ${s.clampedSide}`,
      `${s.bump === undefined ? '' : `${s.bump.hits} hits, each `}stop at ${figure(s.stopAtDeg, 1)} deg`,
      ...stopWords(s),
      ...tools,
      ...(s.note === null ? [] : [s.note]),
    ].map(words),
  ];
  return `  ${i + 1}. fold ${s.bend}: ${told.join(', ')}`;
};

const blockedText = ({ bend, after, reason }: Blocked): string =>
  `  ${after.length === 0 ? 'flat' : `after ${after.join(', ')}`}: fold ${bend} cannot be made, ${reason}`;

/** Other designs that the shop can fold, with what each costs and how it is asked for. */
export const redesignsText = (redesigns: readonly Redesign[]): string[] =>
  redesigns.length === 0
    ? []
    : [
        'Designs that the shop can fold, each planned and proved, cheapest first:',
        ...redesigns.flatMap((redesign) => [
          `  ${redesignWords(redesign)}`,
          `    ${redesign.flags}`,
        ]),
        'Give those flags with make, or make --make-foldable, which takes the first.',
        ...(redesigns.some(({ seams, slits }) => seams + slits > 0)
          ? [cautionText('weld-for-bend')]
          : []),
      ];
