import type { InputProblem } from '../../forms/problem.ts';

/** A problem in one line, with the name of what is wrong. */
export const problemWords = ({ input, given, allowed }: InputProblem): string =>
  `${input}: ${given}; allowed: ${allowed}`;
