import { describe, expect, test } from 'vitest';
import type { TakenBack, TakenStock } from '../../src/contract/stock.ts';
import type { LaidSheet } from '../../src/model/laid.ts';
import { readShop } from '../../src/shop/read.ts';
import type { UseCase } from '../../src/use/use-case.ts';
import { takeBack } from '../../src/use/stock/take-back.ts';
import { type TakeRequest, takeStock } from '../../src/use/stock/take-stock.ts';
import { takenBackText, takenText } from '../../src/use/stock/taken-text.ts';
import { TAKEN, TAKEN_BACK } from '../helpers/stock-contract.ts';
import { BIG, laidOn, OUTLINES, PLAIN, RACK } from './laid-plates.ts';

const SHOP = 'shop.yaml';
const RECORD = 'shop.taken.json';

/** The two files, as they lie on the disk. */
interface Disk {
  readonly shop: string;
  readonly record: string | undefined;
}

const START: Disk = { shop: RACK, record: undefined };

const take = (
  { shop, record }: Disk,
  sheets: readonly LaidSheet[],
  more: Partial<TakeRequest> = {},
): Promise<UseCase<TakenStock>> =>
  takeStock({
    shopFile: SHOP,
    shopText: shop,
    recordText: record,
    sheets,
    outlines: OUTLINES,
    ...more,
  });

const back = ({ shop, record }: Disk) =>
  takeBack({ shopFile: SHOP, shopText: shop, recordText: record });

/** What a use case that was not refused leaves on the disk. */
const diskAfter = (done: UseCase<TakenStock | TakenBack>): Disk => {
  if (!done.ok) throw new Error(JSON.stringify(done.problems));
  ('removed' in done.result ? TAKEN_BACK : TAKEN).parse(done.result);
  const contents = (name: string) => done.files.find((f) => f.name === name)?.contents as string;
  return { shop: contents(SHOP), record: contents(RECORD) };
};

const givenIn = (refused: UseCase<unknown>): string =>
  refused.ok
    ? ''
    : refused.problems.map((p) => `${p.input}: ${p.given}; ${p.mend ?? ''}`).join('\n');

