import { MM_PER_INCH } from '../text/units.ts';

export interface SheetOfPaper {
  readonly widthMm: number;
  readonly heightMm: number;
}

/**
 * Sizes of sheets, upright, by the names by which they are asked for. A3 and A4 after ISO 216;
 * letter after ANSI Y14.1 (8 1/2 by 11 inches).
 */
export const SHEETS = {
  a4: { widthMm: 210, heightMm: 297 },
  a3: { widthMm: 297, heightMm: 420 },
  letter: { widthMm: 8.5 * MM_PER_INCH, heightMm: 11 * MM_PER_INCH },
} as const satisfies Readonly<Record<string, SheetOfPaper>>;

export type SheetName = keyof typeof SHEETS;

export const SHEET_NAMES = Object.keys(SHEETS) as readonly SheetName[];

/** How sizes of a blank are written: all from the datum, or each from the one before it. */
export const SIZES_BY = ['baseline', 'chain'] as const;

export type SizesBy = (typeof SIZES_BY)[number];

/** What a printer holds: sheets, a roll of some width, or all on one page, for a plotter to be cut up. */
export type PaperSize = SheetName | 'plotter' | { readonly rollMm: number };

/** The sheet of papers with pages: on a roll or a plotter only a card is printed, the rest on A4. */
export const sheetName = (paper: PaperSize): SheetName =>
  typeof paper === 'string' && paper !== 'plotter' ? paper : 'a4';
