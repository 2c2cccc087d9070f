import { type OutputId, OUTPUT_IDS, aboutOutput, isNeeded } from '../use/outputs/index.ts';
import { OUTPUTS_ASKED } from '../use/outputs/outputs-asked.ts';
import { type Printed, printedIn, type PrintUnit } from '../text/printed.ts';
import type { PaperSize, SizesBy } from '../model/paper.ts';
import { WrongInput } from './failure.ts';
import { type Flags, textOf } from './flags.ts';
import { saidIn, specsOf } from './option-flags.ts';

/** Flags of `make` that ask for outputs besides the cut files. */
export const OUTPUT_FLAGS = specsOf(OUTPUTS_ASKED);

const PRINT_UNITS = { printUnits: OUTPUTS_ASKED.printUnits };

/** The flag of commands that print lengths and write no papers. */
export const PRINT_FLAGS = specsOf(PRINT_UNITS);

/** How such a command writes lengths. */
export const printedFor = (flags: Flags): Printed =>
  printedIn(saidIn(PRINT_UNITS, flags).printUnits);

/** The outputs that are wanted, and the paper. */
export interface WantedOutputs {
  readonly outputs: readonly OutputId[];
  readonly paper: PaperSize | undefined;
  readonly sizes: SizesBy | undefined;
  readonly date: string | undefined;
  readonly cardOf: readonly string[] | undefined;
  readonly printUnits: PrintUnit;
}

/** Flags that mean nothing where nothing is printed. */
const ABOUT_PAPERS = ['paper', 'sizes', 'date', 'card-of'] as const;

/** The outputs that are printed on paper of a size that may be chosen. */
const PRINTED = OUTPUT_IDS.filter((id) => isNeeded('paper', [id]));

/**
 * The outputs that are asked for, and the unit of what is printed. Throws `WrongInput` for unknown words
 * and sizes.
 */
export const wantedOutputs = (flags: Flags): Partial<WantedOutputs> => {
  const {
    papers: outputs,
    paper,
    sizes,
    date,
    cardOf,
    printUnits = 'mm',
  } = saidIn(OUTPUTS_ASKED, flags);
  if (outputs !== undefined) return { outputs, paper, sizes, date, cardOf, printUnits };
  const given = ABOUT_PAPERS.find((name) => textOf(flags, name) !== undefined);
  if (given === undefined) return { printUnits };
  throw new WrongInput([
    {
      input: given,
      given: `'${textOf(flags, given)}'`,
      allowed: `the ${given} of something to be printed: ${PRINTED.map(aboutOutput).join(', ')}`,
      mend: `ask for one with --papers ${PRINTED.join(' or ')}`,
    },
  ]);
};
