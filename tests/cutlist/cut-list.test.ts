import { describe, expect, test } from 'vitest';
import { parse } from 'csv-parse/sync';
import { cutList, type ListedBlank } from '../../src/cutlist/cut-list.ts';
import { cutListRows, cutListText } from '../../src/cutlist/cut-list-text.ts';
import { csv } from '../../src/text/csv.ts';
import type { Shop } from '../../src/model/shop.ts';
import { make } from '../helpers/check-template.ts';
import { shopWith } from '../helpers/shops.ts';

const blanks = async (): Promise<ListedBlank[]> => {
  const parts = [
    ...(await make('ring', {
      name: '=cover',
      outer: 100,
      inner: 40,
      bolts: 4,
      boltCircle: 70,
      boltHole: 5,
      material: 's235',
      thickness: 2,
      quantity: 3,
    })),
    ...(await make('bracket-angle', {
      name: 'post, "left"',
      legA: 60,
      legB: 40,
      width: 80,
      material: 's235',
      thickness: 2,
      radius: 2,
      hand: 'both',
    })),
    ...(await make('ring', {
      name: 'lid',
      outer: 100,
      inner: 40,
      bolts: 4,
      boltCircle: 70,
      boltHole: 5,
      material: '5754-h22',
      thickness: 2,
    })),
  ];
  return parts.map(({ result, material, flat }) => {
    if (material === undefined) throw new Error('not made');
    return { result, materialFamily: material.family, flat };
  });
};

const SHOP: Shop = shopWith(
  {
    name: 'table',
    rates: [
      { thickness: 2, speed: 3000, pierce: 1 },
      { thickness: 3, speed: 100, pierce: 9 },
      { thickness: 2, speed: 1500, pierce: 2, material: 'aluminium' },
    ],
    pricePerHour: 60,
  },
  { sheets: [{ length: 300, width: 100, material: 'steel', thickness: 2, price: 12 }] },
);

describe('a cut list', () => {
  test('by material and thickness, with sums worked out by hand', async () => {
    const [aluminium, steel] = cutList(await blanks(), SHOP);
    expect([
      aluminium?.material,
      steel?.material,
      steel?.rows.map((r) => [r.name, r.quantity]),
    ]).toEqual([
      '5754-h22',
      's235',
      [
        ['=cover', 3],
        ['post, "left"-L', 1],
        ['post, "left"-R', 1],
      ],
    ]);
    // A ring of 100 in 40 with four holes of 5: pi/4 (100^2 - 40^2 - 4 x 5^2) of metal, pi (100 +
    // 40 + 4 x 5) of cut.
    const ring = { area: (Math.PI / 4) * (10_000 - 1600 - 100), cut: Math.PI * 160 };
    expect(aluminium?.total).toMatchObject({ quantity: 1, pierces: 6, folds: 0 });
    expect(aluminium?.total.areaMm2).toBeCloseTo(ring.area, 6);
    expect(aluminium?.total.cutLengthMm).toBeCloseTo(ring.cut, 6);
    expect(aluminium?.minutes).toBeCloseTo(ring.cut / 1500 + (6 * 2) / 60, 9);
    expect(aluminium?.cuttingCost).toBeCloseTo(aluminium?.minutes ?? 0, 9);
    expect(aluminium?.sheets).toBeNull();
    const post = steel?.rows[1];
    expect(steel?.total).toMatchObject({ quantity: 5, folds: 2, pierces: 3 * 6 + 2 });
    expect(steel?.total.areaMm2).toBeCloseTo(3 * ring.area + 2 * (post?.areaMm2 ?? 0), 6);
    expect(steel?.minutes).toBeCloseTo(
      (3 * ring.cut + 2 * (post?.cutLengthMm ?? 0)) / 3000 + 20 / 60,
      9,
    );
    // The metal of three rings and two blanks of 80 by about 97 is more than one sheet of 300 by
    // 100 has.
    expect(steel?.total.areaMm2).toBeGreaterThan(30_000);
    expect(steel?.sheets).toEqual({ lengthMm: 300, widthMm: 100, count: 2, cost: 24 });
    expect([steel?.tooLarge, steel?.otherSheets]).toEqual([[], []]);
  });

  test('without figures of the shop there is no time and no cost', async () => {
    const [group] = cutList(await blanks(), shopWith());
    expect([group?.minutes, group?.cuttingCost, group?.sheets, group?.rows[0]?.minutes]).toEqual([
      null,
      null,
      null,
      null,
    ]);
    expect(cutListText(cutList(await blanks(), shopWith()))).not.toMatch(/minutes|null|NaN/);
  });

  test('as a table to read', async () => {
    const text = cutListText(cutList(await blanks(), SHOP));
    for (const said of [
      's235 2 mm',
      '5754-h22 2 mm',
      '=cover',
      'on table',
      'at least 2 sheets of 300 x 100, 24',
    ])
      expect(text).toContain(said);
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThan(120);
  });

  test('as comma-separated values that a reader of others reads back, with nothing that a spreadsheet runs', async () => {
    const rows = parse(csv(cutListRows(cutList(await blanks(), SHOP))), {
      columns: true,
    }) as Record<string, string>[];
    expect(rows.map((r) => r['part'])).toEqual([
      'lid',
      "'=cover",
      'post, "left"-L',
      'post, "left"-R',
    ]);
    expect(rows[1]).toMatchObject({
      material: 's235',
      thickness_mm: '2',
      quantity: '3',
      width_mm: '100',
      pierces: '6',
    });
  });
});
