import type { Mend } from '../model/mend.ts';
import { camelCase } from './input-name.ts';

/**
 * Inputs as `makeParts` takes them, changed as a finding tells. The input gets the value that
 * helps, the first figure told of a range, or is left out. Whichever of its two names it had,
 * `legA` or `leg-a`, it then has the first. The given object is not changed.
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
