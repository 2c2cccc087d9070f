import { MM_PER_INCH } from '../../text/units.ts';
import { printedIn, type PrintUnit } from '../../text/printed.ts';
import { keptChoice } from './kept-choice.ts';

/** What lengths are shown in. What is typed is read as it is written, and stays as it is. */
export const unit = keptChoice<PrintUnit>('units', ['mm', 'inch']);

/** A length with its unit: `63.5 mm`, `2 1/2 in`. */
export const lengthText = (mm: number, decimals?: number): string => {
  const printed = printedIn(unit.value);
  return `${printed.tape(mm, decimals)} ${printed.word}`;
};

/** How far a cut file may be off, as fine as it is proved: `0.001 mm`, `.001 in`. */
export const provedText = (mm: number): string =>
  unit.value === 'mm'
    ? `${Math.max(0.001, mm).toFixed(3)} mm`
    : `${Math.max(0.001, mm / MM_PER_INCH).toFixed(3)} in`;

/** Sizes one behind the other: `80.0 x 60.0 mm`. */
export const sizesText = (sizesMm: readonly number[]): string => {
  const { tape, word } = printedIn(unit.value);
  return `${sizesMm.map((mm) => tape(mm, 1)).join(' x ')} ${word}`;
};

/** A sentence with its lengths as they are shown. */
export const told = (text: string): string => printedIn(unit.value).words(text);
