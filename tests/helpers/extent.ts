import type { Template } from '../../src/forms/template.ts';

/**
 * How much of the tests is run. `npm test` is the short extent, for whoever waits for it; `npm run
 * test:full` and a search with FUZZ_RUNS leave nothing out.
 */
export const IS_FULL =
  process.env['TEST_EXTENT'] === 'full' || process.env['FUZZ_RUNS'] !== undefined;

/** The short extent tries a tenth of the random cases, but never fewer than these. */
const FEWEST = 3;
/**
 * The full extent tries this share of them: cases come in one order, and what the first third of them
 * does not find is for a search (`npm run fuzz`), which has time.
 */
const IN_FULL = 3;

/**
 * How many cases a random test tries: a third of its own number in full, a tenth of it in short, or
 * another share where a case takes long or all families have as many, or what FUZZ_RUNS asks for
 * (`npm run fuzz`).
 */
export const fuzzRuns = (usual: number, share = 10): number => {
  const asked = Number(process.env['FUZZ_RUNS']);
  return Number.isInteger(asked) && asked > 0 ? asked : fixedRuns(usual, share);
};

/** The same for a test that gains nothing by a longer search. */
export const fixedRuns = (usual: number, share = 10): number =>
  Math.min(usual, Math.max(FEWEST, Math.ceil(usual / (IS_FULL ? IN_FULL : share))));

/**
 * What a count among the cases of a random test has to exceed. Of so few as there are in short,
 * chance may leave half of their share, or none.
 */
export const shareOf = (usual: number): number =>
  IS_FULL ? Math.floor(usual / (2 * IN_FULL)) : Math.floor(usual / 20) - 1;

/**
 * The examples of a family that are given to what takes long, as a solid kernel or a program of
 * somebody else's: all in full; in short the last, which is the one that is odd on purpose.
 */
export const examplesIn = ({ examples }: Pick<Template, 'examples'>): Template['examples'] =>
  IS_FULL ? examples : examples.slice(-1);

/**
 * The ways in which one thing out of many is tried, by its place among them: all in full; in short
 * every `step`th, beginning elsewhere from place to place, so that each way is tried with something.
 */
export const inTurns = <T>(ways: readonly T[], place: number, step: number): readonly T[] =>
  IS_FULL ? ways : byTurns(ways, place, step);

/**
 * The same in every extent: where each way takes long and there are many places, so that each way is
 * tried with many and each place with some.
 */
export const byTurns = <T>(ways: readonly T[], place: number, step: number): readonly T[] =>
  ways.filter((_, i) => i % step === place % step);

/**
 * At most so many of a list, evenly taken, beginning elsewhere from place to place: of a tank's many
 * plates in both hands, each of whose papers takes long.
 */
export const someOf = <T>(all: readonly T[], most: number, place = 0): readonly T[] =>
  byTurns(all, place, Math.max(1, Math.ceil(all.length / most)));

/** The size of what is large on purpose: a fortieth of it in short. */
export const largeSize = (usual: number): number => (IS_FULL ? usual : Math.ceil(usual / 40));

/**
 * The same of a list over all families, or of anything else in kinds: all in full, in short the
 * last of each kind.
 */
export const oneOfEach = <T>(all: readonly T[], kindOf: (one: T) => unknown): readonly T[] =>
  IS_FULL ? all : [...new Map(all.map((one) => [kindOf(one), one])).values()];
