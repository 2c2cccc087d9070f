/**
 * The name of a hole of a blank by its place among them, counted from 0: `h1`. Drawings, tables,
 * proof, fit and findings all call it so; it is given here and nowhere else.
 */
export const holeName = (index: number): string => `h${index + 1}`;

/** Any name that says no more than that it is the n-th of its panel. */
const NO_INPUT = /^(?:hole|cut-out) \d+$/;

/**
 * How a person is told of a hole: its name, and the input that it came from: `h3 (holesA 2)`. A slot
 * of a row along a fold has no name of its own, and goes by what it came from.
 */
export const holeCalled = ({
  name,
  from,
}: {
  readonly name?: string | undefined;
  readonly from: string;
}): string => (name === undefined ? from : NO_INPUT.test(from) ? name : `${name} (${from})`);

/** What a person is told in place of the name of a measure: the same with its holes in it. */
export const calledOf = ({
  name,
  called = name,
}: {
  readonly name: string;
  readonly called?: string | undefined;
}): string => called;
