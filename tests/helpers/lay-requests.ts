import { type Loop, rectangle } from '../../src/geometry/loop.ts';
import { layOnStock } from '../../src/lay/sheets/lay-on-stock.ts';
import type { LaidOnStock, LayRequest, PartToLay } from '../../src/lay/sheets/request.ts';
import type { StockPiece } from '../../src/model/stock.ts';

/** Parts and stock for the search, for tests and for the bench. */

export const part = (name: string, outline: Loop, more: Partial<PartToLay> = {}): PartToLay => ({
  name,
  outline,
  holes: [],
  quantity: 1,
  turnsDeg: [0, 90, 180, 270],
  mayTurnOver: false,
  grain: 'free',
  ...more,
});

export const sheet = (name: string, length: number, width: number, more = {}): StockPiece => ({
  name,
  isRemnant: false,
  outline: rectangle(0, 0, length, width),
  holes: [],
  ...more,
});

export const remnant = (name: string, outline: Loop, more = {}): StockPiece => ({
  name,
  isRemnant: true,
  count: 1,
  outline,
  holes: [],
  ...more,
});

export const STOCK_ONE = [sheet('sheet', 1000, 500)];

export const request = (
  parts: readonly PartToLay[],
  more: Partial<LayRequest> = {},
): LayRequest => ({
  parts,
  pieces: STOCK_ONE,
  gapMm: 5,
  edgeMm: 8,
  ...more,
});

export const laidIn = (steps: number, asked: LayRequest, seed = 1): LaidOnStock =>
  layOnStock(asked, { seed, mayGoOn: (made) => made < steps });
