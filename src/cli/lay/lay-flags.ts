import { availableParallelism } from 'node:os';
import { type LayAsked, TURNS } from '../../use/lay/lay-groups.ts';
import { parseLength } from '../../text/units.ts';
import { WrongInput } from '../failure.ts';
import { type Flags, textOf } from '../flags.ts';
import { choiceOf } from '../option-flags.ts';
import type { Threads } from './run-threads.ts';

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

/** A time that does for a strip, or for the sheets of one material. */
const USUAL_SECONDS = 10;

/** How long is searched, and by how many threads. */
export const threadsOf = (flags: Flags): Threads => {
  const steps = wholeOf(flags, 'steps', 1, 1e12);
  return {
    steps,
    seconds: steps === undefined ? (secondsOf(flags, 'time') ?? USUAL_SECONDS) : undefined,
    seed: wholeOf(flags, 'seed', 0, 2 ** 32) ?? 1,
    threads: wholeOf(flags, 'threads', 1, 64) ?? (steps === undefined ? availableParallelism() : 1),
  };
};

/** Longest distance that is kept between parts, mm: wider than every sheet. */
const LONGEST_MM = 20_000;

/** A flag's length in mm, 0 or more. */
export const lengthOf = (flags: Flags, name: string): number | undefined => {
  const text = textOf(flags, name);
  if (text === undefined) return undefined;
  const parsed = parseLength(text);
  if (parsed.ok && parsed.value >= 0 && parsed.value <= LONGEST_MM) return parsed.value;
  throw new WrongInput([
    {
      input: `--${name}`,
      given: `'${text}'`,
      allowed: `a length from 0 to ${LONGEST_MM} mm`,
      ...(parsed.ok ? {} : { mend: parsed.reason }),
    },
  ]);
};

/** What is asked of a layout. */
export const layAskedOf = (flags: Flags): LayAsked => {
  const gapMm = lengthOf(flags, 'gap');
  const given = [flags['together']].flat().filter((names) => typeof names === 'string');
  return {
    turns: choiceOf(flags, 'turn', TURNS) ?? '90',
    gapMm,
    edgeMm: lengthOf(flags, 'edge') ?? gapMm,
    clampsMm: lengthOf(flags, 'clamps'),
    hasGoodFace: flags['good-face'] === true,
    mayBuy: flags['stock-only'] !== true,
    first: namesIn(textOf(flags, 'first') ?? ''),
    together: given.map(namesIn),
  };
};

const namesIn = (text: string): readonly string[] =>
  text
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '');
