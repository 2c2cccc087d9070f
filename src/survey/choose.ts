import { adjust, type Fit } from './adjust.ts';
import { type Flip, flipped, flipsOf } from './flips.ts';
import { framed, framePoints } from './frame.ts';
import {
  at,
  brokenCount,
  congruent,
  type Figure,
  type Network,
  offsetMm,
  type Sided,
} from './network.ts';
import { constructedStarts, scatteredStarts } from './starts.ts';
import { LIMIT } from './survey.ts';

/** What the choice between figures depends on. */
export interface Task {
  readonly net: Network;
  readonly rigid: readonly number[];
  readonly sides: readonly Sided[];
  readonly toleranceMm: number;
}

/** A flip that leads to another figure which fits as well, and why the present figure was taken. */
export interface OpenFlip extends Flip {
  readonly why: 'stated' | 'fit' | 'default';
}

export interface Chosen extends Fit {
  readonly flips: readonly OpenFlip[];
  /** Whether another figure fits as well that no flip explains. */
  readonly otherFigure: boolean;
}

type FlipsOf = (figure: Figure) => readonly Flip[];

/** Two figures whose distances differ by less than this, mm, are the same. */
const SAME_FIGURE_MM = 1e-3;

/** How far two costs may differ before the distances themselves tell the figures apart. */
export const slackOf = ({ toleranceMm }: Task): number => (LIMIT * toleranceMm) ** 2;

/**
 * The figure that fits best; among equals the one that keeps more statements, and then the one that
 * lies to the left.
 */
export function choose(task: Task): Chosen {
  const fits = figuresOf(task);
  const best = fits[0] as Fit;
  const flips = flipsOf(task.net, task.rigid);
  const settled = fits
    .filter((f) => f.cost <= best.cost + slackOf(task))
    .map((f) => settle(task, f, flips));
  const first = settled.reduce((p, q) => (demerit(task, q) < demerit(task, p) ? q : p));
  const open = openFlips(task, first, flips);
  return {
    ...first,
    flips: open.map((o) => o.flip),
    otherFigure: isOtherAmong(task, first, settled, flips),
  };
}

/**
 * Whether some figure still differs when every flip of both is taken to the same side, whatever was
 * stated.
 */
function isOtherAmong(task: Task, first: Fit, settled: readonly Fit[], flips: FlipsOf): boolean {
  const plain = { ...task, sides: [] };
  const others = settled.filter(
    (s) => !congruent(first.figure, s.figure, task.rigid, SAME_FIGURE_MM),
  );
  const canonical = (fit: Fit): Figure =>
    settle(plain, { ...fit, figure: framed(fit.figure, task.rigid, []) }, flips).figure;
  return others.some((o) => !congruent(canonical(first), canonical(o), task.rigid, SAME_FIGURE_MM));
}

/** Whether the figure lies turned over as a whole in its frame. */
function isOver({ rigid }: Task, { figure }: Fit): boolean {
  const { third } = framePoints(figure, rigid);
  return third !== undefined && at(figure, third)[1] < 0;
}

/**
 * Penalty of a figure: broken statements count first; among equals, the figure that is not turned
 * over as a whole is better.
 */
const demerit = (task: Task, fit: Fit): number =>
  2 * brokenCount(fit.figure, task.sides) + (isOver(task, fit) ? 1 : 0);

/**
 * Distinct figures that the starts lead to, best first. Where the construction fits badly, or no
 * distance is left over to tell figures apart, scattered starts are tried too.
 */
function figuresOf(task: Task): Fit[] {
  const { net, rigid } = task;
  const fits = constructedStarts(net).map((start) => adjust(net, start));
  const good = fits.some((f) => f.cost <= net.ties.length * task.toleranceMm ** 2);
  if (!good || net.ties.length <= 2 * net.names.length - 3)
    fits.push(...scatteredStarts(net).map((start) => adjust(net, start)));
  fits.sort((p, q) => p.cost - q.cost);
  const distinct: Fit[] = [];
  for (const fit of fits) {
    if (!distinct.some((d) => congruent(d.figure, fit.figure, rigid, SAME_FIGURE_MM)))
      distinct.push(fit);
  }
  return distinct.map(({ figure, cost }) => ({ figure: framed(figure, rigid, task.sides), cost }));
}

/**
 * Takes every open flip to the side on which it should lie. There are two rounds, since one flip
 * may change what a statement says about another.
 */
function settle(task: Task, start: Fit, flips: FlipsOf): Fit {
  let fit = start;
  for (let round = 0; round < 2; round += 1) {
    for (const flip of flips(fit.figure)) {
      const other = turned(task, fit, flip);
      if (other !== undefined && preference(task, fit, other, flip).other) fit = other;
    }
  }
  return fit;
}

/**
 * The other figure that a flip leads to, where it fits about as well and is a mirror image in that
 * part.
 */
function turned(task: Task, fit: Fit, flip: Flip): Fit | undefined {
  const { net, rigid, sides, toleranceMm } = task;
  const { figure, cost } = adjust(net, flipped(fit.figure, flip));
  const { points, from, to } = flip;
  const sign =
    offsetMm(figure, from, to, points[0] as number) *
    offsetMm(fit.figure, from, to, points[0] as number);
  const fits = Math.abs(cost - fit.cost) <= slackOf(task) && sign < 0;
  const rest = rigid.filter((p) => !points.includes(p));
  const isMirror =
    fits &&
    congruent(fit.figure, figure, rest, LIMIT * toleranceMm) &&
    !congruent(fit.figure, figure, rigid, toleranceMm / 2);
  return isMirror ? { figure: framed(figure, rigid, sides), cost } : undefined;
}

/** Costs that differ by less than this share of the slack are equal but for rounding. */
const EQUAL_COST_SHARE = 1e-9;

function preference(
  task: Task,
  fit: Fit,
  other: Fit,
  { points, from, to }: Flip,
): { readonly other: boolean; readonly why: OpenFlip['why'] } {
  const worseKept = demerit(task, fit) - demerit(task, other);
  if (worseKept !== 0) return { other: worseKept > 0, why: 'stated' };
  const worse = fit.cost - other.cost;
  if (Math.abs(worse) > EQUAL_COST_SHARE * slackOf(task)) return { other: worse > 0, why: 'fit' };
  // By default the part lies to the left in the figure before that is turned over as a whole, so
  // that turning it over changes nothing else.
  const off = offsetMm(fit.figure, from, to, points[0] as number);
  return { other: isOver(task, fit) ? off > 0 : off < 0, why: 'default' };
}

/**
 * Open flips with the figures they lead to. Several flips may lead to the same figure; the first of
 * them stands for all.
 */
function openFlips(
  task: Task,
  fit: Fit,
  flips: FlipsOf,
): { readonly flip: OpenFlip; readonly other: Fit }[] {
  const found: { readonly flip: OpenFlip; readonly other: Fit }[] = [];
  for (const flip of flips(fit.figure)) {
    const other = turned(task, fit, flip);
    if (
      other === undefined ||
      found.some((f) => congruent(f.other.figure, other.figure, task.rigid, SAME_FIGURE_MM))
    )
      continue;
    found.push({ flip: { ...flip, why: preference(task, fit, other, flip).why }, other });
  }
  return found;
}
