import type { Printed } from '../../text/printed.ts';
import { PRINT_FLAGS, printedFor } from '../output-flags.ts';
import { withRule } from '../../model/finding-line.ts';
import type { PlannedParts } from '../../contract/fold-plan.ts';
import { type PlannedFamily, planParts } from '../../use/plan/plan-parts.ts';
import { rescuesText } from '../../use/plan/half-folded.ts';
import { planText, redesignsText } from '../../use/plan/plan-text.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { FAMILY_FLAGS, familyAsked } from '../family.ts';
import { type FlagSpecs, textOf } from '../flags.ts';
import { WAY } from '../../forms/making.ts';
import { saidIn, specsOf } from '../option-flags.ts';
import { saveNamed } from '../save.ts';
import { inLines } from '../terminal.ts';
import type { RunCommand } from './index.ts';

/** Options of making that a plan depends on. */
const PLANNED_WAY = { wideBends: WAY.wideBends };

export const PLAN_OF_FLAGS = {
  out: {
    type: 'string',
    describe:
      'Folder for drawings of the steps, or of what prevents them, one SVG for each part; nothing is drawn when left out',
  },
  force: { type: 'boolean', describe: 'Replace files that were not made for this part' },
  'by-machine-only': {
    type: 'boolean',
    describe: WAY.byMachineOnly.facts.about,
  },
  machine: {
    type: 'string',
    describe:
      'The folding machine, by its id: one of the shop file, or built in; the first of the shop that can fold the part when left out',
  },
  ...specsOf(PLANNED_WAY),
  done: {
    type: 'string',
    describe:
      'Folds that are made already, such as B,C: how the rest is folded, or what has to be opened or cut off again',
  },
  ...PRINT_FLAGS,
} as const satisfies FlagSpecs;

/**
 * `plan FAMILY`: the steps in which a part is folded, or what prevents it and what would help.
 * JSON: `PlannedParts`. When a part cannot be folded or made, the command ends as for a part that
 * cannot be made.
 */
export const run: RunCommand = async (args, console) => {
  const asked = await familyAsked(args, console, { ...FAMILY_FLAGS, ...PLAN_OF_FLAGS });
  if (asked === undefined) return EXIT.made;
  const { template, inputs, flags, shop } = asked;
  const folder = textOf(flags, 'out');
  const machine = textOf(flags, 'machine');
  const planned = planParts({
    template,
    inputs,
    machine,
    shop: shop.shop,
    isDrawn: folder !== undefined,
    print: printedFor(flags),
    byMachineOnly: flags['by-machine-only'] === true,
    wideBends: saidIn(PLANNED_WAY, flags).wideBends,
    done: textOf(flags, 'done')
      ?.split(/[,;]/)
      .map((name) => name.trim())
      .filter((name) => name !== ''),
  });
  if (!planned.ok) throw new WrongInput(planned.problems);
  const pathOf = saveNamed(folder ?? '', planned.files, flags['force'] === true);
  const parts = planned.result.parts.map((part) => ({ ...part, files: part.files.map(pathOf) }));
  tell(
    { ...planned, result: { ...planned.result, parts } },
    flags['json'] === true,
    console,
    printedFor(flags),
  );
  return planned.isFoldable ? EXIT.made : EXIT.stopped;
};

const tell = (
  { result, stops }: PlannedFamily,
  json: boolean,
  { out, err }: Console,
  print: Printed,
): void => {
  if (json) {
    out(JSON.stringify(result));
    return;
  }
  for (const { name, finding } of stops) err(inLines(`${name}: ${print.words(withRule(finding))}`));
  out(
    inLines(
      [
        ...result.parts.map((part) => textOfPart(part, print)),
        ...redesignsText(result.redesigns),
      ].join('\n'),
    ),
  );
};

const textOfPart = (
  { name, foldPlan, files, rescues, rolling }: PlannedParts['parts'][number],
  print: Printed,
): string =>
  [
    planText(name, foldPlan, rescues === undefined ? 'flat' : 'half folded', print, rolling),
    ...rescuesText(rescues),
    ...files.map((file) => `  drawn in ${file}`),
  ].join('\n');
