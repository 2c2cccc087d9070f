import { WrongInput } from '../failure.ts';
import { type Flags, textOf } from '../flags.ts';

/** A flag's whole number; `undefined` when it was not given. */
export const wholeOf = (
  flags: Flags,
  name: string,
  least: number,
  most: number,
): number | undefined => {
  const text = textOf(flags, name);
  if (text === undefined) return undefined;
  const value = /^\d{1,15}$/.test(text) ? Number(text) : NaN;
  if (value >= least && value <= most) return value;
  throw new WrongInput([
    { input: `--${name}`, given: `'${text}'`, allowed: `a whole number from ${least} to ${most}` },
  ]);
};

const SECONDS = { s: 1, min: 60, h: 3600 };

/** Nobody waits longer. */
const LONGEST_SECONDS = 24 * 3600;

/** A flag's time in seconds: `10s`, `2min`, or a plain figure. */
export const secondsOf = (flags: Flags, name: string): number | undefined => {
  const text = textOf(flags, name);
  if (text === undefined) return undefined;
  const [, figure, unit = 's'] = /^(\d{1,6}(?:\.\d{1,3})?) ?(s|min|h)?$/.exec(text) ?? [];
  const seconds = Number(figure) * SECONDS[unit as keyof typeof SECONDS];
  if (seconds > 0 && seconds <= LONGEST_SECONDS) return seconds;
  throw new WrongInput([
    { input: `--${name}`, given: `'${text}'`, allowed: 'a time such as 10s or 2min, at most 24h' },
  ]);
};
