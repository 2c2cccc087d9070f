import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../src/inspect/drawing.ts';
import { blankwright, json, type Problems, tempFolder } from '../helpers/command.ts';
import { LAY_RESULT } from '../helpers/lay-contract.ts';

/** Brackets of both hands, plates and a strap of the cart, on two sheets and three remnants. */
const JOB = `
title: cart in the rack
defaults: { material: s235, thickness: 3 }
parts:
  - { family: bracket-angle, name: lamp bracket, hand: both, quantity: 2,
      inputs: { legA: 60, legB: 40, width: 180 } }
  - { family: plate, name: foot plate, quantity: 3, inputs: { outline: '0,0; 300,0; 300,200; 0,200' } }
  - { family: plate, name: gusset, quantity: 4, inputs: { outline: '0,0; 260,0; 0,180' } }
  - { family: plate, name: tie, quantity: 2, inputs: { outline: '0,0; 650,0; 650,40; 0,40' } }
`;
const SHOP = `
name: farm workshop
sheets:
  - { name: full sheet, length: 1000, width: 500, material: steel, thickness: 3, count: 2 }
remnants:
  - { name: R1, length: 420, width: 330, material: steel, thickness: 3 }
  - { name: R2, outline: '0,0; 600,0; 600,200; 250,420; 0,420', material: steel, thickness: 3,
      holes: [{ x: 90, y: 330, diameter: 60 }] }
  - { name: R3, length: 700, width: 120, material: steel, thickness: 3 }
`;

const rack = (job = JOB, shop = SHOP): string => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'job.yaml'), job);
  writeFileSync(join(folder, 'shop.yaml'), shop);
  return folder;
};

const lay = (folder: string, ...flags: string[]) =>
  blankwright(['lay', 'job.yaml', '--steps', '60', ...flags], folder);

describe('a job laid on the rack', () => {
  test('contract, files, and no sheet begun where remnants do', async () => {
    const folder = rack();
    const ran = await lay(folder, '--json');
    expect([ran.code, ran.err]).toEqual([0, '']);
    const result = LAY_RESULT.parse(json(ran));
    expect(result.left).toEqual([]);
    expect(result.sheets.flatMap(({ parts }) => parts)).toHaveLength(13);
    // What a patient person finds: the plates on the two larger remnants leave one sheet at most.
    expect(result.groups.map(({ sheets }) => sheets)[0]).toBeLessThanOrEqual(1);
    expect(result.sheets.filter((s) => s.isRemnant).length).toBeGreaterThanOrEqual(2);
    for (const { files, usedPercent } of result.sheets) {
      expect(files.map((file) => file.slice(-4))).toEqual(['.dxf', '.svg', '.pdf']);
      const [dxf] = files as [string];
      const drawn = readDrawing(readFileSync(join(folder, dxf)), undefined);
      expect(drawn.strokes.length).toBeGreaterThan(0);
      expect(usedPercent).toBeGreaterThan(0);
    }
    const again = await lay(folder, '--json', '--force');
    expect(again.out).toBe(ran.out);
  });

  test('what is used is booked once, and taken back', async () => {
    const folder = rack();
    const before = readFileSync(join(folder, 'shop.yaml'), 'utf8');
    const ran = await lay(folder, '--json', '--take');
    expect(ran.err).toBe('');
    const { taken, sheets } = LAY_RESULT.parse(json(ran));
    expect(taken).not.toBeNull();
    const after = readFileSync(join(folder, 'shop.yaml'), 'utf8');
    expect(after).not.toBe(before);
    for (const { stock, isRemnant } of sheets)
      if (isRemnant) expect(after).not.toMatch(new RegExp(`name: ${stock}\\b`));
    const twice = await lay(folder, '--json', '--take', '--force');
    expect(twice.code).toBe(2);
    expect(readFileSync(join(folder, 'shop.yaml'), 'utf8')).toBe(after);
    expect((await blankwright(['lay', '--take-back'], folder)).code).toBe(0);
    expect(readFileSync(join(folder, 'shop.yaml'), 'utf8')).toBe(before);
  });

  test('several threads: the best of them, which one alone finds again', async () => {
    const folder = rack();
    const flags = ['--steps', '3', '--json', '--force'];
    const many = LAY_RESULT.parse(
      json(await blankwright(['lay', 'job.yaml', '--threads', '2', ...flags], folder)),
    );
    const [{ seed }] = many.groups as [(typeof many.groups)[number]];
    const alone = await blankwright(['lay', 'job.yaml', '--seed', String(seed), ...flags], folder);
    expect(LAY_RESULT.parse(json(alone))).toEqual(many);
  });

  test('any outlines, so many of each', async () => {
    const folder = rack();
    await blankwright(
      [
        'make',
        'plate',
        '--outline',
        '0,0; 120,0; 120,80; 0,80',
        '--thickness',
        '3',
        '--name',
        'cover',
      ],
      folder,
    );
    const ran = await blankwright(
      [
        'lay',
        '--parts',
        'out/cover.dxf',
        'x3',
        '--thickness',
        '3',
        '--steps',
        '50',
        '--out',
        'covers',
        '--json',
      ],
      folder,
    );
    expect([ran.code, ran.err]).toEqual([0, '']);
    const result = LAY_RESULT.parse(json(ran));
    expect(result.sheets.flatMap(({ parts }) => parts.map(({ name }) => name))).toEqual(
      Array.from({ length: 3 }, () => 'cover'),
    );
  });

  test('a part that fits nowhere is left with the reason', async () => {
    const folder = rack(
      `${JOB}  - { family: plate, name: floor, inputs: { outline: '0,0; 1200,0; 1200,90; 0,90' } }\n`,
    );
    const ran = await lay(folder, '--json');
    expect(ran.code).toBe(1);
    expect(LAY_RESULT.parse(json(ran)).left).toEqual([
      { name: 'floor', count: 1, reason: '1200 x 90 mm is larger than every sheet that there is' },
    ]);
  });

  test.each([
    ['a gap that is none', ['--gap', 'wide'], '--gap'],
    ['a turn that there is not', ['--turn', '45'], 'turn'],
    ['a part that there is not', ['--first', 'lamp'], '--first'],
    ['two jobs', ['other.yaml'], 'job'],
  ])('%s is told with its place', async (_, flags, input) => {
    const ran = await lay(rack(), '--json', ...flags);
    expect(ran.code).toBe(2);
    expect(json<Problems>(ran).problems.map((p) => p.input)).toContain(input);
  });
});
