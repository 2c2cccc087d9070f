import { inLines } from '../terminal.ts';
import type { PackResult } from '../../contract/pack.ts';
import type { MakeParts } from '../../use/job/remembering-parts.ts';
import { makeParts } from '../../use/make/make-parts.ts';
import { packJob, packLaidJob } from '../../use/pack/pack-job.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type FlagSpecs, textOf, wordOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { loadJob } from '../job/load-job.ts';
import { LAID_FLAG, loadLayout } from '../job/load-layout.ts';
import { choiceOf } from '../option-flags.ts';
import { saveNamed } from '../save.ts';
import type { RunCommand } from './index.ts';

const PACK_USAGE = 'pack JOB.yaml';

const PACK_FLAGS = {
  out: { type: 'string', describe: 'Folder to write to; pack/ when left out' },
  shop: {
    type: 'string',
    describe:
      "Shop file, which says how cut files are named; else that of the job, shop.yaml beside it, then the user's own",
  },
  laid: LAID_FLAG,
  'all-in-one': {
    type: 'boolean',
    describe: 'One archive for all parts, not one for each material and thickness',
  },
  fold: {
    type: 'string',
    describe:
      'Who folds: here, or service, which gets a drawing of each folded part; as the job says when left out',
  },
  force: {
    type: 'boolean',
    describe: 'Replace files that were not packed by this command for this job',
  },
} as const satisfies FlagSpecs;

/**
 * `pack JOB.yaml`: archives for a cutting service. JSON: `PackResult`. Parts that are stopped are
 * left out, and the command then ends as for a part that cannot be made.
 */
export const run: RunCommand = (args, console) => runPackCommand(args, console, makeParts);

/** The command `pack` with a given function that makes the parts. */
export const runPackCommand = async (
  args: readonly string[],
  console: Console,
  make: MakeParts,
): Promise<number> => {
  const flags = await flagsOf(args, console, { usage: PACK_USAGE, flags: PACK_FLAGS, words: 2 });
  if (flags === undefined) return EXIT.made;
  const file = wordOf(flags);
  if (file === undefined)
    throw new WrongInput([
      {
        input: 'job',
        given: 'nothing',
        allowed: `the name of a job file: blankwright ${PACK_USAGE}`,
      },
    ]);
  const fold = choiceOf(flags, 'fold', ['here', 'service']);
  const loaded = await loadJob(file, textOf(flags, 'shop'));
  const isAllInOne = flags['all-in-one'] === true;
  const layout = textOf(flags, 'laid');
  const packed =
    layout === undefined
      ? await packJob(loaded, { fold, isAllInOne, make })
      : await packLaidJob(loaded, await loadLayout(layout), { fold, isAllInOne, make });
  if (!packed.ok) throw new WrongInput(packed.problems);
  const { result, files } = packed;
  const pathOf = saveNamed(textOf(flags, 'out') ?? 'pack', files, flags['force'] === true);
  const zips = result.zips.map((zip) => ({ ...zip, file: pathOf(zip.file) }));
  if (flags['json'] === true) console.out(JSON.stringify({ ...result, zips }));
  else tell({ ...result, zips }, console);
  return result.left.length > 0 ? EXIT.stopped : EXIT.made;
};

const tell = ({ zips, left, tubes = [] }: PackResult, { out, err }: Console): void => {
  for (const { file, parts } of zips) out(inLines(`${file}: ${parts.join(', ')}`));
  for (const name of tubes) out(inLines(`not sent  ${name}: a tube is bent in the shop`));
  for (const { name, reason } of left) err(inLines(`left out  ${name}: ${reason}`));
};
