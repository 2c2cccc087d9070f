import { makeParts } from '../../use/make/make-parts.ts';
import { type CutGroup, cutList, type ListedBlank } from '../../cutlist/cut-list.ts';
import { cutListRows, cutListText } from '../../cutlist/cut-list-text.ts';
import type { Template } from '../../forms/template.ts';
import { csv } from '../../text/csv.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type FlagSpecs, textOf, wordOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { loadJob, type LoadedJob } from '../job/load-job.ts';
import type { RunCommand } from './index.ts';

const CUTLIST_USAGE = 'cutlist JOB.yaml';

const CUTLIST_FLAGS = {
  shop: {
    type: 'string',
    describe: "Shop file; else that of the job, shop.yaml beside it, then the user's own",
  },
  csv: { type: 'boolean', describe: 'Print comma-separated values, for a spreadsheet' },
} as const satisfies FlagSpecs;

/** The JSON document of `cutlist --json`. */
export interface CutListResult {
  readonly job: string;
  readonly groups: readonly CutGroup[];
  /** Parts that cannot be made, and so are not in the list. */
  readonly left: readonly string[];
}

/**
 * `cutlist JOB.yaml`: what is cut of a job, by material and thickness. JSON: `CutListResult`. Ends
 * as a part that cannot be made does when one is left out.
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
  const { blanks, left } = blanksOf(loaded);
  const groups = cutList(blanks, loaded.shop);
  const result: CutListResult = { job: loaded.job.title, groups, left };
  if (flags['json'] === true) out(JSON.stringify(result));
  else out(flags['csv'] === true ? csv(cutListRows(groups)).trimEnd() : cutListText(groups));
  if (flags['json'] !== true)
    for (const name of left)
      err(`${name} cannot be made and is not in the list; blankwright job tells why.`);
  return left.length === 0 ? EXIT.made : EXIT.stopped;
};

const blanksOf = ({
  job,
  families,
  shop,
}: LoadedJob): { readonly blanks: readonly ListedBlank[]; readonly left: readonly string[] } => {
  const blanks: ListedBlank[] = [];
  const left: string[] = [];
  for (const part of job.parts) {
    const made = makeParts(families.get(part.family) as Template, part.inputs, {
      ...part.way,
      shop,
    });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    for (const one of made.parts) {
      const { result } = one;
      if (one.stopped) left.push(result.name);
      else blanks.push({ result, materialFamily: one.material.family, flat: one.flat });
    }
  }
  return { blanks, left };
};
