import type { Template } from '../../forms/template.ts';
import { finished } from './finished.ts';
import { handsApart, joinedHands } from './hands-apart.ts';
import { type Made, makeGiven } from './make-given.ts';
import { filledOptions, optionProblems, type MakeOptions } from './make-options.ts';

export type { Made } from './make-given.ts';
export type { MakeOptions } from './make-options.ts';

/**
 * Makes finished parts from inputs as files and flags give them: one for each blank and each hand
 * asked for. It is pure: the same inputs give the same texts. Mistakes in the template or the
 * inputs are problems, mistakes in the part are findings; nothing is thrown but what the template's
 * own `build` throws. Where the right part differs from the left one, each hand is made by itself. Choices of a family that are left to the program (`auto`) are taken so that the
 * shop's machines fold the part. With `makeFoldable` a part that the shop cannot fold is made in another
 * design that it can, and a finding says in which.
 */
export function makeParts(
  template: Template,
  raw: Readonly<Record<string, unknown>>,
  options: MakeOptions = {},
): Made {
  const problems = optionProblems(options);
  if (problems.length > 0) return { ok: false, problems };
  const filled = filledOptions(options);
  return joinedHands(
    template,
    raw,
    handsApart(template, raw, filled).map((one) =>
      finished(template, one.raw, one.options, makeGiven(template, one.raw, one.options)),
    ),
  );
}
