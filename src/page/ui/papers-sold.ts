import { SHEET_NAMES, type SheetName } from '../../model/paper.ts';
import { keptChoice } from './kept-choice.ts';

/** Papers that a printer at home holds, in words. */
export const PAPERS_SOLD: Readonly<Record<SheetName, string>> = {
  a4: 'A4',
  a3: 'A3',
  letter: 'Letter',
};

/** The paper that is in the printer. */
export const paper = keptChoice<SheetName>('paper', SHEET_NAMES);
