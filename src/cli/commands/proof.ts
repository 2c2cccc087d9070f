import { inLines } from '../terminal.ts';
import { basename } from 'node:path';
import { hasStop } from '../../model/finding.ts';
import { proofText } from '../../use/prove/proof-text.ts';
import { PART_ALLOWED, prove } from '../../use/prove/prove.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type FlagSpecs, textOf, wordOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { bytesOfDxf, readTextFile } from '../read-text-file.ts';
import type { RunCommand } from './index.ts';

export const PROOF_USAGE = 'proof FILE.dxf --part PART.json';

export const PROOF_FLAGS = {
  part: { type: 'string', describe: 'What blankwright make ... --json printed, or one part of it' },
} as const satisfies FlagSpecs;

/**
 * The limit is higher than for files of inputs, since the output of a whole job is longer than any
 * of them.
 */
const LARGEST_PART_BYTES = 20_000_000;

/**
 * `proof FILE.dxf --part PART.json`: folds a file on disk up and measures it. JSON: `Proof`. When
 * the file does not fold to what was asked, the command ends as for a part that cannot be made.
 */
export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, { usage: PROOF_USAGE, flags: PROOF_FLAGS, words: 2 });
  if (flags === undefined) return EXIT.made;
  const file = wordOf(flags);
  const part = textOf(flags, 'part');
  if (file === undefined)
    throw new WrongInput([
      {
        input: 'file',
        given: 'nothing',
        allowed: `the name of a DXF file: blankwright ${PROOF_USAGE}`,
      },
    ]);
  if (part === undefined)
    throw new WrongInput([
      {
        input: '--part',
        given: 'nothing',
        allowed: `what blankwright make ... --json printed, in a file: blankwright ${PROOF_USAGE}`,
      },
    ]);
  const text = await readTextFile(part, {
    input: 'part',
    allowed: PART_ALLOWED,
    tooLarge: 'give one part of it',
    mostBytes: LARGEST_PART_BYTES,
  });
  const proved = prove({
    dxf: { name: file, bytes: bytesOfDxf(file) },
    part: { name: part, text },
    fileName: basename(file),
  });
  if (!proved.ok) throw new WrongInput(proved.problems);
  const { name, result, findings } = proved;
  console.out(flags['json'] === true ? JSON.stringify(result) : inLines(proofText(name, result)));
  return hasStop(findings) ? EXIT.stopped : EXIT.made;
};
