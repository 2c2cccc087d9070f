import { describe, expect, test } from 'vitest';
import { MACHINES } from '../../src/data/machines.ts';
import { DEFAULT_SHOP, DEFAULT_SHOP_SOURCES } from '../../src/data/shop-default.ts';
import { cutterFor, kerfOf, limitOf } from '../../src/model/shop.ts';
import { readShop } from '../../src/shop/read.ts';
import { shopEntries, writeShop } from '../../src/shop/write.ts';
import { publishedFile } from '../helpers/published.ts';

/** Figures from outside: tests/published/shop.json names the source of each. */
const PUBLISHED = publishedFile<{
  kerfLaser: { rows: [number, number, string][] };
  kerfPlasma: { rows: [string, string, number, number, number, number][] };
  sheetFormats: { rows: [string, number, number, number][] };
}>('shop');

const [plasma, laser] = DEFAULT_SHOP.cutters;
if (laser === undefined || plasma === undefined) throw new Error('two cutters');

describe('the built-in shop', () => {
  test('laser kerfs are the published ones, and on a line between', () => {
    for (const [thickness, kerf] of PUBLISHED.kerfLaser.rows)
      expect(kerfOf(laser, 'steel', thickness)).toBe(kerf);
    expect(kerfOf(laser, 'aluminium', 2.5)).toBeCloseTo(0.14, 12);
    expect([0.5, 20].map((t) => kerfOf(laser, 'steel', t))).toEqual([0.1, 0.38]);
  });

  test.each([
    ['steel', 'mild steel'],
    ['galvanised', 'mild steel'],
    ['stainless', 'stainless'],
    ['aluminium', 'aluminium'],
  ] as const)(
    'plasma kerf of %s lies within the published range at 40 to 50 A',
    (family, published) => {
      const row = PUBLISHED.kerfPlasma.rows.find(
        ([amps, metal]) => amps === '40-50' && metal === published,
      );
      expect(kerfOf(plasma, family, 3)).toBeGreaterThan(row?.[4] ?? Infinity);
      expect(kerfOf(plasma, family, 3)).toBeLessThan(row?.[5] ?? 0);
    },
  );

  // Common practice, worked out by hand: tests/published/shop.json, cutting.
  test.each([
    [laser, 'leastHole', 0.8, 1],
    [laser, 'leastHole', 3, 3],
    [laser, 'leastWeb', 3, 3],
    [laser, 'leastSlot', 3, 0.3],
    [plasma, 'leastHole', 2, 4],
    [plasma, 'leastHole', 6, 9],
    [plasma, 'leastWeb', 3, 6],
    [plasma, 'leastWeb', 1, 3.68],
  ] as const)('limits: $name of %o at %d mm', (cutter, rule, t, expected) => {
    expect(limitOf(cutter[rule], t, kerfOf(cutter, 'steel', t))).toBeCloseTo(expected, 12);
  });

  test('sheets are usual formats', () => {
    const formats = PUBLISHED.sheetFormats.rows.map(([, length, width]) => `${length} x ${width}`);
    expect(DEFAULT_SHOP.sheets.length).toBeGreaterThan(0);
    for (const { length, width } of DEFAULT_SHOP.sheets)
      expect(formats).toContain(`${length} x ${width}`);
  });

  test('is found where a sheet is cut by the first cutter that takes it, and says where each figure is from', () => {
    expect(
      [0.4, 0.5, 1.5, 1.6, 12, 20, 21].map((t) => cutterFor(DEFAULT_SHOP, t)?.process),
    ).toEqual([undefined, 'laser', 'laser', 'plasma', 'plasma', 'laser', undefined]);
    expect(DEFAULT_SHOP.isAssumed).toBe(true);
    const { entries, sources } = shopEntries(DEFAULT_SHOP, DEFAULT_SHOP_SOURCES);
    const unsourced = ['folders', 'pressBrakes', 'cutters']
      .flatMap((kind) =>
        (entries[kind] as readonly object[]).flatMap((machine, i) =>
          Object.entries(machine).flatMap(([key, value]) =>
            value === undefined ? [] : [`${kind}[${i}].${key}`],
          ),
        ),
      )
      .filter(
        (path) =>
          sources[path] === undefined &&
          !/\.(?:id|name|process|import|fingers|punch|punches)$/.test(path),
      );
    expect(unsourced).toEqual([]);
    expect(sources['folders[0].fingers.widths']?.basis).toBe('from memory');
  });

  test('written as a shop file, it reads back as the same shop', () => {
    const taken = shopEntries(DEFAULT_SHOP, {
      'cutters[0].kerf': { basis: 'from memory', source: 'measure a test cut' },
    });
    const text = writeShop(taken, 'the built-in shop');
    expect(text).toContain('# the built-in shop');
    expect(text).toMatch(/# from memory: measure a test cut\n +kerf:/);
    const read = readShop(text);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    expect(read.shop.isAssumed).toBe(false);
    const again = shopEntries(read.shop, {});
    expect(again.entries).toEqual(taken.entries);
    // Nobody has measured what was printed and read again; what was changed is the shop's own.
    expect(read.shop.machines.map((machine) => machine.workingLengthMm)).toEqual(
      DEFAULT_SHOP.machines.map((machine) => machine.workingLengthMm),
    );
    expect(again.sources['folders[0].overbend']).toEqual(taken.sources['folders[0].overbend']);
    const changed = readShop(text.replace('overbend: 5', 'overbend: 3'));
    if (!changed.ok) throw new Error(JSON.stringify(changed.problems));
    expect(changed.shop.machines[0]?.overbendDeg).toEqual({
      value: 3,
      basis: 'measured',
      source: 'the shop file',
    });
    expect(shopEntries(changed.shop, {}).sources['folders[0].overbend']).toBeUndefined();
  });

  test('folds by hand: a press brake is there for shops that name it', () => {
    expect(DEFAULT_SHOP.machines.map((m) => m.kind)).toEqual(['folder', 'folder']);
    expect(MACHINES.map((m) => m.kind)).toContain('press brake');
  });
});
