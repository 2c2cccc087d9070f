import type { Blocked, FoldPlan, FoldStep } from '../../contract/fold-plan.ts';
import { blockedSummary, noseWords, restsOnWords, stopWords } from '../../paper/draw/fold-words.ts';
import { figure } from '../../text/figures.ts';

/** How a part is folded, or what prevents it, as a person reads it. */
export const planText = (name: string, plan: FoldPlan | null): string => {
  if (plan === null)
    return `${name}: no order of folds to plan: it stays flat, or its slight bends are set by eye along their lines`;
  if (plan.feasible === null)
    return `${name}: not decided whether ${plan.machine} can fold it; there are too many orders to try`;
  if (plan.feasible)
    return [
      `${name}, folded on ${plan.machine}`,
      ...plan.steps.map(stepText),
      `  rests on ${restsOnWords(plan)}`,
    ].join('\n');
  const summary = blockedSummary(plan).map((line) => `  ${line}`);
  return [
    `${name}: no order of folds works on ${plan.machine}`,
    ...summary.slice(0, -1),
    ...plan.blockedBy.map(blockedText),
    ...summary.slice(-1),
    `  rests on ${restsOnWords(plan)}`,
  ].join('\n');
};

const stepText = (s: FoldStep, i: number): string => {
  const moves = [
    ...(s.flip ? ['turn it over'] : []),
    ...(s.turnDeg > 0 ? [`turn it by ${figure(s.turnDeg, 1)} deg`] : []),
  ];
  const mark =
    s.sightLineMm === null
      ? `mark by ${s.from}`
      : `mark ${figure(s.sightLineMm, 1)} mm from ${s.from}`;
  const tools =
    s.fingersMm.length === 0
      ? []
      : [`tools ${s.fingersMm.map((w) => figure(w, 0)).join(' + ')} mm`];
  return `  ${i + 1}. fold ${s.bend}: ${[...moves, mark, ...noseWords(s), `clamp ${s.clampedSide}`, `stop at ${figure(s.stopAtDeg, 1)} deg`, ...stopWords(s), ...tools, ...(s.note === null ? [] : [s.note])].join(', ')}`;
};

const blockedText = ({ bend, after, reason }: Blocked): string =>
  `  ${after.length === 0 ? 'flat' : `after ${after.join(', ')}`}: fold ${bend} cannot be made, ${reason}`;
