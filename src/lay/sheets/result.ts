import type { Layout } from '../layout.ts';
import { usedSheets } from './aim.ts';
import { NO_ROOM } from './reasons.ts';
import type { LaidPart } from '../../model/laid.ts';
import type { Aim, Filled, LaidOnStock, LeftOut, PartToLay } from './request.ts';
import type { Ground } from './ground.ts';
import type { StockTask } from './stock-task.ts';

/** What lies where, in the coordinates of the pieces of stock, and what is left. */
export const laidOnStock = (
  stock: StockTask,
  layout: Layout,
  aim: Aim,
  isProved: boolean,
  steps: number,
): LaidOnStock => {
  const copies = new Map<number, number>();
  const filled = usedSheets(layout).map((sheet): Filled => {
    const piece = stock.pieceOf[sheet] as number;
    const there = (layout.on[sheet] as readonly number[]).filter((i) => i < layout.count);
    return {
      piece,
      parts: there
        .toSorted((a, b) => a - b)
        .map((i) => placedAt(stock, layout, i, stock.grounds[piece] as Ground, copies)),
    };
  });
  return { filled, left: [...stock.left, ...noRoom(stock, layout)], aim, isProved, steps };
};

const placedAt = (
  { partOf, looks, request }: StockTask,
  { shape, x, y }: Layout,
  i: number,
  ground: Ground,
  copies: Map<number, number>,
): LaidPart => {
  const part = partOf[i] as number;
  const copy = (copies.get(part) ?? 0) + 1;
  copies.set(part, copy);
  const { turnedOver, turnDeg } = looks[shape[i] as number] as StockTask['looks'][number];
  return {
    name: (request.parts[part] as PartToLay).name,
    copy,
    turnedOver,
    turnDeg,
    xMm: (x[i] as number) + ground.x,
    yMm: (y[i] as number) + ground.y,
  };
};

const noRoom = ({ partOf, request }: StockTask, layout: Layout): LeftOut[] => {
  const counts = new Map<number, number>();
  partOf.forEach((part, i) => {
    if ((layout.sheet[i] as number) < 0) counts.set(part, (counts.get(part) ?? 0) + 1);
  });
  return [...counts].map(([part, count]) => ({
    name: (request.parts[part] as PartToLay).name,
    count,
    reason: NO_ROOM,
  }));
};
