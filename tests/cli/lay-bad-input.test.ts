import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { blankwright, json, type Problems, tempFolder } from '../helpers/command.ts';
import { drawnDxf } from '../helpers/drawn-dxf.ts';
import { IS_FULL } from '../helpers/extent.ts';
import { LAY_RESULT } from '../helpers/lay-contract.ts';

const SHOP = `name: farm workshop
sheets: # counted in the rack
  - { name: full sheet, length: 1000, width: 500, thickness: 3, count: 2 }
remnants:
  - { name: R1, length: 420, width: 330, material: steel, thickness: 3 }
`;

const PLATE = drawnDxf('0 0 120 0 120 80 0 80 ...');

const folderWith = (files: Readonly<Record<string, string>>): string => {
  const folder = tempFolder();
  for (const [name, text] of Object.entries({ 'shop.yaml': SHOP, 'plate.dxf': PLATE, ...files }))
    writeFileSync(join(folder, name), text);
  return folder;
};

const lay = (folder: string, ...args: string[]) =>
  blankwright(
    ['lay', '--parts', ...args, '--thickness', '3', '--steps', '1', '--take', '--json'],
    folder,
  );

const SHOP_OF = (folder: string): string => readFileSync(join(folder, 'shop.yaml'), 'utf8');

describe('what is wrong is told, and the rack stays as it is', () => {
  test.each([
    [
      'a remnant whose outline crosses itself',
      SHOP.replace('length: 420, width: 330', "outline: '0,0; 100,100; 100,0; 0,100'"),
      'remnants[0].outline',
    ],
    ['a word misspelt by hand', SHOP.replace('count: 2', 'cuont: 2'), 'sheets[0].cuont'],
    ['a comma that is lost', SHOP.replace('length: 1000,', 'length: 1000'), 'shop'],
    ['two of one name', SHOP.replace('R1', 'full sheet'), 'remnants[0].name'],
    ['a count of 10^9', SHOP.replace('count: 2', 'count: 1000000000'), 'sheets[0].count'],
    ['half a file', SHOP.slice(0, SHOP.indexOf('width')), 'shop'],
  ])('stock with %s', async (_, shop, input) => {
    const folder = folderWith({ 'shop.yaml': shop });
    const ran = await lay(folder, 'plate.dxf');
    expect(ran.code).toBe(2);
    expect(json<Problems>(ran).problems.map((p) => p.input)).toContain(input);
    expect([SHOP_OF(folder), existsSync(join(folder, 'laid'))]).toEqual([shop, false]);
  });

  test.each([
    ['an outline that crosses itself', drawnDxf('0 0 300 300 300 0 0 300 ...'), 'odd.dxf'],
    ['an outline that is open', drawnDxf('0 0 90 0'), 'odd.dxf'],
    ['no drawing', 'hello', 'odd.dxf'],
  ])('a part with %s', async (_, dxf, input) => {
    const folder = folderWith({ 'odd.dxf': dxf });
    const ran = await lay(folder, 'plate.dxf', 'x2', 'odd.dxf');
    expect(ran.code).toBe(2);
    expect(json<Problems>(ran).problems.map((p) => p.input)).toContain(input);
    expect(SHOP_OF(folder)).toBe(SHOP);
  });
});

describe('what cannot be laid is left, with the reason, and the rest is laid', () => {
  test('a part larger than every sheet', async () => {
    const folder = folderWith({ 'floor.dxf': drawnDxf('0 0 1200 0 1200 90 0 90 ...') });
    const ran = await lay(folder, 'plate.dxf', 'floor.dxf');
    const { left, sheets } = LAY_RESULT.parse(json(ran));
    expect(ran.code).toBe(1);
    expect(left).toEqual([
      { name: 'floor', count: 1, reason: '1200 x 90 mm is larger than every sheet that there is' },
    ]);
    expect(sheets.flatMap(({ parts }) => parts).map(({ name }) => name)).toEqual(['plate']);
  });

  test('a gap wider than the sheet', async () => {
    const folder = folderWith({});
    const ran = await lay(folder, 'plate.dxf', '--gap', '5000');
    expect(ran.code).toBe(1);
    expect(LAY_RESULT.parse(json(ran)).left).toEqual([
      { name: 'plate', count: 1, reason: expect.stringMatching(/no edge of 5000 mm/) as string },
    ]);
    expect(SHOP_OF(folder)).toBe(SHOP);
  });

  test.each(IS_FULL ? [10_000, 1e9] : [1e9])('%d of a part', async (count) => {
    const folder = folderWith({ 'plate.dxf': drawnDxf('0 0 60 0 60 40 0 40 ...') });
    const ran = await lay(folder, 'plate.dxf', `x${count}`, '--stock-only');
    const { left, sheets } = LAY_RESULT.parse(json(ran));
    const laid = sheets.flatMap(({ parts }) => parts).length;
    expect(ran.code).toBe(1);
    expect(laid).toBeGreaterThan(300);
    expect(laid + left.reduce((sum, one) => sum + one.count, 0)).toBe(count);
    expect(left.every(({ reason }) => reason !== '')).toBe(true);
  });
});
