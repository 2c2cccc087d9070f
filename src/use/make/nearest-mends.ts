import type { InputDescription } from '../../forms/read.ts';
import { just, type Mend, orLess, orMore } from '../../model/mend.ts';

/** An input, another figure of which is looked for on one side of what it is now. */
export interface Way {
  readonly input: InputDescription;
  /** What it is now, mm or degrees. */
  readonly now: number;
  /** 1 for more, -1 for less. */
  readonly sign: 1 | -1;
}

/**
 * So many figures are tried before all ways are given up on which none has done. Of 5000 parts with
 * one or two inputs wrong, none needed more than 120 for all of its mends.
 */
const MOST_TRIALS = 200;

/**
 * The mends nearest to what was given, nearest first and at most `wanted` of them, as far as a
 * search in growing steps and then by halving finds them. `does` makes the part again and tells
 * whether a figure is a mend, which is what takes the time. The search is therefore always
 * continued where a mend can still be nearest, and ends when none of those left can be among those
 * wanted.
 */
export function nearestMends(
  ways: readonly Way[],
  wanted: number,
  does: (input: string, value: number) => boolean,
): Mend[] {
  const found: Found[] = [];
  let open = ways.flatMap(searchOn);
  for (let trials = 0; ; trials++) {
    if (trials >= MOST_TRIALS) open = open.filter(({ trial }) => trial.isFound);
    const [first, ...others] = open;
    if (first === undefined) break;
    const next = others.reduce((a, b) => (b.trial.leastFar < a.trial.leastFar ? b : a), first);
    if (found.filter(({ far }) => far < next.trial.leastFar).length >= wanted) break;
    const { done, value } = next.search.next(does(next.way.input.name, next.trial.value));
    if (done !== true) next.trial = value;
    else open = open.filter((other) => other !== next);
    if (done === true && value !== undefined) found.push({ ...value, place: next.place });
  }
  return found
    .toSorted((a, b) => a.far - b.far || a.place - b.place)
    .slice(0, wanted)
    .map(({ mend }) => mend);
}

interface Change {
  readonly mend: Mend;
  /** How far it is from what was given, as a share of that. */
  readonly far: number;
}

interface Found extends Change {
  /** The place of its way among all: of two that are as near, the first goes first. */
  readonly place: number;
}

/** A figure to be tried. */
interface Trial {
  readonly value: number;
  /** What is found in the end is no nearer than this. */
  readonly leastFar: number;
  /** Whether a figure on this way has done already, and only the nearest one is looked for. */
  readonly isFound: boolean;
}

/** Yields what is to be tried, is told whether it does, and gives what it has found in the end. */
type Search<Result> = Generator<Trial, Result, boolean>;

interface Open {
  readonly way: Way;
  readonly place: number;
  readonly search: Search<Change | undefined>;
  trial: Trial;
}

function searchOn(way: Way, place: number): Open[] {
  const search = changeOn(way);
  const { done, value } = search.next();
  return done === true ? [] : [{ way, place, search, trial: value }];
}

/** The nearest figure on one side that does, as it is told. */
function* changeOn(way: Way): Search<Change | undefined> {
  const { sign } = way;
  const { name, minimum = 0 } = way.input;
  const value = yield* nearest(way);
  if (value === undefined) return undefined;
  const mend =
    sign > 0 ? orMore(name, value) : value <= minimum ? just(name, minimum) : orLess(name, value);
  const told = mend.atLeast ?? mend.atMost ?? minimum;
  const isMend = yield* tried(way, { value: told, nearest: value, isFound: true });
  return isMend ? { mend, far: farOf(way, value) } : undefined;
}

/**
 * Penalty for angles: the part is made for its angle, so an angle is told only where lengths leave
 * room.
 */
const ANGLE_LAST = 1000;

const farOf = ({ now, input: { kind } }: Way, value: number): number =>
  Math.abs(value - now) / Math.max(Math.abs(now), 1) + (kind === 'angle' ? ANGLE_LAST : 0);

/** Tries a value; one that the input does not take needs no trial. */
function* tried(
  way: Way,
  { value, nearest: at, isFound }: Pick<Trial, 'value' | 'isFound'> & { readonly nearest: number },
): Search<boolean> {
  const { minimum = 0, maximum = Infinity } = way.input;
  return (
    value >= minimum && value <= maximum && (yield { value, isFound, leastFar: farOf(way, at) })
  );
}

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
function* nearest(way: Way): Search<number | undefined> {
  let last = way.now;
  for (const at of probes(way)) {
    if (yield* tried(way, { value: at, nearest: rounded(way, last), isFound: false }))
      return yield* rounder(way, yield* halved(way, last, at));
    last = at;
  }
  return undefined;
}

/** How near a rounder figure can come to the present one, where the exact one is no nearer than this. */
const rounded = ({ now, sign }: Way, value: number): number =>
  sign * (value - now) > ROUNDER ? value - sign * ROUNDER : now;

/**
 * Values to try in growing steps away from the present one; towards 0 the last steps become ever
 * smaller, so that small values are tried too.
 */
function probes({ now, sign, input: { minimum = 0, maximum = Infinity } }: Way): number[] {
  const limit = sign > 0 ? maximum : minimum;
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

function* rounder(way: Way, value: number): Search<number> {
  const round = Math.round(value / ROUNDER) * ROUNDER;
  const does = yield* tried(way, { value: round, nearest: rounded(way, value), isFound: true });
  return does ? round : value;
}

function* halved(way: Way, bad: number, good: number): Search<number> {
  let [fails, passes] = [bad, good];
  while (Math.abs(passes - fails) > MEND_FOUND) {
    const middle = (fails + passes) / 2;
    if (yield* tried(way, { value: middle, nearest: rounded(way, fails), isFound: true }))
      passes = middle;
    else fails = middle;
  }
  return passes;
}
