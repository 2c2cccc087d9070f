import { cutListText } from '../../cutlist/cut-list-text.ts';
import { tubeListText } from '../../cutlist/tube-list.ts';
import { printedIn } from '../../text/printed.ts';
import { cutListCsv, cutListOfJob, cutListOfLaidJob } from '../../use/cutlist/cut-list-of-job.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type FlagSpecs, textOf, wordOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { loadJob } from '../job/load-job.ts';
import { LAID_FLAG, loadLayout } from '../job/load-layout.ts';
import { inLines } from '../terminal.ts';
import type { RunCommand } from './index.ts';

const CUTLIST_USAGE = 'cutlist JOB.yaml';

const CUTLIST_FLAGS = {
  shop: {
    type: 'string',
    describe: "Shop file; else that of the job, shop.yaml beside it, then the user's own",
  },
  laid: LAID_FLAG,
  csv: { type: 'boolean', describe: 'Print comma-separated values, for a spreadsheet' },
} as const satisfies FlagSpecs;

/**
 * `cutlist JOB.yaml`: what a job needs cut, by material and thickness. JSON: `CutListResult`. When
 * a part is left out, the command ends as for a part that cannot be made.
 */
export const run: RunCommand = async (args, console) => {
  const { out, err } = console;
  const flags = await flagsOf(args, console, {
    usage: CUTLIST_USAGE,
    flags: CUTLIST_FLAGS,
    words: 2,
  });
  if (flags === undefined) return EXIT.made;
  const file = wordOf(flags);
  if (file === undefined)
    throw new WrongInput([
      {
        input: 'job',
        given: 'nothing',
        allowed: `the name of a job file: blankwright ${CUTLIST_USAGE}`,
      },
    ]);
  const loaded = await loadJob(file, textOf(flags, 'shop'));
  const layout = textOf(flags, 'laid');
  const listed =
    layout === undefined
      ? cutListOfJob(loaded)
      : cutListOfLaidJob(loaded, await loadLayout(layout));
  if (!listed.ok) throw new WrongInput(listed.problems);
  const { result } = listed;
  const { groups, tubes = [], left } = result;
  const { printUnits } = loaded.job;
  if (flags['json'] === true) out(JSON.stringify(result));
  else
    out(
      flags['csv'] === true
        ? cutListCsv(result).trimEnd()
        : [
            ...(groups.length === 0 ? [] : [cutListText(groups, printUnits)]),
            ...(tubes.length === 0 ? [] : [tubeListText(tubes, printedIn(printUnits))]),
          ]
            .map(inLines)
            .join('\n\n'),
    );
  if (flags['json'] !== true)
    for (const name of left)
      err(`${name} cannot be made and is not in the list; blankwright job tells why.`);
  return left.length === 0 ? EXIT.made : EXIT.stopped;
};
