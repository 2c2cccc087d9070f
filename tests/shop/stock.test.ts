import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readShop } from '../../src/shop/read.ts';
import { shopSchema } from '../../src/shop/schema.ts';
import { shopEntries, writeShop } from '../../src/shop/write.ts';
import { shopWithAnswers } from '../../src/use/shop/shop-with-answers.ts';
import { sheetsOf } from '../../src/use/shop/answers.ts';
import { stockOf } from '../../src/stock/stock-of.ts';
import { bytesOf, drawnDxf } from '../helpers/drawn-dxf.ts';
import { problemsOf } from './shop-file.ts';

const STOCK = `sheets:
  # Bought in spring.
  - { length: 2500, width: 1250, thickness: 3, material: s275, count: 2, price: 95, grain: along }
  - { name: the odd one, length: 1800, width: 900, thickness: 1.5, material: dc01, count: 0 }
remnants:
  - { name: R1, material: steel, thickness: 3, length: 640, width: 310 }
  - name: R2
    material: 1.4301
    thickness: 2
    outline: 0,0; 900,0; 900,200; 300,200; 300,600; 0,600
    holes:
      - { x: 150, y: 400, diameter: 80 }
      - outline:
          - 40,40
          - 140,40
          - 140,140
    grain: across
    price: 12
  - { name: door, material: steel, thickness: 3, dxf: door.dxf }
`;

