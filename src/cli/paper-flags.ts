import type { PaperSize } from '../model/paper.ts';
import { aboutOutput, isNeeded, OUTPUT_IDS, type OutputId } from '../use/outputs/index.ts';
import { WrongInput } from './failure.ts';
import { type Flags, type FlagSpecs, textOf } from './flags.ts';

/** Flags that ask for outputs beside the files to cut: of `make`. */
export const PAPER_FLAGS = {
  papers: {
    type: 'string',
    describe: `Papers to write too, any of ${OUTPUT_IDS.join(', ')}: ${OUTPUT_IDS.map(aboutOutput).join(', ')}`,
  },
  paper: {
    type: 'string',
    describe:
      'What a card template is printed on: a4 when left out, a3, letter, or roll and its width, such as "roll 610"',
  },
} as const satisfies FlagSpecs;

/** What outputs are wanted, and on what. */
export interface WantedPapers {
  readonly outputs: readonly OutputId[];
  readonly paper: PaperSize;
}

/** The outputs that are printed on paper of a size that may be chosen. */
const PRINTED = OUTPUT_IDS.filter((id) => isNeeded('paper', [id]));

/**
 * The papers that are asked for; `undefined` when none are. Throws `WrongInput` for kinds and sizes
 * that there are not.
 */
export const papersAsked = async (flags: Flags): Promise<WantedPapers | undefined> => {
  const [text, size] = [textOf(flags, 'papers'), textOf(flags, 'paper')];
  if (text === undefined) {
    if (size === undefined) return undefined;
    throw new WrongInput([
      {
        input: 'paper',
        given: `'${size}'`,
        allowed: `the paper of a ${PRINTED.map(aboutOutput).join(' or ')}`,
        mend: `ask for one with --papers ${PRINTED.join(' or ')}`,
      },
    ]);
  }
  const kinds = text
    .split(/[\s,]+/)
    .filter((word) => word !== '')
    .map((word) => OUTPUT_IDS.find((kind) => kind === word.toLowerCase()));
  const known = kinds.filter((kind) => kind !== undefined);
  if (known.length < Math.max(1, kinds.length))
    throw new WrongInput([
      {
        input: 'papers',
        given: `'${text}'`,
        allowed: `any of ${OUTPUT_IDS.join(', ')}, with commas between`,
      },
    ]);
  const { paper } = await import('../jobfile/schema.ts');
  const read = paper.safeParse(size ?? 'a4');
  if (!read.success)
    throw new WrongInput([
      { input: 'paper', given: `'${size}'`, allowed: read.error.issues[0]?.message ?? '' },
    ]);
  return { outputs: known, paper: read.data };
};
