import { rectangle } from '../../src/geometry/loop.ts';
import { circle } from '../../src/geometry/shapes.ts';
import type { LaidSheet } from '../../src/model/laid.ts';
import type { StockPiece } from '../../src/model/stock.ts';
import { readShop } from '../../src/shop/read.ts';
import type { PartOutlines } from '../../src/stock/left.ts';
import { stockOf } from '../../src/stock/stock-of.ts';

/** The stock of a farm workshop, with remarks that have to outlive every booking. */
export const RACK = `# The rack behind the door.
name: farm workshop
sheets:
  # Bought in spring, the good ones.
  - { length: 2500, width: 1250, thickness: 3, material: s275, count: 2, price: 95, grain: along }
  - { length: 2000, width: 1000, thickness: 3, material: steel } # from the merchant
remnants: # on the left
  - { name: R1, material: steel, thickness: 3, length: 640, width: 310 }
  # The odd one.
  - name: R4
    material: s275
    thickness: 3
    outline: 0,0; 900,0; 900,200; 300,200; 300,600; 0,600
    holes: [{ x: 150, y: 400, diameter: 80 }]
  - { name: door, material: dx51d, thickness: 1.5, length: 400, width: 300 } # keep for the cart
weldGap: 0.5 # measured
`;

export const OUTLINES: PartOutlines = new Map([
  ['floor', { outline: rectangle(0, 0, 800, 600), holes: [] }],
  ['ear', { outline: rectangle(0, 0, 150, 90), holes: [circle([40, 45], 8)] }],
]);

const stockIn = (text: string): readonly StockPiece[] => {
  const read = readShop(text);
  const stock = read.ok ? stockOf(read.shop) : read;
  if (!stock.ok) throw new Error(JSON.stringify(stock.problems));
  return stock.stock;
};

/** A layout of one part in the corner of each of some pieces of stock, by their names. */
export const laidOn = (
  text: string,
  ...pieces: readonly (readonly [stock: string, part: string])[]
): readonly LaidSheet[] =>
  pieces.map(([name, part], i) => {
    const stock = stockIn(text).find((piece) => piece.name === name);
    if (stock === undefined) throw new Error(`no ${name}`);
    return {
      name: `s275-3-${i + 1}`,
      stock,
      material: 's275',
      thicknessMm: 3,
      gapMm: 4,
      edgeMm: 5,
      parts: [{ name: part, copy: i + 1, turnedOver: false, turnDeg: 0, xMm: 5, yMm: 5 }],
    };
  });

export const BIG = '2500 x 1250 x 3 s275';
export const PLAIN = '2000 x 1000 x 3 steel';
