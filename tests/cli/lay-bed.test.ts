import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type Extents, loopExtents } from '../../src/geometry/extents.ts';
import { blankwright, json, tempFolder } from '../helpers/command.ts';
import { ezdxfAvailable, readWithEzdxf } from '../helpers/ezdxf.ts';
import { LAY_RESULT } from '../helpers/lay-contract.ts';
import { needsOutside } from '../helpers/needs-outside.ts';

/** Plates of the cart, which take more than one piece of a bed that is smaller than the sheet. */
const JOB = `
title: cart on a small table
defaults: { material: s235, thickness: 3 }
parts:
  - { family: plate, name: floor, quantity: 2, inputs: { outline: '0,0; 1100,0; 1100,600; 0,600' } }
  - { family: plate, name: shelf, quantity: 3, inputs: { outline: '0,0; 400,0; 400,250; 200,250; 0,100' } }
  - { family: plate, name: strip, quantity: 2, inputs: { outline: '0,0; 900,0; 900,150; 0,150' } }
`;

const cutter = (more = ''): string =>
  `  - { name: table, process: plasma, thickness: { from: 1, to: 12 }, bed: { length: 1250, width: 1250 }, kerf: [{ thickness: 3, kerf: 1.5 }]${more} }`;

const SHEET =
  'sheets:\n  - { name: full sheet, length: 3000, width: 1500, material: steel, thickness: 3 }';

const folderWith = (cutters: string, stock: string, job = JOB): string => {
  const folder = tempFolder();
  writeFileSync(join(folder, 'job.yaml'), job);
  writeFileSync(join(folder, 'shop.yaml'), `name: farm workshop\ncutters:\n${cutters}\n${stock}\n`);
  return folder;
};

const laid = async (folder: string, ...flags: string[]) => {
  const ran = await blankwright(['lay', 'job.yaml', '--steps', '3', '--json', ...flags], folder);
  expect(ran.err).toBe('');
  return { code: ran.code, result: LAY_RESULT.parse(json(ran)) };
};

interface Cuts {
  /** The box round what is cut, and that round the edge of the sheet, which is noted. */
  readonly box: Extents;
  readonly edge: Extents;
  readonly outlines: number;
}

/** What lies where in the cut files of a sheet, as ezdxf reads them: another reader than our own. */
const cutsIn = (folder: string, files: readonly string[]): Cuts[] =>
  readWithEzdxf(
    files
      .filter((file) => file.endsWith('.dxf'))
      .map((file) => readFileSync(join(folder, file), 'utf8')),
  ).map(({ entities }) => {
    const boxOf = (layer: string): Extents =>
      loopExtents(
        entities.flatMap((one) =>
          one.type === 'LWPOLYLINE' && one.layer === layer ? one.vertices : [],
        ),
      ) as Extents;
    return {
      box: boxOf('OUTLINE'),
      edge: boxOf('NOTE'),
      outlines: entities.filter(({ layer }) => layer === 'OUTLINE').length,
    };
  });

describe('clamps along the lower edge', () => {
  const STOCK = `sheets:
  - { name: full sheet, length: 1250, width: 1250, material: steel, thickness: 3 }
remnants:
  - { name: R1, length: 1200, width: 700, material: steel, thickness: 3 }`;

  test.each([
    ['those of the cutter', [], 45],
    ['those of the flag before those of the cutter', ['--clamps', '0'], 0],
  ])('sheets and remnants keep %s', async (_, flags, clampsMm) => {
    const folder = folderWith(cutter(', clamps: 45'), STOCK);
    const { result } = await laid(folder, ...flags);
    expect(result.left).toEqual([]);
    const kinds = new Set(result.sheets.map(({ isRemnant }) => isRemnant));
    expect(kinds).toEqual(new Set([true, false]));
    for (const sheet of result.sheets) {
      expect(sheet.clampsMm).toBe(clampsMm);
      const picture = readFileSync(join(folder, sheet.files[1] as string), 'utf8');
      expect(picture.includes('Clamps hold')).toBe(clampsMm > 0);
      if (!ezdxfAvailable) continue;
      const [{ box, edge }] = cutsIn(folder, sheet.files) as [Cuts];
      const above = box.minY - edge.minY;
      expect(above).toBeGreaterThanOrEqual(Math.max(clampsMm, sheet.edgeMm) - 0.01);
      // What holds nothing is not kept free: without clamps parts lie down to the edge.
      expect(above).toBeLessThan(Math.max(clampsMm, sheet.edgeMm) + 1);
    }
  });
});

