import { readStrip, STRIP_ALLOWED } from '../../use/lay/lay-strip.ts';
import { stripText } from '../../use/lay/strip-text.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import type { Flags } from '../flags.ts';
import { readTextFile } from '../read-text-file.ts';
import { threadsOf } from './lay-flags.ts';
import { searchStrip, STOPPED } from './run-threads.ts';

/** Limit on the size of a file of a strip, enough for two thousand outlines. */
const LARGEST_BYTES = 5_000_000;

/** `lay --strip FILE`: everything on as little of a strip as can be. */
export const runStrip = async (file: string, flags: Flags, console: Console): Promise<number> => {
  const threads = threadsOf(flags);
  const text = await readTextFile(file, {
    input: 'strip',
    allowed: STRIP_ALLOWED,
    tooLarge: 'give fewer items',
    mostBytes: LARGEST_BYTES,
  });
  const read = readStrip(text);
  if (!read.ok) throw new WrongInput(read.problems);
  const isJson = flags['json'] === true;
  const { result, isStopped } = await searchStrip(text, threads, (usedLength, densityPercent) => {
    if (!isJson) console.err(`${usedLength.toFixed(2)} long, ${densityPercent.toFixed(2)} %`);
  });
  if (isStopped && !isJson) console.err(STOPPED);
  console.out(isJson ? JSON.stringify(result) : stripText(result));
  return EXIT.made;
};
