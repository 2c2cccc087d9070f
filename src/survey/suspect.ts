import { adjust } from './adjust.ts';
import { rigidPointsOf } from './rigid-points.ts';
import { type Chosen, slackOf, type Task } from './choose.ts';
import { foundMm, nameOf, type Tie } from './network.ts';
import type { Precision } from './precision.ts';
import { constructedStarts } from './starts.ts';
import { LIMIT, type Suspect } from './survey.ts';
import { UNCHECKED } from '../statistics/resistant.ts';

/** Number of the most doubtful distances that are left out in turn. */
const TRIED = 8;
/**
 * Without the wrong distance the best constructions are near the truth, so a few starts suffice.
 */
const STARTS = 4;

interface Trial {
  readonly tie: Tie;
  /** Cost of the best fit without the tie. */
  readonly cost: number;
  /** Length that the others give the tie, mm. */
  readonly wouldBeMm: number;
}

/**
 * The distance without which the rest fits best, or `null` where all fit as well as a tape can be
 * read. Candidates come in the order of their standardised residuals, r / sqrt(share checked); each
 * is left out in turn and the rest adjusted anew.
 */
export function suspectOf(task: Task, chosen: Chosen, { checked }: Precision): Suspect | null {
  const { net, toleranceMm } = task;
  const doubtful = net.ties
    .map((tie) => ({ tie, size: standardised(foundMm(chosen.figure, tie) - tie.mm, checked(tie)) }))
    .toSorted((p, q) => q.size - p.size);
  if ((doubtful[0]?.size ?? 0) <= LIMIT * toleranceMm) return null;
  const trials = doubtful
    .slice(0, TRIED)
    .filter(({ tie }) => rigidPointsOf(without(task, tie).net).length === task.rigid.length)
    .map(({ tie }) => trial(task, chosen, tie))
    .toSorted((p, q) => p.cost - q.cost);
  const [best, ...others] = trials;
  if (best === undefined) return null;
  const rivals = others.filter((t) => t.cost <= best.cost + slackOf(task));
  return {
    ...namesOf(task, best.tie),
    measuredMm: best.tie.mm,
    wouldBeMm: best.wouldBeMm,
    rmsWithoutMm: Math.sqrt(best.cost / (net.ties.length - 1)),
    rivals: rivals.map((t) => namesOf(task, t.tie)),
  };
}

const standardised = (residualMm: number, share: number): number =>
  share < UNCHECKED ? 0 : Math.abs(residualMm) / Math.sqrt(share);

const without = (task: Task, tie: Tie): Task => ({
  ...task,
  net: { ...task.net, ties: task.net.ties.filter((t) => t !== tie) },
});

/**
 * Fit without one tie. A wrong distance may have turned a part of the figure over, so the
 * construction starts afresh as well. Without the tie a part may be free to flip; the side that is
 * nearer to what was measured is then taken.
 */
function trial(task: Task, chosen: Chosen, tie: Tie): Trial {
  const rest = without(task, tie);
  const fits = [chosen.figure, ...constructedStarts(rest.net, STARTS)].map((start) =>
    adjust(rest.net, start),
  );
  const cost = Math.min(...fits.map((f) => f.cost));
  const found = fits
    .filter((f) => f.cost <= cost + slackOf(task))
    .map((f) => foundMm(f.figure, tie));
  const wouldBeMm = found.reduce((p, q) => (Math.abs(q - tie.mm) < Math.abs(p - tie.mm) ? q : p));
  return { tie, cost, wouldBeMm };
}

const namesOf = ({ net }: Task, { a, b }: Tie): { from: string; to: string } => ({
  from: nameOf(net, a),
  to: nameOf(net, b),
});
