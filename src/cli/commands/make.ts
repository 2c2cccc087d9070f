import { basename, dirname } from 'node:path';
import { hasStop } from '../../model/finding.ts';
import { type MadeFiles, makeFiles } from '../../use/make/make-files.ts';
import { makeTexts } from '../../use/make/make-text.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { FAMILY_FLAGS, type FamilyAsked, familyAsked } from '../family.ts';
import { FIT_FLAGS, fitAsked } from '../fit-flags.ts';
import { type FlagSpecs, textOf } from '../flags.ts';
import { WAY_FLAGS, wayOf } from '../make-flags.ts';
import { OUTPUT_FLAGS, wantedOutputs } from '../output-flags.ts';
import { saveAll, saveNamed } from '../save.ts';
import { inLines, typed } from '../terminal.ts';
import type { RunCommand } from './index.ts';

const MAKE_FLAGS = {
  ...FAMILY_FLAGS,
  out: { type: 'string', describe: 'Folder to write to; out/ when left out' },
  'as-panels': {
    type: 'string',
    describe: 'Write the part to this file as inputs of the family panels, and make nothing',
  },
  force: { type: 'boolean', describe: 'Replace files that were not made for this part' },
  ...WAY_FLAGS,
  ...FIT_FLAGS,
  ...OUTPUT_FLAGS,
} as const satisfies FlagSpecs;

/**
 * `make FAMILY`: the finished files, or what prevents them. JSON: `MakeResult`. Nothing is written
 * on a stop.
 */
export const run: RunCommand = async (args, console) => {
  const asked = await familyAsked(args, console, MAKE_FLAGS);
  if (asked === undefined) return EXIT.made;
  const { template, inputs, flags, shop } = asked;
  const file = textOf(flags, 'as-panels');
  if (file !== undefined) return writeAsPanels(asked, file, console);
  const wanted = wantedOutputs(flags);
  const options = { ...wayOf(flags), fit: fitAsked(flags), shop: shop.shop };
  const made = await makeFiles({ template, inputs, options, ...wanted });
  if (!made.ok) throw new WrongInput(made.problems);
  const pathOf = saveNamed(textOf(flags, 'out') ?? 'out', made.files, flags['force'] === true);
  const parts = made.result.parts.map((part) => ({ ...part, files: part.files.map(pathOf) }));
  tell({ ...made, result: { ...made.result, parts } }, asked, console);
  return hasStop(made.findings) ? EXIT.stopped : EXIT.made;
};

/** Nothing else is made of it: what is to be made is the changed part. */
const writeAsPanels = async (
  { template, inputs, flags }: FamilyAsked,
  file: string,
  { out }: Console,
): Promise<number> => {
  const { partAsPanels } = await import('../../use/panels/as-panels.ts');
  const done = partAsPanels({ template, inputs, file: basename(file) });
  if (!done.ok) throw new WrongInput(done.problems);
  saveAll(dirname(file), done.files, flags['force'] === true);
  if (flags['json'] === true) out(JSON.stringify({ ...done.result, file }));
  else {
    out(`${done.result.name}, panel by panel: ${file}`);
    out(`Change what you like in it, and make it with\n${typed(`make panels --from ${file}`)}`);
  }
  return EXIT.made;
};

const tell = (
  { result, findings }: MadeFiles,
  { flags, shop: { shopFile } }: FamilyAsked,
  { out, err }: Console,
): void => {
  if (flags['json'] === true) {
    out(JSON.stringify(result));
    return;
  }
  const isStopped = hasStop(findings);
  const print = isStopped ? err : out;
  if (shopFile !== undefined) print(`Checked against the shop of ${shopFile}`);
  const { printUnits } = wantedOutputs(flags);
  const tellsFit = fitAsked(flags) !== undefined;
  for (const text of makeTexts(result, printUnits, tellsFit)) print(inLines(text));
  if (isStopped) err('Nothing was written.');
};
