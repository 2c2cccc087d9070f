import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { loopExtents } from '../../src/geometry/extents.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import { isOfStock } from '../../src/model/stock.ts';
import { readShop } from '../../src/shop/read.ts';
import { type ReadStock, type StockDrawings, stockOf } from '../../src/stock/stock-of.ts';
import { bytesOf, drawnDxf } from '../helpers/drawn-dxf.ts';

const stockFrom = (text: string, drawings?: StockDrawings): ReadStock => {
  const read = readShop(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return stockOf(read.shop, drawings);
};

const pieces = (text: string, drawings?: StockDrawings) => {
  const read = stockFrom(text, drawings);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.stock;
};

const dxf = (...shapes: readonly string[]): Uint8Array => bytesOf(drawnDxf(...shapes));

const DOOR = 'remnants: [{ name: door, material: steel, thickness: 3, dxf: door.dxf }]\n';
const SQUARE = '100 100 400 100 400 300 100 300 ...';

describe('the stock of a shop', () => {
  test('remnants come first and are there once; sheets lie with the longer side along x', () => {
    const [remnant, tall, named] = pieces(`sheets:
  - { length: 1000, width: 2000, thickness: 2, material: steel, count: 3, price: 40, grain: along }
  - { name: best, length: 2000, width: 1000, grain: along }
remnants: [{ name: R1, material: s275, thickness: 3, length: 640, width: 310, grain: across }]
`);
    expect(remnant).toEqual({
      name: 'R1',
      material: 's275',
      thicknessMm: 3,
      isRemnant: true,
      outline: rectangle(0, 0, 640, 310),
      holes: [],
      count: 1,
      grain: 'y',
    });
    expect(tall).toEqual({
      name: '2000 x 1000 x 2 steel',
      material: 'steel',
      thicknessMm: 2,
      isRemnant: false,
      outline: rectangle(0, 0, 2000, 1000),
      holes: [],
      count: 3,
      price: 40,
      // Along its length of 1000, which lies across here.
      grain: 'y',
    });
    expect([named?.name, named?.count, named?.grain]).toEqual(['best', undefined, 'x']);
  });

  test('no two pieces have one name', () => {
    const names = pieces(
      'sheets: [{ length: 2000, width: 1000 }, { length: 1000, width: 2000 }, { name: 2000 X 1000 (2), length: 9, width: 9 }]'.replaceAll(
        ' 9',
        ' 90',
      ),
    ).map(({ name }) => name);
    expect(new Set(names.map((n) => n.toLowerCase())).size).toBe(3);
    expect(pieces('{ "sheets": [] }')).toEqual([]);
    expect(stockOf(DEFAULT_SHOP)).toMatchObject({ ok: true, stock: [{}, {}, {}] });
  });

  test('the box of a remnant begins at 0,0, and its holes go with it', () => {
    const [one] = pieces(
      "remnants: [{ name: R2, material: steel, thickness: 2, outline: '10,20; 10,620; 910,20', holes: [{ x: 60, y: 120, diameter: 40 }] }]\n",
    );
    expect(loopExtents(one?.outline ?? [])).toEqual({ minX: 0, minY: 0, maxX: 900, maxY: 600 });
    expect(signedArea(one?.outline ?? [])).toBe(270_000);
    expect(loopExtents(one?.holes[0] ?? [])).toEqual({ minX: 30, minY: 80, maxX: 70, maxY: 120 });
  });

  test('a sheet is for a material by family or id, and for its thickness', () => {
    const s275 = { id: 's275', family: 'steel' } as const;
    const [family, id, other, any] = pieces(
      'sheets: [{ length: 90, width: 90, material: steel, thickness: 3 }, { length: 90, width: 90, material: s275 }, { length: 90, width: 90, material: dc01 }, { length: 90, width: 90 }]',
    );
    const isFor = (mm: number): boolean[] =>
      [family, id, other, any].map((p) => p !== undefined && isOfStock(p, s275, mm));
    expect(isFor(3)).toEqual([true, true, false, true]);
    expect(isFor(2)).toEqual([false, true, false, true]);
  });
});

describe('a remnant drawn in DXF', () => {
  test('has the holes of the drawing, in its unit', () => {
    const [door] = pieces(DOOR, new Map([['door.dxf', dxf(SQUARE, '200 200 30')]]));
    expect(loopExtents(door?.outline ?? [])).toEqual({ minX: 0, minY: 0, maxX: 300, maxY: 200 });
    expect(door?.holes.map((h) => loopExtents(h))).toEqual([
      { minX: 70, minY: 70, maxX: 130, maxY: 130 },
    ]);
    const inches = drawnDxf('0 0 10 0 10 4 0 4 ...').replace('70\n4\n', '70\n1\n');
    const [small] = pieces(DOOR, new Map([['door.dxf', bytesOf(inches)]]));
    expect(loopExtents(small?.outline ?? [])).toMatchObject({ maxX: 254 });
  });

  test.each([
    ['is missing', undefined, /no such file/],
    ['is empty', new Uint8Array(), /./],
    ['draws two', dxf(SQUARE, '900 900 30'), /2 outlines/],
    ['draws nothing', dxf(), /no closed outline/],
    ['draws something in a hole', dxf(SQUARE, '200 200 50', '200 200 20'), /hole/],
    ['crosses itself', dxf('0 0 300 300 300 0 0 300 ...'), /cross/],
    ['has a hole over its edge', dxf(SQUARE, '110 200 30'), /cross/],
    ['is open', dxf('0 0 90 0'), /./],
  ])('%s: a problem that names it', (_, bytes, why) => {
    const read = stockFrom(DOOR, new Map(bytes === undefined ? [] : [['door.dxf', bytes]]));
    expect(read).toMatchObject({
      ok: false,
      problems: [{ input: 'remnants[0].dxf', mend: expect.stringMatching(/./) as string }],
    });
    expect(read.ok ? '' : read.problems[0]?.given).toMatch(why);
    expect(read.ok ? '' : read.problems[0]?.given).toContain('door.dxf of door');
  });
});