describe('a sheet larger than the bed of the cutter', () => {
  test('is sheared first: no part lies over a shear, and each piece has its own files', async (ctx) => {
    needsOutside(ctx, 'ezdxf', ezdxfAvailable);
    const folder = folderWith(cutter(', clamps: 30'), SHEET);
    const { code, result } = await laid(folder);
    expect([code, result.left]).toEqual([0, []]);
    const [sheet] = result.sheets as [(typeof result.sheets)[number]];
    expect(result.sheets).toHaveLength(1);
    expect(sheet.shears).toEqual({ x: [1250, 2500], y: [1250] });
    const cuts = cutsIn(folder, sheet.files);
    expect(cuts.length).toBeGreaterThan(1);
    expect(cuts.reduce((sum, { outlines }) => sum + outlines, 0)).toBe(7);
    const least = sheet.edgeMm - 0.01;
    for (const { box, edge } of cuts) {
      expect([edge.minX, edge.minY]).toEqual([0, 0]);
      expect(Math.max(edge.maxX, edge.maxY)).toBeLessThanOrEqual(1250);
      expect(box.minX).toBeGreaterThanOrEqual(least);
      expect(box.minY).toBeGreaterThanOrEqual(30 - 0.01);
      expect(box.maxX).toBeLessThanOrEqual(edge.maxX - least);
      expect(box.maxY).toBeLessThanOrEqual(edge.maxY - least);
    }
    expect(result.findings.map(({ rule }) => rule)).toContain('stock-over-bed');
  });

  test('counts as one sheet, booked, listed and packed; its pieces go into the rack', async () => {
    const folder = folderWith(cutter(), SHEET.replace(' }', ', count: 2 }'));
    const { result } = await laid(folder, '--take');
    writeFileSync(join(folder, 'layout.json'), JSON.stringify(result));
    const shop = readFileSync(join(folder, 'shop.yaml'), 'utf8');
    expect(shop).toContain('count: 1');
    const [, rack = ''] = shop.split('remnants:');
    const kept = [...rack.matchAll(/length: (\d+), width: (\d+)/g)].map(
      ([, length, width]) => [Number(length), Number(width)] as const,
    );
    expect(kept.length).toBeGreaterThan(0);
    // No remnant is larger than a piece that the sheet was sheared to.
    for (const sides of kept) expect(Math.max(...sides)).toBeLessThanOrEqual(1250);
    const laidMm2 = 2 * 1100 * 600 + 3 * 70_000 + 2 * 900 * 150;
    const keptMm2 = kept.reduce((sum, [length, width]) => sum + length * width, 0);
    expect(keptMm2).toBeLessThan(3000 * 1500 - laidMm2);
    const listed = await blankwright(['cutlist', 'job.yaml', '--laid', 'layout.json'], folder);
    expect([listed.code, listed.err]).toEqual([0, '']);
    expect(listed.out).toMatch(/laid on 1 of/);
    const packed = await blankwright(['pack', 'job.yaml', '--laid', 'layout.json'], folder);
    expect([packed.code, packed.err]).toEqual([0, '']);
  });

  test('a part that lies on no piece, and a remnant that is too large, are told', async () => {
    const folder = folderWith(
      cutter(),
      `${SHEET}\nremnants:\n  - { name: R4, outline: '0,0; 1600,0; 1600,900; 0,1300', material: steel, thickness: 3 }`,
      `${JOB}  - { family: plate, name: mat, inputs: { outline: '0,0; 1240,0; 1240,1240; 0,1240' } }\n`,
    );
    const { code, result } = await laid(folder, '--edge', '8');
    expect(code).toBe(1);
    expect(result.left).toEqual([
      {
        name: 'mat',
        count: 1,
        reason: expect.stringMatching(/1240 x 1240 mm .* sheared to lie on the bed/) as string,
      },
    ]);
    expect(result.sheets.map(({ stock }) => stock)).not.toContain('R4');
    const { message } = result.findings.find(({ severity }) => severity === 'warn') as unknown as {
      message: string;
    };
    expect(message).toMatch(/R4, 1600 x 1300 mm, is larger than the bed of table, 1250 x 1250/);
    expect(message).toMatch(/Cut it down/);
  });
});
