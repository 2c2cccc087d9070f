import { figure } from '../../text/figures.ts';
import type { InputDescription } from '../../forms/read.ts';
import { composed, type Finding, type Try } from '../../model/finding.ts';
import { just, type Mend } from '../../model/mend.ts';
import type { Part } from '../../model/part.ts';
import type { Feature, Wish } from '../../model/wish.ts';
import { nearestMends, type Way } from './nearest-mends.ts';

/**
 * A part that was stopped, if there is one, and the means to make it again with one input changed.
 */
export interface Trial {
  readonly part: Part | undefined;
  readonly inputs: readonly InputDescription[];
  /**
   * Present value of an input, in mm or degrees; `undefined` where it is not such a figure or was
   * left out.
   */
  readonly valueOf: (input: string) => number | undefined;
  /**
   * What stops the part when one input is changed, or left out by `null`; `undefined` when the
   * input may not have that value.
   */
  readonly stopsWith: (
    input: string,
    value: number | string | null,
  ) => readonly Finding[] | undefined;
  /** What stops the part now. */
  readonly stops: readonly Finding[];
}

/** Number of changes that are told: more are no help. */
const MOST_TOLD = 3;

/**
 * A stop with the changes of its inputs that help. They are found by making the part again: each
 * change that is told has been tried and brings no other stop. A stop that was found on panels and
 * folds is told by the inputs that shape them. Where no change helps, the finding keeps the way out
 * that it gives in words.
 */
export function triedMends(finding: Finding, trial: Trial): Finding {
  const { on, said, tries = [] } = finding;
  if (said === undefined) return finding;
  return on === undefined ? withTries(finding, tries, trial) : withInputs(finding, on, trial);
}

/** Adds the tries to the mends that are known. */
function withTries(finding: Finding, tries: readonly Try[], trial: Trial): Finding {
  const known = finding.mends ?? [];
  const isKnown = (input: string): boolean => known.some((mend) => mend.input === input);
  const ways = tries.flatMap((t): Way[] => {
    if (typeof t === 'string') return isKnown(t) ? [] : waysOf(trial, t);
    return 'less' in t && !isKnown(t.less) ? waysOf(trial, t.less, [-1]) : [];
  });
  const whole = tries.flatMap((t) => (typeof t !== 'string' && 'input' in t ? [t] : []));
  const mends = filledUp(known, ways, whole, doesAwayWith(finding, trial));
  return composed({
    ...finding,
    inputs: [...new Set([...(finding.inputs ?? []), ...mends.map(({ input }) => input)])],
    mends,
  });
}

function withInputs(finding: Finding, on: NonNullable<Finding['on']>, trial: Trial): Finding {
  const { said = { what: finding.message, others: [] } } = finding;
  const folds = trial.part?.folds ?? [];
  const lines = folds.flatMap(({ id, asked }) =>
    asked !== undefined && on.folds.includes(id) ? [asked.input] : [],
  );
  const own = shapingInputs(trial.part, on.panels).filter(
    (input) => trial.valueOf(input) !== undefined,
  );
  const bends = folds.length === 0 ? [] : ['radius', 'cornerGap'];
  const does = doesAwayWith(finding, trial);
  const found = nearestMends(
    [...own, ...bends].flatMap((input) => waysOf(trial, input)),
    MOST_TOLD,
    does,
  );
  const more = found.length > 0 ? [] : others(trial, own).flatMap((input) => waysOf(trial, input));
  const mends = filledUp(found, more, [just('relief', 'slit')], does);
  const told = [...new Set([...lines, ...(mends.length > 0 ? mends.map((m) => m.input) : own)])];
  const given = told.flatMap((input) => {
    const value = trial.valueOf(input);
    return value === undefined
      ? lines.includes(input) && !said.what.includes(input)
        ? [`of ${input}`]
        : []
      : [`${input} ${figure(value)}`];
  });
  const what = given.length === 0 ? said.what : `${said.what} (${given.join(', ')})`;
  return composed({ ...finding, inputs: told, mends, said: { ...said, what } });
}

/**
 * The inputs whose lengths and angles are measured on these panels; places of holes shape nothing.
 */
function shapingInputs(part: Part | undefined, panels: readonly string[]): string[] {
  const wishes = part?.wishes ?? [];
  const names = wishes
    .filter((wish) => !isPlace(wish) && panelsOf(wish).some((panel) => panels.includes(panel)))
    .flatMap(({ input }) => input.match(/[a-z]\w*/gi) ?? []);
  return [...new Set(names)];
}

const isPlace = (wish: Wish): boolean =>
  wish.kind === 'diameter' ||
  (wish.kind === 'length' && wish.between.some(({ kind }) => kind === 'hole'));

const panelsOf = (wish: Wish): readonly string[] =>
  wish.kind === 'length'
    ? wish.between.map(({ panel }: Feature) => panel)
    : wish.kind === 'angle'
      ? wish.panels
      : [wish.panel];

/**
 * All other lengths and angles, for a family that tells nothing about its panels, or where no input
 * of these panels helps.
 */
const others = ({ inputs, valueOf }: Trial, known: readonly string[]): string[] =>
  inputs
    .filter(
      ({ name, kind, common }) =>
        (kind === 'length' || kind === 'angle') &&
        (!common || name === 'leastSlot') &&
        !known.includes(name) &&
        valueOf(name) !== undefined,
    )
    .map(({ name }) => name);

/** Both ways of an input that is a figure, or those that are asked for. */
function waysOf(
  { inputs, valueOf }: Trial,
  name: string,
  signs: readonly (1 | -1)[] = [1, -1],
): Way[] {
  const now = valueOf(name);
  const input = inputs.find((one) => one.name === name);
  return now === undefined || input === undefined
    ? []
    : signs.map((sign) => ({ input, now, sign }));
}

/** Mends that are known with as many more as there is room for: figures, then whole changes. */
function filledUp(
  known: readonly Mend[],
  ways: readonly Way[],
  whole: readonly Mend[],
  does: Does,
): readonly Mend[] {
  const room = MOST_TOLD - known.length;
  if (room <= 0) return known;
  const mends = [...known, ...nearestMends(ways, room, does)];
  for (const mend of whole)
    if (mends.length < MOST_TOLD && does(mend.input, mend.value ?? null)) mends.push(mend);
  return mends;
}

/** Whether a stop is gone when an input is changed, or left out by `null`. */
type Does = (input: string, value: number | string | null) => boolean;

const doesAwayWith =
  (finding: Finding, trial: Trial): Does =>
  (input, value) =>
    isGone(finding, trial, trial.stopsWith(input, value));

/** Whether a stop is gone and no other stop has come in its place. */
function isGone(
  finding: Finding,
  { stops }: Trial,
  after: readonly Finding[] | undefined,
): boolean {
  if (after === undefined) return false;
  const known = new Set(stops.map(({ rule }) => rule));
  return after.every((stop) => known.has(stop.rule) && !isSame(stop, finding));
}

const isSame = (a: Finding, b: Finding): boolean =>
  a.rule === b.rule &&
  (a.on === undefined || a.on.panels.some((panel) => b.on?.panels.includes(panel) === true));
