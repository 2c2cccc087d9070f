import { figure } from '../../text/figures.ts';
import type { InputDescription } from '../../forms/read.ts';
import { composed, type Finding, type Try } from '../../model/finding.ts';
import { just, type Mend, orLess, orMore } from '../../model/mend.ts';
import type { Part } from '../../model/part.ts';
import type { Feature, Wish } from '../../model/wish.ts';

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
  const found = tries.flatMap((t): Change[] => {
    if (typeof t === 'string') return isKnown(t) ? [] : changes(finding, trial, t);
    return 'less' in t && !isKnown(t.less) ? changes(finding, trial, t.less, [-1]) : [];
  });
  const whole = tries.filter(
    (t): t is Mend =>
      typeof t !== 'string' &&
      'input' in t &&
      isGone(finding, trial, trial.stopsWith(t.input, t.value ?? null)),
  );
  const mends = [...known, ...nearestFirst(found), ...whole].slice(
    0,
    Math.max(MOST_TOLD, known.length),
  );
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
  const found = [...own, ...bends].flatMap((input) => changes(finding, trial, input));
  const more =
    found.length > 0 ? [] : others(trial, own).flatMap((input) => changes(finding, trial, input));
  const slit = isGone(finding, trial, trial.stopsWith('relief', 'slit'))
    ? [just('relief', 'slit')]
    : [];
  const mends = [...nearestFirst([...found, ...more]), ...slit].slice(0, MOST_TOLD);
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

const nearestFirst = (changes: readonly Change[]): Mend[] =>
  changes.toSorted((a, b) => a.far - b.far).map(({ mend }) => mend);

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

interface Change {
  readonly mend: Mend;
  /** How far it is from the given value, as a share of that. */
  readonly far: number;
}

/** The nearest values of an input, above and below the present one, that remove the stop. */
function changes(
  finding: Finding,
  trial: Trial,
  input: string,
  ways: readonly (1 | -1)[] = [1, -1],
): Change[] {
  const now = trial.valueOf(input);
  const {
    kind,
    minimum = 0,
    maximum = Infinity,
  } = trial.inputs.find(({ name }) => name === input) ?? {};
  if (now === undefined) return [];
  const does = (value: number): boolean =>
    value >= minimum && value <= maximum && isGone(finding, trial, trial.stopsWith(input, value));
  return ways.flatMap((sign): Change[] => {
    const value = nearest(now, sign, sign > 0 ? maximum : minimum, does);
    if (value === undefined) return [];
    const mend =
      sign > 0
        ? orMore(input, value)
        : value <= minimum
          ? just(input, minimum)
          : orLess(input, value);
    const far =
      Math.abs(value - now) / Math.max(Math.abs(now), 1) + (kind === 'angle' ? ANGLE_LAST : 0);
    return does(mend.atLeast ?? mend.atMost ?? minimum) ? [{ mend, far }] : [];
  });
}

/**
 * Penalty for angles: the part is made for its angle, so an angle is told only where lengths leave
 * room.
 */
const ANGLE_LAST = 1000;

/**
 * First step, as a share of the value and of 1 mm at least, and the factor by which each step is
 * longer than the last.
 */
const FIRST_STEP = 0.05;
const GROWTH = 3;
/** Limit of the search, as a multiple of the value, and the least limit in mm or degrees. */
const FARTHEST = 20;
const FAR_ENOUGH = 300;
/**
 * Accuracy at which the search ends, mm or degrees, and the distance within which it tries a
 * rounder figure.
 */
const MEND_FOUND = 0.02;
const ROUNDER = 0.1;
/** Values nearer to 0 than this, mm or degrees, are not examined one by one. */
const SMALL = 0.1;

/**
 * The nearest value on one side of `now` that helps, as far as a search in growing steps and then
 * by halving can tell.
 */
function nearest(
  now: number,
  sign: 1 | -1,
  limit: number,
  does: (value: number) => boolean,
): number | undefined {
  let last = now;
  for (const at of probes(now, sign, limit)) {
    if (does(at)) return rounder(halved(last, at, does), does);
    last = at;
  }
  return undefined;
}

/**
 * Values to try in growing steps away from the present one; towards 0 the last steps become ever
 * smaller, so that small values are tried too.
 */
function probes(now: number, sign: 1 | -1, limit: number): number[] {
  const [size, isTowards0] = [Math.max(Math.abs(now), 1), sign * now < 0];
  const found: number[] = [];
  for (
    let step = Math.max(FIRST_STEP * size, 1);
    step <= Math.max(FARTHEST * size, FAR_ENOUGH);
    step *= GROWTH
  ) {
    const at = now + sign * step;
    if (sign * (limit - at) <= 0) break;
    if (isTowards0 && Math.abs(at) < size / 2) break;
    found.push(at);
  }
  for (let at = now / 2; isTowards0 && Math.abs(at) > SMALL && sign * (limit - at) > 0; at /= 2)
    found.push(at);
  return sign * (limit - now) > 0 && Number.isFinite(limit) ? [...found, limit] : found;
}

const rounder = (value: number, does: (value: number) => boolean): number => {
  const round = Math.round(value / ROUNDER) * ROUNDER;
  return does(round) ? round : value;
};

function halved(bad: number, good: number, does: (value: number) => boolean): number {
  let [fails, passes] = [bad, good];
  while (Math.abs(passes - fails) > MEND_FOUND) {
    const middle = (fails + passes) / 2;
    if (does(middle)) passes = middle;
    else fails = middle;
  }
  return passes;
}

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
