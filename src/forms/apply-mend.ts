import type { Mend } from '../model/mend.ts';
import { camelCase } from './read.ts';

/**
 * Inputs as `makeParts` takes them with what a finding tells to change: the input is given what
 * does, of a range the end that is told first, or is left out. Whichever of its two names it had,
 * `legA` or `leg-a`, it then has the first. What was given is left as it is.
 */
export function applyMend(
  inputs: Readonly<Record<string, unknown>>,
  { input, atLeast, atMost, value }: Mend,
): Record<string, unknown> {
  const others = Object.fromEntries(
    Object.entries(inputs).filter(([name]) => camelCase(name) !== input),
  );
  return value === null ? others : { ...others, [input]: atLeast ?? atMost ?? value };
}