const stockIn = (text: string) => {
  const read = readShop(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return { counts: read.shop.sheets.map((s) => s.count), remnants: read.shop.remnants };
};

describe('booking a layout', () => {
  test('counts go down, used remnants go, what is left comes in, and every remark stays', async () => {
    const sheets = laidOn(RACK, [BIG, 'floor'], ['R4', 'ear'], [PLAIN, 'floor']);
    const done = await take(START, sheets);
    const { shop } = diskAfter(done);
    const { counts, remnants } = stockIn(shop);
    expect(counts).toEqual([1, undefined]);
    expect(remnants.map(({ name }) => name)).toEqual([
      'R1',
      'door',
      'R5',
      'R6',
      'R7',
      'R8',
      'R9',
      'R10',
      'R11',
    ]);
    expect(done.ok && done.result.used).toEqual([
      { stock: BIG, isRemnant: false, count: 1, left: 1, bought: 0 },
      { stock: 'R4', isRemnant: true, count: 1, left: 0, bought: 0 },
      { stock: PLAIN, isRemnant: false, count: 1, left: null, bought: 0 },
    ]);
    // Beside and above a floor of 800 x 600 that lies 5 mm from the corner, 4 mm are the cut.
    expect(remnants.slice(2, 4)).toEqual([
      {
        name: 'R5',
        material: 's275',
        thickness: 3,
        length: 1690,
        width: 1250,
        grain: 'along',
      },
      { name: 'R6', material: 's275', thickness: 3, length: 809, width: 640, grain: 'along' },
    ]);
    // What was said of the sheet stays said of its remnants: steel, with no grain known.
    expect(remnants.at(-1)).toMatchObject({ material: 'steel' });
    expect(remnants.at(-1)).not.toHaveProperty('grain');
    for (const remark of RACK.match(/#.*/g) ?? [])
      if (!remark.includes('odd one')) expect(shop).toContain(remark);
    const kept = RACK.split('\n').filter(
      (line) => !/count|R4|s275\b|thickness: 3$|outline|holes|odd|remnants/.test(line),
    );
    expect(shop.split('\n').filter((line) => kept.includes(line))).toEqual(kept);
  });

  test('outlines are kept where they are asked for, and read back as stock', async () => {
    const { shop } = diskAfter(
      await take(START, laidOn(RACK, ['R4', 'ear']), { keep: { keep: 'outline' } }),
    );
    const [, , left] = stockIn(shop).remnants;
    expect(left).toMatchObject({ name: 'R5', material: 's275', thickness: 3 });
    expect(left?.outline?.split(';').length).toBeGreaterThan(6);
    // The round hole is the one that was there, told from the corner of what is kept.
    expect(left?.holes).toEqual([{ x: 149.7, y: 399.7, diameter: 80 }]);
    expect(laidOn(shop, ['R5', 'ear'])[0]?.stock.isRemnant).toBe(true);
  });

  test('a rectangle that stands upright on its sheet is laid down, and its grain with it', async () => {
    const text =
      'sheets: [{ length: 1000, width: 700, thickness: 3, material: s275, grain: along }]\n';
    const done = await take(
      { ...START, shop: text },
      laidOn(text, ['1000 x 700 x 3 s275', 'floor']),
    );
    expect(stockIn(diskAfter(done).shop).remnants).toEqual([
      { name: 'R1', material: 's275', thickness: 3, length: 700, width: 190, grain: 'across' },
    ]);
  });

  test('more sheets than there are: the rest was bought; a sheet with nothing on it is not cut', async () => {
    const one = laidOn(RACK, [BIG, 'floor'])[0] as LaidSheet;
    const sheets = [1, 2, 3, 4].map((n) => ({
      ...one,
      name: `s275-3-${n}`,
      parts: n === 4 ? [] : one.parts.map((part) => ({ ...part, copy: n })),
    }));
    const done = await take(START, sheets);
    expect(done.ok && done.result.used).toEqual([
      { stock: BIG, isRemnant: false, count: 3, left: 0, bought: 1 },
    ]);
    expect(stockIn(diskAfter(done).shop).counts).toEqual([0, undefined]);
  });

  test('a shop file in JSON stays one', async () => {
    const text = '{"sheets":[{"length":900,"width":700,"thickness":3,"count":4}],"weldGap":1}';
    const { shop } = diskAfter(
      await take({ ...START, shop: text }, laidOn(text, ['900 x 700 x 3', 'ear'])),
    );
    expect(JSON.parse(shop)).toEqual({
      sheets: [{ length: 900, width: 700, thickness: 3, count: 3 }],
      weldGap: 1,
      remnants: [{ name: 'R1', material: 's275', thickness: 3, length: 900, width: 600 }],
    });
  });

  test('is told in words', async () => {
    const done = await take(START, laidOn(RACK, [BIG, 'floor'], ['R1', 'ear']));
    const told = done.ok ? takenText(done.result) : '';
    expect(told).toContain('1 of 2500 x 1250 x 3 s275, 1 left');
    expect(told).toContain('R1 is used up');
    expect(told).toContain('R5: 1690 x 1250 mm, of s275-3-1 from 809.1, 0');
    expect(done.ok ? takenText(done.result, 'inch') : '').toMatch(/R5: \S+.* in, of/);
  });
});

describe('nothing is booked twice', () => {
  test('the same layout is refused, also when it was laid out anew on what is left', async () => {
    const after = diskAfter(await take(START, laidOn(RACK, [BIG, 'floor'])));
    expect(givenIn(await take(after, laidOn(RACK, [BIG, 'floor'])))).toMatch(
      /booked in shop\.yaml already.*--again/s,
    );
    expect(givenIn(await take(after, laidOn(after.shop, ['R5', 'floor'])))).toMatch(/already/);
    const again = await take(after, laidOn(after.shop, ['R5', 'floor']), { again: true });
    expect(again.ok && again.result.used[0]?.stock).toBe('R5');
  });

  test('other parts, other copies and other shapes are other layouts', async () => {
    const after = diskAfter(await take(START, laidOn(RACK, [BIG, 'floor'])));
    const next = laidOn(after.shop, [BIG, 'floor']);
    const second = next.map((sheet) => ({
      ...sheet,
      parts: sheet.parts.map((part) => ({ ...part, copy: 2 })),
    }));
    expect((await take(after, second)).ok).toBe(true);
    const larger = new Map([
      ...OUTLINES,
      ['floor', OUTLINES.get('ear') ?? { outline: [], holes: [] }],
    ]);
    expect((await take(after, next, { outlines: larger })).ok).toBe(true);
    expect((await take(after, laidOn(after.shop, [BIG, 'ear']))).ok).toBe(true);
  });

  test('names are not given twice, not even those of remnants that are gone', async () => {
    const one = diskAfter(await take(START, laidOn(RACK, [BIG, 'floor'])));
    const scrapped = one.shop.replace(/^ *- \{ name: R[56],.*\n/gm, '');
    expect(scrapped).not.toContain('R5');
    const two = diskAfter(await take({ ...one, shop: scrapped }, laidOn(scrapped, [BIG, 'ear'])));
    expect(stockIn(two.shop).remnants.map((r) => r.name)).toContain('R7');
    expect(two.shop).not.toMatch(/R[56]\b/);
  });
});

describe('taking back', () => {
  test('puts the shop file back letter by letter, one booking after the other', async () => {
    const one = diskAfter(await take(START, laidOn(RACK, [BIG, 'floor'], ['R4', 'ear'])));
    const two = diskAfter(await take(one, laidOn(one.shop, ['R5', 'ear'])));
    const undone = await back(two);
    expect(undone.ok && takenBackText(undone.result)).toMatch(/Rub out R\d/);
    expect(diskAfter(undone).shop).toBe(one.shop);
    const first = diskAfter(await back(diskAfter(undone)));
    expect(first.shop).toBe(RACK);
    expect(givenIn(await back(first))).toMatch(/nothing that is booked/);
    // And then it may be booked again.
    expect((await take(first, laidOn(RACK, [BIG, 'floor'], ['R4', 'ear']))).ok).toBe(true);
  });

  test('is refused where the shop file was changed since, and says what to do by hand', async () => {
    const one = diskAfter(await take(START, laidOn(RACK, [BIG, 'floor'], ['R4', 'ear'])));
    const told = givenIn(await back({ ...one, shop: one.shop.replace('95', '99') }));
    expect(told).toMatch(/changed since layout \w{12} was booked/);
    expect(told).toMatch(/1 more of 2500 x 1250 x 3 s275; R4 is there again; R5, R6, .* taken out/);
    expect(givenIn(await back(START))).toMatch(/nothing that is booked/);
  });
});

describe('a run that was killed between record and shop file', () => {
  const sheets = laidOn(RACK, [BIG, 'floor']);

  test('has booked nothing: it is booked once by the next, and there is nothing to take back', async () => {
    const whole = diskAfter(await take(START, sheets));
    const half: Disk = { shop: RACK, record: whole.record };
    expect(diskAfter(await take(half, sheets))).toEqual(whole);
    expect(givenIn(await back(half))).toMatch(/nothing that is booked/);
  });

  test('while taking back has taken it back', async () => {
    const whole = diskAfter(await take(START, sheets));
    const half: Disk = { shop: diskAfter(await back(whole)).shop, record: whole.record };
    expect(half.shop).toBe(RACK);
    expect(diskAfter(await take(half, sheets))).toEqual(whole);
  });
});

describe('what cannot be booked is told, and nothing changes', () => {
  test.each([
    [
      'a shop file with a mistake',
      { shopText: RACK.replace('thickness: 3', 'thicknes: 3') },
      /did you mean thickness/,
    ],
    [
      'a remnant that is gone',
      { shopText: RACK.replace('R1', 'R11') },
      /R1, which is not there any more; lay the parts out again/,
    ],
    [
      'a remnant that was cut since',
      { shopText: RACK.replace('length: 640', 'length: 540') },
      /R1 as it was before it was changed/,
    ],
    [
      'one remnant twice',
      { sheets: laidOn(RACK, ['R1', 'ear'], ['R1', 'ear']) },
      /R1 2 times, of which there is one/,
    ],
    [
      'a record that is none',
      { recordText: 'notes' },
      /shop\.taken\.json, which is not as it was written; .*move it away/,
    ],
    ['a record with a mistake', { recordText: '{"takings":[{"layout":3}]}' }, /at takings\.0/],
    [
      'a drawing that is gone',
      { shopText: RACK.replace('length: 400, width: 300', 'dxf: door.dxf') },
      /door\.dxf of door/,
    ],
  ])('%s', async (_, more, told) => {
    const refused = await take(START, laidOn(RACK, ['R1', 'ear']), more);
    expect(refused.ok).toBe(false);
    expect(givenIn(refused)).toMatch(told);
  });

  test('entries that repeat others are written out, or told where that is not enough', async () => {
    const repeated = `sheets:
  - &a { name: a, length: 900, width: 700, thickness: 3, count: 4 }
  - { name: b, length: 900, width: 700, thickness: 3, count: 4 }
remnants:
  - &r { name: R1, length: 900, width: 700, thickness: 3, material: s275 }
bends: []
`;
    const fine = await take({ ...START, shop: repeated }, laidOn(repeated, ['a', 'floor']));
    expect(stockIn(diskAfter(fine).shop).counts).toEqual([3, 4]);
    const shared =
      'sheets:\n  - { length: &n 900, width: 700, count: &c 4 }\n  - { length: 800, width: 700, count: *c }\n';
    const done = await take({ ...START, shop: shared }, laidOn(shared, ['900 x 700', 'floor']));
    expect(done.ok ? stockIn(diskAfter(done).shop).counts : givenIn(done)).toMatch(/repeat others/);
  });
});
