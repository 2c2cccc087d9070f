import type { AddedRemnant, TakenBack, TakenStock, UsedStock } from '../../contract/stock.ts';
import { printedIn, type PrintUnit } from '../../text/printed.ts';

/** What was booked, as a person reads it: what was used, and what is to be chalked on the rest. */
export const takenText = (
  { layout, shop, used, added }: TakenStock,
  units: PrintUnit = 'mm',
): string =>
  [
    `Booked in ${shop} (layout ${layout}):`,
    ...used.map((one) => `  ${usedLine(one)}`),
    ...(added.length === 0
      ? ['  Nothing is left that is worth keeping.']
      : ['Chalk on what is left:', ...added.map((one) => `  ${addedLine(one, units)}`)]),
    '--take-back undoes it.',
  ].join('\n');

const usedLine = ({ stock, isRemnant, count, left, bought }: UsedStock): string => {
  if (isRemnant) return `${stock} is used up`;
  const there = left === null ? 'not counted' : `${left} left`;
  return `${count} of ${stock}, ${there}${bought > 0 ? `; ${bought} bought for it` : ''}`;
};

const addedLine = (
  { name, sheet, lengthMm, widthMm, outline, xMm, yMm }: AddedRemnant,
  units: PrintUnit,
): string => {
  const { tape, word } = printedIn(units);
  const size = `${tape(lengthMm, 1)} x ${tape(widthMm, 1)} ${word}`;
  const what = outline === null ? size : `${size} over all, by its outline`;
  return `${name}: ${what}, of ${sheet} from ${tape(xMm, 1)}, ${tape(yMm, 1)}`;
};

/** What was taken back, as a person reads it. */
export const takenBackText = ({ layout, shop, removed }: TakenBack): string =>
  `Taken back (layout ${layout}): ${shop} is as it was before.${removed.length === 0 ? '' : ` Rub out ${removed.join(', ')}.`}`;
