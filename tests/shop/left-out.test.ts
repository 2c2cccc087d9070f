import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP, DEFAULT_SHOP_SOURCES } from '../../src/data/shop-default.ts';
import { isAssumedIn, type Shop, SHOP_PARTS, type ShopPart } from '../../src/model/shop.ts';
import { readShop } from '../../src/shop/read.ts';
import { shopSchema } from '../../src/shop/schema.ts';
import { withShop } from '../../src/shop/values.ts';
import { shopEntries, sourcesOf, writeShop } from '../../src/shop/write.ts';

/** A shop file of every part, none of them as in the built-in shop. */
const OWN: Readonly<Record<ShopPart, string>> = {
  name: 'name: barn',
  folders: 'folders: [{ like: straight-2000x1.5, id: bench, clampOpening: 40 }]',
  pressBrakes: 'pressBrakes: [pressbrake-1250]',
  cutters:
    'cutters: [{ name: table, process: plasma, thickness: { from: 1, to: 12 }, bed: { length: 1250, width: 1250 }, kerf: [{ thickness: 2, kerf: 1.5 }] }]',
  sheets: 'sheets: [{ length: 1000, width: 500 }]',
  remnants: 'remnants: [{ name: R1, material: steel, thickness: 3, length: 640, width: 310 }]',
  marking: 'marking: { folds: none }',
  handover: 'handover: { tolerance: c }',
  weldGap: 'weldGap: 1.5',
  bends:
    'bends: [{ material: dc01, machine: m, tool: t, thickness: 1.5, radius: 2, k: 0.4, kError: 0.01, radiusError: 0.1, strips: 5, angles: { from: 45, to: 120 } }]',
};

const shopOf = (parts: readonly ShopPart[]): Shop => {
  const read = readShop(parts.map((part) => OWN[part]).join('\n'));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.shop;
};

const BUILT_IN = shopEntries(DEFAULT_SHOP, {}).entries;
/** A part of the built-in shop; a file that gives anything is called after nothing. */
const builtIn = (part: ShopPart): unknown => (part === 'name' ? 'the shop' : BUILT_IN[part]);

describe('a part that a shop file leaves out is that of the built-in shop', () => {
  test.each(SHOP_PARTS)('%s', (part) => {
    const others = SHOP_PARTS.filter((other) => other !== part);
    const shop = shopOf(others);
    expect(shopEntries(shop, {}).entries[part]).toEqual(builtIn(part));
    expect(SHOP_PARTS.filter((each) => isAssumedIn(shop, each))).toEqual([part]);
    const whole = shopEntries(shopOf(SHOP_PARTS), {}).entries;
    for (const other of others) {
      expect(shopEntries(shop, {}).entries[other]).toEqual(whole[other]);
      expect(whole[other]).not.toEqual(builtIn(other));
    }
  });

  test.each(SHOP_PARTS)('all but %s', (part) => {
    const { entries } = shopEntries(shopOf([part]), {});
    for (const other of SHOP_PARTS)
      if (other !== part) expect(entries[other]).toEqual(builtIn(other));
    expect(entries[part]).not.toEqual(builtIn(part));
  });

  test('its machines keep the sources of their figures, and its other figures theirs', () => {
    const shop = shopOf(['weldGap']);
    expect(shop.machines).toEqual(DEFAULT_SHOP.machines);
    expect(sourcesOf(shop)).toEqual(
      Object.fromEntries(
        Object.entries(DEFAULT_SHOP_SOURCES).filter(([path]) => path !== 'weldGap'),
      ),
    );
    expect(sourcesOf(DEFAULT_SHOP)).toEqual(DEFAULT_SHOP_SOURCES);
  });

  test('the schema of the file needs none of them, and knows what a machine may be measured for', () => {
    const schema = shopSchema.json() as {
      required: string[];
      properties: { folders: { items: { anyOf: { properties?: object }[] } } };
    };
    expect(schema.required).toEqual([]);
    for (const { properties } of schema.properties.folders.items.anyOf.slice(1))
      expect(Object.keys(properties ?? {})).toEqual(
        expect.arrayContaining(['stopOffset', 'hardestFold', 'clampOpening', 'leafBarFitted']),
      );
  });

  test('an empty list is none: no folder, no limit of sheets', () => {
    const read = readShop('folders: []\nsheets: []\n');
    expect(read.ok && [read.shop.machines, read.shop.sheets]).toEqual([[], []]);
  });

  test('the built-in shop is a plasma table and folders, and no press brake', () => {
    expect(DEFAULT_SHOP.machines.map(({ kind }) => kind)).toEqual(['folder', 'folder']);
    expect(DEFAULT_SHOP.cutters[0]?.process).toBe('plasma');
    expect(shopOf(['name']).machines.some(({ kind }) => kind === 'press brake')).toBe(false);
  });
});

describe('what is assumed', () => {
  test('limits of cutters that the file leaves out do not change the part', () => {
    const values = { leastSlotMm: 0.3, cornerGapMm: 0.7, thicknessMm: 3 };
    const taken = (shop: Shop) =>
      withShop(
        {
          ...values,
          rule: { id: 'k', k: 0.4 },
          material: { id: 's235', family: 'steel' },
          insideRadiusMm: 3,
        } as never,
        {},
        shop,
      );
    expect(taken(shopOf(['folders']))).toMatchObject(values);
    expect(taken(shopOf(['cutters'])).leastSlotMm).not.toBe(0.3);
    expect(taken(shopOf(['weldGap'])).cornerGapMm).toBe(1.5);
  });

  test('every figure of a machine says whether it is measured, in JSON and in the text', () => {
    const taken = shopEntries(shopOf(['folders']), {});
    expect(taken.basis['folders[0].clampOpening']).toBe('measured');
    const figures = Object.keys(taken.basis);
    expect(figures).toEqual(
      expect.arrayContaining(['folders[0].noseSetback', 'folders[0].leafBarFitted']),
    );
    expect(figures.filter((path) => taken.basis[path] === 'measured')).toEqual([
      'folders[0].clampOpening',
    ]);
    const text = writeShop(taken, 'mine');
    expect(text).toMatch(/# measured\n +clampOpening: 40\n/);
    expect(text).toMatch(/# assumed, from memory: illustrative;[^:]*\n +noseSetback: 1.5\n/);
  });
});
