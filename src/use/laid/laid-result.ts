import type { CornerResult, LaidSheetResult } from '../../contract/laid.ts';
import type { Loop } from '../../geometry/loop.ts';
import type { LaidSheet } from '../../model/laid.ts';

/** A laid sheet for programs. */
export const laidSheetResult = (sheet: LaidSheet): LaidSheetResult => {
  const { name, stock, material, thicknessMm, gapMm, edgeMm, clampsMm = 0, parts } = sheet;
  return {
    name,
    stock: stock.name,
    isRemnant: stock.isRemnant,
    material,
    thicknessMm,
    price: stock.price ?? null,
    grain: stock.grain ?? null,
    gapMm,
    edgeMm,
    clampsMm,
    shears: stock.shears ?? null,
    outline: corners(stock.outline),
    holes: stock.holes.map(corners),
    parts: parts.map(({ name: part, copy, xMm, yMm, turnDeg, turnedOver }) => ({
      name: part,
      copy,
      x: xMm,
      y: yMm,
      turnDeg,
      turnedOver,
    })),
  };
};

const corners = (loop: Loop): CornerResult[] => loop.map(({ x, y, bulge }) => [x, y, bulge]);

/** The sheet that a result tells of. */
export const laidSheetOf = (result: LaidSheetResult): LaidSheet => {
  const { name, material, thicknessMm, gapMm, edgeMm, clampsMm, shears, price, grain } = result;
  return {
    name,
    material,
    thicknessMm,
    gapMm,
    edgeMm,
    clampsMm,
    stock: {
      name: result.stock,
      isRemnant: result.isRemnant,
      outline: loopOf(result.outline),
      holes: result.holes.map(loopOf),
      ...(price !== null && { price }),
      ...(grain !== null && { grain }),
      ...(shears !== null && { shears }),
    },
    parts: result.parts.map(({ name: part, copy, x, y, turnDeg, turnedOver }) => ({
      name: part,
      copy,
      xMm: x,
      yMm: y,
      turnDeg,
      turnedOver,
    })),
  };
};

const loopOf = (points: readonly CornerResult[]): Loop =>
  points.map(([x, y, bulge]) => ({ x, y, bulge }));
