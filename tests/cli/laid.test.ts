import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import * as z from 'zod';
import { loadJob } from '../../src/cli/job/load-job.ts';
import type { LaidSheetResult } from '../../src/contract/laid.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import { layoutFaultsOfDxf } from '../../src/laid/check-dxf.ts';
import { lineExtents } from '../../src/model/drawing-extents.ts';
import type { LaidSheet } from '../../src/model/laid.ts';
import { templateOf } from '../../src/use/job/ready-job.ts';
import { notLaid, readLayout } from '../../src/use/laid/read-layout.ts';
import { laidSheetOf, laidSheetResult } from '../../src/use/laid/laid-result.ts';
import type { WholePart } from '../../src/use/made-part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { blankwright, json, type Problems, tempFolder } from '../helpers/command.ts';
import { MIXED, REMNANT } from '../helpers/laid-sheets.ts';

const JOB = `title: vineyard cart
parts:
  - family: bracket-angle
    name: seat post
    hand: both
    quantity: 2
    inputs: {legA: 60, legB: 40, width: 80, holesA: '20,20,M8', material: s275, thickness: 3, radius: 4}
  - family: ring
    name: filler flange
    quantity: 5
    inputs: {outer: 120, inner: 62, boltCircle: 95, material: dc01, thickness: 1.5}
`;

interface Laid {
  readonly made: readonly WholePart[];
  readonly sheets: readonly LaidSheet[];
}

/** The parts of the job laid in a row each, on one sheet of a material; made once. */
const laidByHand = async (path: string): Promise<Laid> => {
  const ready = await loadJob(path, undefined);
  const made = ready.job.parts.flatMap(({ family, inputs, way }) => {
    const all = makeParts(templateOf(ready, family), inputs, { ...way, shop: ready.shop });
    if (!all.ok) throw new Error(JSON.stringify(all.problems));
    return all.parts.filter((part): part is WholePart => !part.stopped);
  });
  const sheets = [...new Set(made.map(({ material }) => material.id))].map((id, i) => ({
    name: `${id}-${i + 1}`,
    stock: {
      name: i === 0 ? '2000 x 1000' : 'R7',
      isRemnant: i > 0,
      outline: rectangle(0, 0, 2000, 1000),
      holes: [],
      ...(i === 0 && { price: 120 }),
    },
    material: id,
    thicknessMm: id === 's275' ? 3 : 1.5,
    gapMm: 8,
    edgeMm: 10,
    parts: rowsOf(made.filter(({ material }) => material.id === id)),
  }));
  return { made, sheets };
};

let once: Promise<Laid> | undefined;

const rowsOf = (parts: readonly WholePart[]): LaidSheet['parts'] => {
  let y = 20;
  return parts.flatMap(({ result: { name, quantity }, drawing }) => {
    const { minX = 0, minY = 0, maxX = 0, maxY = 0 } = lineExtents(drawing.items) ?? {};
    const row = Array.from({ length: quantity }, (_, i) => ({
      name,
      copy: i + 1,
      xMm: 20 - minX + i * (maxX - minX + 20),
      yMm: y - minY,
      turnDeg: 0,
      turnedOver: false,
    }));
    y += maxY - minY + 20;
    return row;
  });
};

const laidJob = async (change: (sheets: readonly LaidSheetResult[]) => unknown = (s) => s) => {
  const cwd = tempFolder();
  writeFileSync(join(cwd, 'cart.yaml'), JOB);
  const { made, sheets } = await (once ??= laidByHand(join(cwd, 'cart.yaml')));
  const printed = { sheets: change(sheets.map(laidSheetResult)), buy: [], left: [] };
  writeFileSync(join(cwd, 'layout.json'), JSON.stringify(printed));
  return { cwd, made, sheets };
};

const LAID_ON = z.strictObject({
  sheets: z.array(
    z.strictObject({
      name: z.string(),
      stock: z.string(),
      isRemnant: z.boolean(),
      blanks: z.number(),
      usedPercent: z.number(),
    }),
  ),
  cost: z.number().nullable(),
  notLaid: z.array(z.strictObject({ name: z.string(), count: z.number() })),
});

test('a sheet goes through JSON and is the same', () => {
  for (const sheet of [MIXED, REMNANT]) {
    const result = laidSheetResult(sheet);
    const read = JSON.parse(JSON.stringify(result)) as LaidSheetResult;
    expect(laidSheetResult(laidSheetOf(read))).toEqual(result);
    expect(laidSheetOf(read).parts).toEqual(sheet.parts);
  }
});

test('what lay prints is followed by cutlist and pack', async () => {
  const { cwd } = await laidJob();
  const laid = await blankwright(['lay', 'cart.yaml', '--json', '--steps', '3'], cwd);
  writeFileSync(join(cwd, 'layout.json'), laid.out);
  const listed = await blankwright(['cutlist', 'cart.yaml', '--laid', 'layout.json'], cwd);
  expect([listed.code, listed.err]).toEqual([0, '']);
  expect(listed.out).toMatch(/laid on 1 of/);
  const packed = await blankwright(['pack', 'cart.yaml', '--laid', 'layout.json'], cwd);
  expect([packed.code, packed.err]).toEqual([0, '']);
});

