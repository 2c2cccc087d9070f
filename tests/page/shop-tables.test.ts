import { describe, expect, test } from 'vitest';
import { coreAnswers } from '../../src/page/core/answers.ts';
import type { ShopTable } from '../../src/page/core/shop-questions.ts';
import type { EntryPath } from '../../src/page/model/job-text.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { readShop } from '../../src/shop/read.ts';
import { IS_FULL } from '../helpers/extent.ts';

/** Cutters, what they cut and how fast, and sheets, changed row by row in the text of the shop file. */

const core = coreAnswers();
const SHOP = `name: barn
cutters:
  - name: table # the old one
    process: plasma
    thickness: { from: 1, to: 12 }
    bed: { length: 1250, width: 1250 }
    kerf:
      # measured on three cuts
      - { thickness: 2, kerf: 1.4 }
      - { thickness: 6, kerf: 1.8 }
sheets:
  - { length: 2000, width: 1000, thickness: 2 }
`;

const tablesOf = async (shop: string | null) => (await core.shop(shop)).tables;
const tableOf = async (shop: string | null, ...path: EntryPath): Promise<ShopTable> => {
  const found = (await tablesOf(shop)).find((one) => one.path.join() === path.join());
  if (found === undefined) throw new Error(`no table ${path.join()}`);
  return found;
};
const write = (
  shop: string | null,
  path: EntryPath,
  row: number,
  cells: Readonly<Record<string, string>>,
) => core.shopChanged({ shop, change: { kind: 'row', path, row, cells } });
const textOf = (done: Awaited<ReturnType<typeof write>>): string => {
  if (!done.ok) throw new Error(done.why);
  return done.text;
};
const shopIn = (text: string) => {
  const read = readShop(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.shop;
};

describe('rows of the shop file', () => {
  test('have the columns of its schema: figures, and words of few; lists are tables of their own', async () => {
    const titles = (await tablesOf(SHOP)).map(({ title, isOwn }) => [title, isOwn]);
    expect(titles).toEqual(
      expect.arrayContaining([
        ['cutters', true],
        ['table: kerf', true],
        ['table: least hole', false],
        ['table: least slot', false],
        ['table: least web', false],
        ['table: least edge', false],
        ['table: rates', false],
        ['sheets', true],
      ]),
    );
    const cutters = await tableOf(SHOP, 'cutters');
    const names = cutters.columns.map(({ name }) => name);
    expect(names).toEqual(expect.arrayContaining(['bed.length', 'marks', 'pricePerHour']));
    expect(names).not.toContain('kerf');
    expect(cutters.columns.find(({ name }) => name === 'process')?.choices).toContain('plasma');
    expect(cutters.columns.find(({ name }) => name === 'marks')?.choices).toEqual([
      'true',
      'false',
    ]);
    const sheets = await tableOf(SHOP, 'sheets');
    expect(sheets.columns.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['length', 'width', 'material', 'thickness', 'price']),
    );
  });

  test('one figure changed leaves every other byte of the file', async () => {
    const next = textOf(await write(SHOP, ['cutters', 0, 'kerf'], 1, { kerf: '1.9' }));
    expect(next).toBe(SHOP.replace('kerf: 1.8', 'kerf: 1.9'));
    expect(textOf(await write(SHOP, ['cutters'], 0, { 'bed.width': '1300' }))).toBe(
      SHOP.replace('width: 1250', 'width: 1300'),
    );
    const priced = shopIn(textOf(await write(SHOP, ['cutters'], 0, { pricePerHour: '45' })));
    expect(priced.cutters[0]?.pricePerHour).toBe(45);
    const sheet = shopIn(textOf(await write(SHOP, ['sheets'], 0, { price: '62.5' })));
    expect(sheet.sheets[0]).toMatchObject({ length: 2000, thickness: 2, price: 62.5 });
  });

  test('each row written as it is shown changes nothing of the shop, assumed or own', async () => {
    for (const shop of IS_FULL ? [null, SHOP] : [SHOP])
      for (const { path, columns, rows } of await tablesOf(shop))
        for (const [i, row] of rows.entries()) {
          const cells = Object.fromEntries(columns.map(({ name }, k) => [name, row[k] ?? '']));
          const after = shopIn(textOf(await write(shop, path, i, cells)));
          const before = shop === null ? DEFAULT_SHOP : shopIn(shop);
          expect([path, after.cutters, after.sheets]).toEqual([
            path,
            before.cutters,
            before.sheets,
          ]);
        }
  });

  test('what is wrong in a row is told of it, in words and by the name of the column', async () => {
    const wrong = await write(SHOP, ['cutters', 0, 'kerf'], 1, { kerf: '-1' });
    expect(wrong).toEqual({ ok: false, why: expect.stringMatching(/^kerf: -1.*allowed:.*0\.01/) });
    const order = await write(SHOP, ['cutters', 0, 'kerf'], 1, { thickness: '1' });
    expect(order).toEqual({
      ok: false,
      why: expect.stringMatching(/^thickness:.*more than the 2 of the row/),
    });
    // What is wrong elsewhere does not hold up what is right here.
    const elsewhere = SHOP.replace('width: 1000', 'width: wide');
    expect(textOf(await write(elsewhere, ['cutters', 0, 'kerf'], 1, { kerf: '1.9' }))).toContain(
      'kerf: 1.9',
    );
  });

  test('a row is added when it is whole, also where the file had none; and taken out, but not the last kerf', async () => {
    const half = await write(SHOP, ['cutters', 0, 'rates'], 0, { thickness: '3', speed: '2400' });
    expect(half).toEqual({ ok: false, why: expect.stringMatching(/^pierce: nothing; allowed/) });
    const whole = { thickness: '3', speed: '2400', pierce: '0.6' };
    const added = textOf(await write(SHOP, ['cutters', 0, 'rates'], 0, whole));
    expect(added).toContain('# measured on three cuts');
    expect(shopIn(added).cutters[0]?.rates).toEqual([{ thickness: 3, speed: 2400, pierce: 0.6 }]);
    const out = (shop: string, path: EntryPath, row: number) =>
      core.shopChanged({ shop, change: { kind: 'row out', path, row } });
    const less = textOf(await out(added, ['cutters', 0, 'kerf'], 1));
    expect(shopIn(less).cutters[0]?.kerf).toEqual([{ thickness: 2, kerf: 1.4 }]);
    expect(await out(less, ['cutters', 0, 'kerf'], 0)).toMatchObject({ ok: false });
    expect(shopIn(textOf(await out(SHOP, ['sheets'], 0))).sheets).toEqual([]);
  });
});
