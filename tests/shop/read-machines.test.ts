import { describe, expect, test } from 'vitest';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { readShop } from '../../src/shop/read.ts';
import { shopEntries, writeShop } from '../../src/shop/write.ts';
import { SHOP, problemsOf } from './shop-file.ts';

test('a cutter may say how fast it cuts and what its time costs', () => {
  const text = (rates: string): string =>
    `cutters:\n  - { name: table, process: plasma, thickness: { from: 1, to: 12 }, bed: { length: 1250, width: 1250 }, kerf: [{ thickness: 2, kerf: 1.5 }], pricePerHour: 45, rates: ${rates} }\n`;
  const read = readShop(
    text(
      '[{ thickness: 2, speed: 3000, pierce: 0.5 }, { thickness: 6, speed: 900, pierce: 1, material: steel }]',
    ),
  );
  expect(read.ok && read.shop.cutters[0]).toMatchObject({
    pricePerHour: 45,
    rates: [
      { thickness: 2, speed: 3000, pierce: 0.5 },
      { thickness: 6, speed: 900, pierce: 1, material: 'steel' },
    ],
  });
  const bad = readShop(text('[{ thickness: 2, speed: 0, pierce: 0.5 }]'));
  expect(bad.ok ? [] : bad.problems.map((p) => p.input)).toEqual(['cutters[0].rates[0].speed']);
});

describe('a built-in machine stands in a shop file by its id alone', () => {
  const cutters =
    'cutters: [{ name: table, process: plasma, thickness: { from: 1, to: 12 }, bed: { length: 1250, width: 1250 }, kerf: [{ thickness: 2, kerf: 1.5 }] }]\n';

  test('beside machines that are described', () => {
    const read = readShop(
      `${SHOP.replace('pressBrakes:\n', 'pressBrakes:\n  - pressbrake-1250\n')}`,
    );
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    expect(read.shop.machines.map((m) => m.id)).toEqual([
      'bench-folder',
      'pressbrake-1250',
      'brake',
    ]);
    expect(read.shop.machines[1]).toBe(PRESS_BRAKE);
  });

  test('written out again, it is described, each figure with its source', () => {
    const read = readShop(`${cutters}folders: [boxpan-1250x2.0]\npressBrakes: [pressbrake-1250]\n`);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    const text = writeShop(shopEntries(read.shop, {}), 'mine');
    expect(text).toMatch(/# from memory: illustrative; .*\n +dieHeight: 60\n/);
    const again = readShop(text);
    expect(
      again.ok && again.shop.machines.map((m) => [m.kind, m.id, m.workingLengthMm.value]),
    ).toEqual([
      ['folder', 'boxpan-1250x2.0', 1250],
      ['press brake', 'pressbrake-1250', 1250],
    ]);
  });

  test.each([
    ['folders: [boxpan-1250x2]', 'folders[0]', 'did you mean boxpan-1250x2.0?'],
    ['folders: [pressbrake-1250]', 'folders[0]', 'pressbrake-1250 is a press brake'],
    ['pressBrakes: [5]', 'pressBrakes[0]', undefined],
    [
      'pressBrakes: [pressbrake-1250, pressbrake-1250]',
      'pressBrakes[1].id',
      'call one of the two by another name',
    ],
  ])('%s', (line, input, mend) => {
    expect(problemsOf(`${cutters}${line}\n`)).toEqual([
      expect.objectContaining({ input, ...(mend !== undefined && { mend }) }),
    ]);
  });
});