describe('cutlist --laid', () => {
  test('tells the sheets really taken in place of the least number', async () => {
    const { cwd } = await laidJob();
    const args = ['cutlist', 'cart.yaml', '--laid', 'layout.json'];
    const { out, code } = await blankwright(args, cwd);
    expect(code).toBe(0);
    expect(out).not.toContain('at least');
    expect(out).toMatch(/laid on 1 of 2000 x 1000 \(1 % used\), 120/);
    expect(out).toMatch(/laid on remnant R7 \(2 % used\)/);
    const { groups } = json(await blankwright([...args, '--json'], cwd)) as {
      groups: { material: string; laid: unknown }[];
    };
    const laid = groups.map((group) => LAID_ON.parse(group.laid));
    expect(laid.map(({ cost }) => cost)).toEqual([0, 120]);
    expect(laid.map(({ sheets }) => sheets.map(({ blanks }) => blanks))).toEqual([[5], [4]]);
  });

  test('tells what lies on no sheet', async () => {
    const { cwd } = await laidJob((sheets) =>
      sheets.map((sheet) => ({ ...sheet, parts: sheet.parts.slice(1) })),
    );
    const { out } = await blankwright(['cutlist', 'cart.yaml', '--laid', 'layout.json'], cwd);
    expect(out).toMatch(/on none of the sheets: 1 of seat post-L/);
  });

  test.each<[string, (sheets: readonly LaidSheetResult[]) => unknown, RegExp]>([
    ['too many of a part', (s) => [...s, { ...s[0], name: 'again' }], /of seat post-L/],
    [
      'a part of another job',
      ([a, b]) => [a, { ...b, parts: [{ ...b?.parts[0], name: 'lid' }] }],
      /lid/,
    ],
    ['a sheet of another material', ([a, b]) => [{ ...a, material: 'dc01' }, b], /seat post-L on/],
    ['no sheets at all', () => 'none', /sheets/],
    ['a figure that is none', ([a, b]) => [{ ...a, gapMm: 'wide' }, b], /sheets\.0\.gapMm/],
    [
      'an outline without area',
      ([a, b]) => [{ ...a, outline: a?.outline.slice(0, 2) }, b],
      /outline/,
    ],
  ])('%s is refused, and what is wrong is told', async (_, change, told) => {
    const { made, sheets } = await laidJob();
    const read = readLayout(JSON.stringify({ sheets: change(sheets.map(laidSheetResult)) }));
    const problem = read.ok
      ? notLaid(
          read.sheets,
          made.map(({ result }) => result),
        )
      : read.problems[0];
    if (problem === undefined || !('given' in problem)) throw new Error('it was not refused');
    expect(problem.input).toBe('laid');
    expect(problem.given).toMatch(told);
  });

  test('what is refused writes nothing, whatever command follows it', async () => {
    const { cwd } = await laidJob((sheets) => [...sheets, ...sheets]);
    for (const command of ['cutlist', 'pack']) {
      const ran = await blankwright([command, 'cart.yaml', '--laid', 'layout.json', '--json'], cwd);
      expect(ran.code).toBe(2);
      expect((json(ran) as Problems).problems.map(({ input }) => input)).toEqual(['laid']);
    }
    expect(readdirSync(cwd).toSorted()).toEqual(['cart.yaml', 'layout.json']);
  });
});

describe('pack --laid', () => {
  test('each archive holds the files of its sheets, sound, and lists them', async () => {
    const { cwd, made, sheets } = await laidJob();
    const ran = await blankwright(['pack', 'cart.yaml', '--laid', 'layout.json'], cwd);
    expect([ran.code, ran.err]).toEqual([0, '']);
    const drawings = new Map(made.map(({ result, drawing }) => [result.name, drawing]));
    for (const file of readdirSync(join(cwd, 'pack'))) {
      const files = unzipSync(new Uint8Array(readFileSync(join(cwd, 'pack', file))));
      const own = Object.keys(files).filter((name) => name.startsWith('sheets/'));
      const [sheet] = sheets.filter(({ name }) => own.includes(`sheets/${name}.dxf`));
      if (sheet === undefined) throw new Error(`no sheet in ${file}`);
      expect(own).toEqual(['.dxf', '.svg', '.pdf'].map((end) => `sheets/${sheet.name}${end}`));
      const text = (name: string): string => new TextDecoder().decode(files[name]);
      const dxf = text(`sheets/${sheet.name}.dxf`);
      expect(layoutFaultsOfDxf({ dxf, sheet, drawings })).toEqual([]);
      expect(dxf).not.toContain('FOLD-');
      const { files: listed } = JSON.parse(text('manifest.json')) as {
        files: { file: string; parts: { name: string }[] }[];
      };
      const names = new Set(sheet.parts.map(({ name }) => name));
      const entry = listed.find((one) => one.file === `sheets/${sheet.name}.dxf`);
      expect(new Set(entry?.parts.map(({ name }) => name))).toEqual(names);
      expect(text('index.html')).toContain(`sheets/${sheet.name}.pdf`);
      expect(text('index.html')).toContain('laid on');
    }
  });

  test('a layout of parts that were changed since is refused', async () => {
    const { cwd } = await laidJob();
    writeFileSync(join(cwd, 'cart.yaml'), JOB.replace('width: 80', 'width: 110'));
    const ran = await blankwright(['pack', 'cart.yaml', '--laid', 'layout.json', '--json'], cwd);
    expect(ran.code).toBe(2);
    expect((json(ran) as Problems).problems[0]?.given).toMatch(/s275-1, on which/);
    expect(readdirSync(cwd)).not.toContain('pack');
  });
});
