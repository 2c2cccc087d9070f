import { ALL_FAMILIES } from '../../../templates/index.ts';
import type { Console } from '../console.ts';
import { EXIT } from '../failure.ts';
import { flagsOf } from '../flags-of.ts';
import { columns, wrapWords } from '../terminal.ts';
import type { RunCommand } from './index.ts';

/** `list`: the part families. JSON: `{"families":[{"family","summary"}]}`. */
export const list = async (json: boolean, { out }: Console): Promise<number> => {
  const families = await Promise.all(
    [...ALL_FAMILIES.values()].map(async (load) => (await load()).default),
  );
  if (json) {
    out(JSON.stringify({ families: families.map(({ family, summary }) => ({ family, summary })) }));
    return EXIT.made;
  }
  const widest = Math.max(...families.map((f) => f.family.length));
  const indent = ' '.repeat(widest + 2);
  for (const { family, summary } of families)
    out(family.padEnd(indent.length) + wrapWords(summary, indent, columns()).trimStart());
  out('\nInputs: blankwright describe FAMILY');
  return EXIT.made;
};

export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, { usage: 'list', flags: {}, words: 1 });
  return flags === undefined ? EXIT.made : list(flags['json'] === true, console);
};
