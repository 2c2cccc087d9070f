import { expect } from 'vitest';
import { cosDeg, sinDeg } from '../../src/geometry/degrees.ts';
import { type Extents, loopExtents } from '../../src/geometry/extents.ts';
import type { Loop } from '../../src/geometry/loop.ts';
import { moveLoop } from '../../src/geometry/motion2.ts';
import { layoutFaults } from '../../src/laid/check-layout.ts';
import type { LaidOnStock, LayRequest, PartToLay } from '../../src/lay/sheets/request.ts';
import type { LaidPart } from '../../src/model/laid.ts';
import type { StockPiece } from '../../src/model/stock.ts';

/** The loop x to -x, walked the other way; written here once more, apart from the search. */
const turnedOver = (loop: Loop): Loop =>
  loop.map(({ x, y }, i) => ({ x: -x, y, bulge: loop.at(i - 1)?.bulge ?? 0 })).toReversed();

const lying = ({ parts }: LayRequest, placed: LaidPart) => {
  const { outline, holes } = parts.find(({ name }) => name === placed.name) as PartToLay;
  const { turnDeg, xMm: x, yMm: y } = placed;
  const moved = (loop: Loop): Loop =>
    moveLoop(
      { c: cosDeg(turnDeg), s: sinDeg(turnDeg), x, y },
      placed.turnedOver ? turnedOver(loop) : loop,
    );
  return { name: placed.name, outline: moved(outline), holes: holes.map(moved) };
};

/** Parts that lie over a shear of their sheet, nearer to it than the edge, or where clamps hold. */
const overShears = (
  asked: LayRequest,
  { shears = { x: [], y: [] } }: StockPiece,
  placed: readonly LaidPart[],
): readonly string[] => {
  const { edgeMm, clampsMm = 0 } = asked;
  const isOver = (from: number, to: number, at: number, above: number): boolean =>
    from < at + above - 0.001 && to > at - edgeMm + 0.001;
  return placed.flatMap((one) => {
    const { minX, maxX, minY, maxY } = loopExtents(lying(asked, one).outline) as Extents;
    const isBad =
      shears.x.some((x) => isOver(minX, maxX, x, edgeMm)) ||
      shears.y.some((y) => isOver(minY, maxY, y, Math.max(edgeMm, clampsMm)));
    return isBad ? [one.name] : [];
  });
};

/** All parts are laid or told to be left, and keep their distances by their true outlines. */
export const expectSound = (asked: LayRequest, { filled, left }: LaidOnStock): void => {
  const { gapMm, edgeMm, clampsMm, pieces, parts } = asked;
  for (const { piece, parts: placed } of filled) {
    expect(overShears(asked, pieces[piece] as StockPiece, placed)).toEqual([]);
    expect(
      layoutFaults(
        placed.map((one) => lying(asked, one)),
        pieces[piece] as StockPiece,
        { gapMm, edgeMm, clampsMm, withinMm: 0.001 },
      ),
    ).toEqual([]);
  }
  for (const { name, quantity } of parts) {
    const copies = filled.flatMap(({ parts: on }) =>
      on.filter((p) => p.name === name).map(({ copy }) => copy),
    );
    const out = left.reduce((sum, l) => sum + (l.name === name ? l.count : 0), 0);
    expect(copies.length + out).toBe(quantity);
    expect(new Set(copies).size).toBe(copies.length);
  }
  pieces.forEach(({ count }, k) => {
    expect(filled.filter(({ piece }) => piece === k).length).toBeLessThanOrEqual(count ?? Infinity);
  });
};
