import { MM_PER_INCH } from '../text/units.ts';

/** What a printer holds: sheets, or a roll of some width. */
export type PaperSize = 'a4' | 'a3' | 'letter' | { readonly rollMm: number };

export interface SheetOfPaper {
  readonly widthMm: number;
  readonly heightMm: number;
}

/**
 * Sizes of sheets, upright. A3 and A4 after ISO 216; letter after ANSI Y14.1 (8 1/2 by 11 inches).
 */
export const SHEETS: Readonly<Record<'a4' | 'a3' | 'letter', SheetOfPaper>> = {
  a4: { widthMm: 210, heightMm: 297 },
  a3: { widthMm: 297, heightMm: 420 },
  letter: { widthMm: 8.5 * MM_PER_INCH, heightMm: 11 * MM_PER_INCH },
};
