import type { Printed } from '../text/printed.ts';
import { MM_PER_INCH } from '../text/units.ts';
import type { Finding } from './finding.ts';
import { mendFigure, type ShownUnit } from './mend.ts';

const INCH: ShownUnit = { word: 'in', mm: MM_PER_INCH };

/**
 * What a finding says, its lengths as they are printed. What would mend a length that was typed
 * without a unit is told so that it can be typed again: `Set leastSlot to 0.156in or more`.
 */
export const printedMessage = (
  { message, mends = [], limit }: Pick<Finding, 'message' | 'mends' | 'limit'>,
  { unit, words }: Printed,
): string => {
  if (unit === 'mm' || limit?.unit !== 'mm') return words(message);
  const told = mends.reduce((text, mend) => {
    if (mend.value !== undefined && typeof mend.value !== 'number') return text;
    const [from, to] = [mendFigure(mend), mendFigure(mend, INCH)];
    return text
      .replaceAll(`${mend.input} to ${from}`, `${mend.input} to ${to}`)
      .replaceAll(`${mend.input} ${from}`, `${mend.input} ${to}`);
  }, message);
  return words(told);
};

/** The same finding with its message as it is printed. */
export const printedFinding = <F extends Pick<Finding, 'message' | 'mends' | 'limit'>>(
  finding: F,
  print: Printed,
): F => ({ ...finding, message: printedMessage(finding, print) });
