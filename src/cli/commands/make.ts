import { makeParts, type MakeOptions } from '../../use/make/make-parts.ts';
import type { MakeResult } from '../../contract/part.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { FAMILY_FLAGS, type FamilyAsked, familyAsked } from '../family.ts';
import { FIT_FLAGS, fitAsked } from '../fit-flags.ts';
import { fitText } from '../fit-text.ts';
import { type FlagSpecs, textOf } from '../flags.ts';
import { WAY_FLAGS, wayOf } from '../make-flags.ts';
import { PAPER_FLAGS, papersAsked, type WantedPapers, withPapers } from '../paper-flags.ts';
import { listText, partTexts } from '../part-text.ts';
import { reportText } from '../report-text.ts';
import { savedParts } from '../save-parts.ts';
import type { RunCommand } from './index.ts';

const MAKE_FLAGS = {
  ...FAMILY_FLAGS,
  out: { type: 'string', describe: 'Folder to write to; out/ when left out' },
  force: { type: 'boolean', describe: 'Replace files that were not made for this part' },
  ...WAY_FLAGS,
  ...FIT_FLAGS,
  ...PAPER_FLAGS,
} as const satisfies FlagSpecs;

/**
 * `make FAMILY`: the finished files, or what stands in their way. JSON: `MakeResult`. Nothing is
 * written on a stop.
 */
export const run: RunCommand = async (args, console) => {
  const asked = await familyAsked(args, console, MAKE_FLAGS);
  if (asked === undefined) return EXIT.made;
  const papers = papersAsked(asked.flags);
  // How well a part is likely to fit stands on its sheet.
  const fit = fitAsked(asked.flags) ?? (papers?.kinds.includes('sheet') === true ? {} : undefined);
  return make(asked, { ...wayOf(asked.flags), ...(fit !== undefined && { fit }) }, papers, console);
};

const make = async (
  { template, inputs, flags, shop: { shop, shopFile } }: FamilyAsked,
  way: MakeOptions,
  papers: WantedPapers | undefined,
  { out, err }: Console,
): Promise<number> => {
  const made = makeParts(template, inputs, { ...way, ...(shop !== undefined && { shop }) });
  if (!made.ok) throw new WrongInput(made.problems);
  const isStopped = made.parts.some((p) => p.stopped);
  const whole =
    papers === undefined
      ? made.parts
      : await withPapers(made.parts, papers, { reports: made.reports, shop });
  const parts = savedParts(whole, textOf(flags, 'out') ?? 'out', flags['force'] === true);
  if (flags['json'] === true) {
    const result: MakeResult = { parts, reports: made.reports, lists: made.lists };
    out(JSON.stringify(result));
  } else {
    const print = isStopped ? err : out;
    if (shopFile !== undefined) print(`Checked against the shop of ${shopFile}`);
    for (const text of partTexts(parts)) print(text);
    for (const list of made.lists) print(listText(list));
    for (const { name, fit } of parts) if (fit !== null) print(fitText(name, fit));
    for (const report of made.reports) print(reportText(report));
    if (isStopped) err('Nothing was written.');
  }
  return isStopped ? EXIT.stopped : EXIT.made;
};
