import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { readShop } from '../../src/shop/read.ts';
import { shopEntries, sourcesOf, writeShop } from '../../src/shop/write.ts';
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

describe('a machine like a built-in one lists only what differs', () => {
  const cutters =
    'cutters: [{ name: table, process: plasma, thickness: { from: 1, to: 12 }, bed: { length: 1250, width: 1250 }, kerf: [{ thickness: 2, kerf: 1.5 }] }]\n';
  const read = (folder: string) => readShop(`${cutters}folders:\n  - ${folder}\n`);
  const folderOf = (folder: string) => {
    const found = read(folder);
    if (!found.ok) throw new Error(JSON.stringify(found.problems));
    return found.shop.machines[0];
  };

  test('with nothing that differs it is the built-in one', () => {
    expect(folderOf('{ like: boxpan-1250x2.0 }')).toEqual(BOX_PAN);
  });

  test('what differs is measured, in groups too, and the rest keeps its source', () => {
    const own = folderOf(
      '{ like: boxpan-1250x2.0, id: mine, capacity: 1.5, fingers: { boxDepth: 80 } }',
    );
    expect(own).toMatchObject({
      id: 'mine',
      name: BOX_PAN.name,
      capacityMm: { value: 1.5, basis: 'measured' },
      overbendDeg: BOX_PAN.overbendDeg,
      clamp: {
        kind: 'fingers',
        boxDepthMm: { value: 80, basis: 'measured' },
        widthsMm: { value: BOX_PAN.clamp.kind === 'fingers' && BOX_PAN.clamp.widthsMm.value },
      },
    });
  });

  test('a wrong figure and a wrong name are told by their place', () => {
    const inputs = (folder: string) => {
      const found = read(folder);
      return found.ok ? [] : found.problems.map((p) => p.input);
    };
    expect(inputs('{ like: boxpan-1250x2.0, bedDepth: 1 }')).toEqual(['folders[0].bedDepth']);
    expect(inputs('{ like: boxpan-1250 }')).toEqual(['folders[0].like']);
    expect(inputs('{ like: pressbrake-1250 }')).toEqual(['folders[0].like']);
    expect(inputs('{ like: boxpan-1250x2.0, bedDeep: 200 }')).toHaveLength(1);
    expect(inputs('{ like: boxpan-1250x2.0, bedDepth: 200, assumed: [bedDeep] }')).toEqual([
      'folders[0].assumed',
    ]);
  });

  // Measured the same as the built-in, taken away, in groups, changed altogether: all of it comes back,
  // and whatever nobody measured is as assumed as before.
  test.each([
    '{ like: boxpan-1250x2.0, id: mine, capacity: 1.5, fingers: { boxDepth: 80 } }',
    '{ like: boxpan-1250x2.0, bedDepth: 200, leafBarFitted: true }',
    '{ like: boxpan-1250x2.0, name: old one, capacity: null, maxAngle: null, stopOffset: 1.5 }',
    '{ like: boxpan-1250x2.0, id: plain, fingers: null, endOverhang: true }',
    '{ like: straight-2000x1.5, id: bench, hardestFold: { material: dc01, thickness: 1.5 } }',
  ])('%s reads back from what is printed of it as it was', (folder) => {
    const found = read(folder);
    if (!found.ok) throw new Error(JSON.stringify(found.problems));
    const printed = writeShop(shopEntries(found.shop, sourcesOf(found.shop)), 'as printed');
    const again = readShop(printed);
    if (!again.ok) throw new Error(JSON.stringify(again.problems));
    expect(again.shop.machines).toEqual(found.shop.machines);
    const basis = (shop: typeof found.shop): unknown => shopEntries(shop, {}).basis;
    expect(Object.values(basis(again.shop) as object)).toContain('assumed');
    expect(basis(again.shop)).toEqual(basis(found.shop));
    // A figure of the list that somebody changes afterwards is a measured one.
    const changed = readShop(printed.replace(/overbend: \d+/, 'overbend: 7'));
    expect(changed.ok && changed.shop.machines[0]?.overbendDeg).toMatchObject({
      value: 7,
      basis: 'measured',
    });
  });
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
    expect(text).toMatch(/# assumed, from memory: illustrative; .*\n +dieHeight: 60\n/);
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
