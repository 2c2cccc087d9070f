import { perimeter, signedArea } from '../geometry/measure.ts';
import type { Loop } from '../geometry/loop.ts';
import type { Drawing } from '../model/drawing.ts';
import type { LaidSheet } from '../model/laid.ts';
import { areaOf, cutPieceOf } from './cut-piece.ts';
import type { SheetCuts } from './sheet-cuts.ts';

/**
 * How much of a piece of stock its parts are, per cent: metal that is kept, holes of the parts and
 * of the stock left out.
 */
export const usedPercent = (
  { stock, parts }: LaidSheet,
  drawings: ReadonlyMap<string, Drawing>,
): number => {
  const kept = parts.reduce((sum, { name }) => sum + metalArea(drawings.get(name)), 0);
  const all = ringArea(stock.outline) - stock.holes.reduce((sum, hole) => sum + ringArea(hole), 0);
  return (100 * kept) / all;
};

const ringArea = (loop: Loop): number => Math.abs(signedArea(loop));

const metalArea = (drawing: Drawing | undefined): number => {
  const piece = cutPieceOf(drawing?.items ?? []);
  if (piece === undefined) return 0;
  return areaOf(piece.outline) - piece.inner.reduce((sum, hole) => sum + areaOf(hole), 0);
};

/** How long all cuts are together, mm. */
export const cutLengthMm = ({ order: { cuts } }: SheetCuts): number =>
  cuts.reduce((sum, { loop }) => sum + perimeter(loop), 0);
