import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import { parse, stringify } from 'yaml';
import { blankwright, json, tempFolder } from '../helpers/command.ts';
import { IS_FULL } from '../helpers/extent.ts';
import { LAY_RESULT } from '../helpers/lay-contract.ts';

const RACK = `name: farm workshop
sheets:
  - { name: rack sheet, length: 2000, width: 1000, material: dc01, thickness: 1.5, count: 2, price: 48 }
  - { name: to buy, length: 2000, width: 1000, price: 60 }
# Behind the door.
remnants:
  - { name: R1, length: 1000, width: 520, material: dc01, thickness: 1.5 }
  - { name: R2, outline: '0,0; 950,0; 950,300; 420,620; 0,620', material: dc01, thickness: 1.5, holes: [{ x: 150, y: 470, diameter: 120 }] }
  - { name: R3, length: 760, width: 340, material: dc01, thickness: 1.5 }
`;

interface Remnants {
  readonly sheets: readonly { readonly name: string; readonly count?: number }[];
  readonly remnants: readonly {
    readonly name: string;
    readonly material: string;
    readonly thickness: number;
    readonly length: number;
    readonly width: number;
  }[];
}

interface CutList {
  readonly groups: readonly {
    readonly material: { readonly id: string } | string;
    readonly thicknessMm: number;
    readonly total: { readonly areaMm2?: number; readonly massKg: number };
  }[];
}

/** The demo; in short its parts of 1.5 mm sheet alone, which the remnants are of. */
const folderWithDemo = (): string => {
  const folder = tempFolder();
  const text = readFileSync(resolve('templates/demo/cart.job.yaml'), 'utf8');
  const job = parse(text) as { readonly parts: readonly object[] };
  const parts = job.parts.filter((part) => /"dc01","thickness":1\.5/.test(JSON.stringify(part)));
  expect(parts.length).toBeGreaterThan(3);
  writeFileSync(join(folder, 'cart.job.yaml'), IS_FULL ? text : stringify({ ...job, parts }));
  writeFileSync(join(folder, 'shop.yaml'), RACK);
  return folder;
};

const inRack = (folder: string): Remnants =>
  parse(readFileSync(join(folder, 'shop.yaml'), 'utf8')) as Remnants;

test('with three remnants and two sheets in the rack the demo comes out on one sheet, and the rack is right', async () => {
  const folder = folderWithDemo();
  const listed = await blankwright(['cutlist', 'cart.job.yaml', '--json'], folder);
  const ran = await blankwright(
    ['lay', 'cart.job.yaml', '--steps', '3', '--take', '--json'],
    folder,
  );
  expect([ran.code, ran.err]).toEqual([0, '']);
  const { sheets, left, groups } = LAY_RESULT.parse(json(ran));
  expect(left).toEqual([]);
  const group = groups.find((g) => g.material === 'dc01' && g.thicknessMm === 1.5);
  expect(group).toMatchObject({ sheets: 1, remnants: 3, isLeast: true });
  // No patience finds fewer: the metal of the parts, by its mass, is more than all remnants have.
  const list = json<CutList>(listed).groups.find(
    ({ material, thicknessMm }) => JSON.stringify(material).includes('dc01') && thicknessMm === 1.5,
  );
  const metalMm2 = ((list?.total.massKg ?? 0) / 7850 / 1.5) * 1e9;
  const remnantsMm2 = 1000 * 520 + (950 * 620 - (530 * 320) / 2 - Math.PI * 60 ** 2) + 760 * 340;
  expect(metalMm2).toBeGreaterThan(remnantsMm2);
  // The rack afterwards: what was used is gone, and what is new is no more than what was left.
  const { sheets: whole, remnants } = inRack(folder);
  expect(whole.find(({ name }) => name === 'rack sheet')?.count).toBe(1);
  expect(remnants.every(({ name }) => !['R1', 'R2', 'R3'].includes(name))).toBe(true);
  const kept = remnants.filter(
    ({ material, thickness }) => material === 'dc01' && thickness === 1.5,
  );
  const keptMm2 = kept.reduce((sum, { length, width }) => sum + length * width, 0);
  expect(kept.length).toBeGreaterThan(0);
  expect(keptMm2 + metalMm2).toBeLessThan(remnantsMm2 + 2000 * 1000);
  expect(readFileSync(join(folder, 'shop.yaml'), 'utf8')).toContain('# Behind the door.');
  // What can be taken to the table: every part by its name and number on the picture of its sheet.
  for (const { parts, files } of sheets) {
    const picture = readFileSync(join(folder, files[1] as string), 'utf8');
    for (const { name } of parts) expect(picture).toContain(name);
  }
  // And back again, to the letter.
  expect((await blankwright(['lay', '--take-back'], folder)).code).toBe(0);
  expect(readFileSync(join(folder, 'shop.yaml'), 'utf8')).toBe(RACK);
});
