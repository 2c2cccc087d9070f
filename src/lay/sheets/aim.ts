import type { StockPiece } from '../../model/stock.ts';
import type { Layout } from '../layout.ts';
import type { Shape } from '../shapes.ts';
import { cleanAreaOn } from './clean-rectangle.ts';
import type { Aim, PartToLay } from './request.ts';
import type { StockTask } from './stock-task.ts';

/** The piece of stock that a sheet is. */
export const pieceOn = ({ request, pieceOf }: StockTask, sheet: number): StockPiece =>
  request.pieces[pieceOf[sheet] as number] as StockPiece;

/** Whether every whole sheet has a price: layouts are compared by that then. */
export const goesByPrice = ({ request }: StockTask): boolean =>
  request.pieces.every(({ isRemnant, price }) => isRemnant || price !== undefined);

/** What a whole sheet counts; remnants count nothing. */
export const costOf = (stock: StockTask, sheet: number): number => {
  const { isRemnant, price } = pieceOn(stock, sheet);
  if (isRemnant) return 0;
  return goesByPrice(stock) ? (price as number) : 1;
};

/** The sheets that something is laid on. */
export const usedSheets = (layout: Layout): number[] =>
  layout.on.flatMap((there, k) => (there.some((i) => i < layout.count) ? [k] : []));

/** What the layout is worth, by what it is judged by. */
export const aimOf = (stock: StockTask, layout: Layout): Aim => {
  const used = usedSheets(layout);
  const whole = used.filter((k) => !pieceOn(stock, k).isRemnant);
  const remnants = stock.pieceOf.flatMap((_, k) => (pieceOn(stock, k).isRemnant ? [k] : []));
  const isFirst = (i: number): boolean =>
    (stock.request.parts[stock.partOf[i] as number] as PartToLay).isFirst === true;
  const out = Array.from(layout.sheet.subarray(0, layout.count)).flatMap((k, i) =>
    k < 0 ? [i] : [],
  );
  const areaOn = (k: number): number =>
    (layout.on[k] as readonly number[]).reduce(
      (sum, i) =>
        i < layout.count ? sum + (stock.areas[stock.partOf[i] as number] as number) : sum,
      0,
    );
  return {
    firstLeft: out.filter(isFirst).length,
    left: out.length + stock.left.reduce((sum, { count }) => sum + count, 0),
    cost: whole.reduce((sum, k) => sum + costOf(stock, k), 0),
    bought: whole.filter((k) => pieceOn(stock, k).count === undefined).length,
    onWholeMm2: whole.reduce((sum, k) => sum + areaOn(k), 0),
    cleanMm2: Math.max(
      0,
      ...[...new Set([...used, ...remnants])].map((k) => cleanAreaOn(layout, k)),
    ),
    travelMm: used.reduce((sum, k) => sum + travelOn(layout, k), 0),
  };
};

/** The way from the corner of the sheet to one part after the other, each time to the nearest. */
const travelOn = ({ on, task, shape, x, y, count }: Layout, sheet: number): number => {
  const left = (on[sheet] as readonly number[]).flatMap((i) => {
    const { minX, minY, maxX, maxY } = task.shapes[shape[i] as number] as Shape;
    const at: readonly [number, number] = [
      (x[i] as number) + (minX + maxX) / 2,
      (y[i] as number) + (minY + maxY) / 2,
    ];
    return i < count ? [at] : [];
  });
  let [atX, atY, way] = [0, 0, 0];
  while (left.length > 0) {
    const ways = left.map((p) => Math.hypot(p[0] - atX, p[1] - atY));
    const nearest = ways.indexOf(Math.min(...ways));
    way += ways[nearest] as number;
    [[atX, atY]] = left.splice(nearest, 1) as [[number, number]];
  }
  return way;
};
