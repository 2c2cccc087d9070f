import type { MadePart } from '../use/made-part.ts';
import type { PaperSize } from '../model/paper.ts';
import type { Shop } from '../model/shop.ts';
import type { ReportResult } from '../contract/part.ts';
import { WrongInput } from './failure.ts';
import { type Flags, type FlagSpecs, textOf } from './flags.ts';
import type { PartToSave } from './save-parts.ts';
import { PAPER_KINDS, type PaperKind } from '../contract/paper-kind.ts';

/** Flags that ask for papers beside the files to cut: of `make`. */
export const PAPER_FLAGS = {
  papers: {
    type: 'string',
    describe:
      'Papers to write too, any of card, sheet, model, step: card template, job sheet, GLB and STL, STEP (needs an extra package)',
  },
  paper: {
    type: 'string',
    describe:
      'What a card template is printed on: a4 when left out, a3, letter, or roll and its width, such as "roll 610"',
  },
} as const satisfies FlagSpecs;

/** What papers are wanted, and on what. */
export interface WantedPapers {
  readonly kinds: readonly PaperKind[];
  readonly paper: PaperSize;
}

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
        allowed: 'the paper of a card template',
        mend: 'ask for one with --papers card',
      },
    ]);
  }
  const kinds = text
    .split(/[\s,]+/)
    .filter((word) => word !== '')
    .map((word) => PAPER_KINDS.find((kind) => kind === word.toLowerCase()));
  const known = kinds.filter((kind) => kind !== undefined);
  if (known.length < Math.max(1, kinds.length))
    throw new WrongInput([
      {
        input: 'papers',
        given: `'${text}'`,
        allowed: `any of ${PAPER_KINDS.join(', ')}, with commas between`,
      },
    ]);
  const { paper } = await import('../jobfile/schema.ts');
  const read = paper.safeParse(size ?? 'a4');
  if (!read.success)
    throw new WrongInput([
      { input: 'paper', given: `'${size}'`, allowed: read.error.issues[0]?.message ?? '' },
    ]);
  return { kinds: known, paper: read.data };
};

/** The same parts, with their papers among their files. */
export const withPapers = async (
  parts: readonly MadePart[],
  wanted: WantedPapers,
  { reports, shop }: { readonly reports: readonly ReportResult[]; readonly shop: Shop | undefined },
): Promise<readonly PartToSave[]> => {
  const { papersOf } = await import('../use/papers.ts');
  return Promise.all(
    parts.map(async (part, i): Promise<PartToSave> => {
      const { files, findings } = await papersOf({
        part,
        ...wanted,
        report: i === 0 ? reports[0] : undefined,
        shop,
      });
      return {
        ...part,
        result: { ...part.result, findings: [...part.result.findings, ...findings] },
        files: () => [...part.files(), ...files],
      };
    }),
  );
};
