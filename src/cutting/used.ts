import { perimeter, signedArea } from '../geometry/measure.ts';
import { areaOf } from './cut-piece.ts';
import type { SheetCuts } from './sheet-cuts.ts';

/** How much of a piece of stock its parts are, per cent: metal that is kept, holes of parts left out. */
export const usedPercent = ({ sheet: { stock }, blanks }: SheetCuts): number => {
  const parts = blanks.reduce(
    (sum, { piece: { outline, inner } }) =>
      sum + areaOf(outline) - inner.reduce((holes, hole) => holes + areaOf(hole), 0),
    0,
  );
  const area = (loop: typeof stock.outline): number => Math.abs(signedArea(loop));
  const all = area(stock.outline) - stock.holes.reduce((sum, hole) => sum + area(hole), 0);
  return (100 * parts) / all;
};

/** How long all cuts are together, mm. */
export const cutLengthMm = ({ order: { cuts } }: SheetCuts): number =>
  cuts.reduce((sum, { loop }) => sum + perimeter(loop), 0);