const stockRead = (text: string) => {
  const read = readShop(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return { sheets: read.shop.sheets, remnants: read.shop.remnants, shop: read.shop };
};

describe('stock in a shop file', () => {
  test('reads, and what is written of it reads back as the same', () => {
    const { shop, sheets, remnants } = stockRead(STOCK);
    expect(sheets[0]).toEqual({
      length: 2500,
      width: 1250,
      thickness: 3,
      material: 's275',
      count: 2,
      price: 95,
      grain: 'along',
    });
    expect(remnants.map(({ name }) => name)).toEqual(['R1', 'R2', 'door']);
    expect(remnants[1]?.holes?.[1]).toEqual({ outline: '40,40; 140,40; 140,140' });
    const written = writeShop(shopEntries(shop, {}), 'as printed');
    expect(stockRead(written)).toEqual({
      sheets,
      remnants,
      shop: expect.objectContaining({ sheets, remnants }) as object,
    });
  });

  test('a file as it was written before means the same, and has no remnants', () => {
    const { sheets, remnants } = stockRead(
      'sheets: [{ length: 2000, width: 1000, material: steel, thickness: 1.5, price: 48.5 }]\n',
    );
    expect(sheets).toEqual([
      { length: 2000, width: 1000, material: 'steel', thickness: 1.5, price: 48.5 },
    ]);
    expect(remnants).toEqual([]);
  });

  test('the example of the README reads, and is stock but for the drawing', () => {
    const readme = readFileSync('README.md', 'utf8');
    const [, example = ''] = /```yaml\n(sheets:\n[^]*?)```/.exec(readme) ?? [];
    const { shop } = stockRead(example);
    const stock = stockOf(shop, new Map([['r3.dxf', bytesOf(drawnDxf('0 0 300 0 0 200 ...'))]]));
    expect(stock.ok && stock.stock.map(({ name }) => name)).toEqual([
      'R1',
      'R2',
      'R3',
      '2500 x 1250 x 3 s275',
      '2000 x 1000',
    ]);
  });

  test('the schema says what may be written', () => {
    const { properties } = shopSchema.json() as {
      properties: Record<string, { items: { properties: object; required: string[] } }>;
    };
    expect(Object.keys(properties['sheets']?.items.properties ?? {})).toEqual(
      expect.arrayContaining(['name', 'count', 'price', 'grain']),
    );
    expect(properties['remnants']?.items.required).toEqual(['name', 'material', 'thickness']);
  });

  test('sheets that are asked for again keep their counts, prices and comments', () => {
    const said = sheetsOf('2000 x 1000, 2500 x 1250 x 3 s275');
    const text = shopWithAnswers(STOCK, {
      machines: [],
      cutters: [],
      sheets: said.ok ? said.value : [],
    });
    expect(text).toContain('# Bought in spring.');
    expect(stockRead(text).sheets).toEqual([
      { length: 2000, width: 1000 },
      stockRead(STOCK).sheets[0],
    ]);
    expect(stockRead(text).remnants).toEqual(stockRead(STOCK).remnants);
  });
});

const R1 = 'name: R1, material: steel, thickness: 3';

describe('a mistake in it is told with its place and its mend', () => {
  test.each([
    [
      'an outline that crosses itself',
      `remnants: [{ ${R1}, outline: '0,0; 100,100; 100,0; 0,100' }]`,
      ['remnants[0].outline', /meets itself at 50,50/],
    ],
    [
      'an outline without quotes in braces',
      `remnants: [{ ${R1}, outline: 0 }]`,
      ['remnants[0].outline', /quotes/],
    ],
    [
      'a hole over the edge',
      `remnants: [{ ${R1}, length: 600, width: 300, holes: [{ x: 20, y: 100, diameter: 50 }] }]`,
      ['remnants[0].holes[0]', /lower left corner/],
    ],
    [
      'a hole beside the metal',
      `remnants: [{ ${R1}, length: 600, width: 300, holes: [{ x: 700, y: 100, diameter: 50 }] }]`,
      ['remnants[0].holes[0]', /lower left corner/],
    ],
    [
      'a hole in a hole',
      `remnants: [{ ${R1}, length: 600, width: 300, holes: [{ x: 150, y: 150, diameter: 200 }, { x: 150, y: 150, diameter: 20 }] }]`,
      ['remnants[0].holes[1]', /one outline/],
    ],
    [
      'a hole without its diameter',
      `remnants: [{ ${R1}, length: 600, width: 300, holes: [{ x: 150, y: 150 }] }]`,
      ['remnants[0].holes[0]', /all three/],
    ],
    [
      'two of one name',
      `sheets: [{ name: r1, length: 600, width: 300 }]\nremnants: [{ ${R1}, length: 600, width: 300 }]`,
      ['remnants[0].name', /another name/],
    ],
    ['no shape', `remnants: [{ ${R1} }]`, ['remnants[0]', /add length and width/]],
    ['half a rectangle', `remnants: [{ ${R1}, length: 600 }]`, ['remnants[0]', /add width/]],
    [
      'two shapes',
      `remnants: [{ ${R1}, length: 600, width: 300, dxf: r.dxf }]`,
      ['remnants[0]', /all but one/],
    ],
    [
      'a drawing in another folder',
      `remnants: [{ ${R1}, dxf: ../r.dxf }]`,
      ['remnants[0].dxf', /without folders/],
    ],
    [
      'holes beside a drawing',
      `remnants: [{ ${R1}, dxf: r.dxf, holes: [] }]`,
      ['remnants[0].holes', /draw them/],
    ],
    [
      'a thickness misspelt',
      'remnants: [{ name: R1, material: steel, thicknes: 3, length: 600, width: 300 }]',
      ['remnants[0].thicknes', /did you mean thickness/],
    ],
    [
      'a metal misspelt',
      'remnants: [{ name: R1, material: steal, thickness: 3, length: 600, width: 300 }]',
      ['remnants[0].material', /did you mean steel/],
    ],
    [
      'a count of 10^9',
      'sheets: [{ length: 600, width: 300, count: 1000000000 }]',
      ['sheets[0].count', /10000/],
    ],
    [
      'half a sheet',
      'sheets: [{ length: 600, width: 300, count: 1.5 }]',
      ['sheets[0].count', /write 2/],
    ],
  ])('%s', (_, text, [input, mend]) => {
    const problems = problemsOf(text);
    expect(problems.map((p) => p.input)).toEqual([input]);
    expect(problems[0]?.mend).toMatch(mend as RegExp);
    expect(problems[0]?.given).toMatch(/at line \d+/);
  });
});
