import { PAPERS } from '../forms/making.ts';
import type { MadePart } from '../use/make/make-parts.ts';
import type { PaperSize } from '../model/paper.ts';
import type { Shop } from '../model/shop.ts';
import type { ReportResult } from '../contract/part.ts';
import { WrongInput } from './failure.ts';
import { type Flags, textOf } from './flags.ts';
import { saidIn, specsOf } from './option-flags.ts';
import type { PartToSave } from './save-parts.ts';
import type { PaperKind } from '../contract/paper-kind.ts';

/** Flags that ask for papers beside the files to cut: of `make`. */
export const PAPER_FLAGS = specsOf(PAPERS);

/** What papers are wanted, and on what. */
export interface WantedPapers {
  readonly kinds: readonly PaperKind[];
  readonly paper: PaperSize;
}

/**
 * The papers that are asked for; `undefined` when none are. Throws `WrongInput` for kinds and sizes
 * that there are not.
 */
export const papersAsked = (flags: Flags): WantedPapers | undefined => {
  const { papers: kinds, paper = 'a4' } = saidIn(PAPERS, flags);
  if (kinds !== undefined) return { kinds, paper };
  const size = textOf(flags, 'paper');
  if (size === undefined) return undefined;
  throw new WrongInput([
    {
      input: 'paper',
      given: `'${size}'`,
      allowed: 'the paper of a card template',
      mend: 'ask for one with --papers card',
    },
  ]);
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
