import { describe, expect, test } from 'vitest';
import type { LaidPart, LaidSheet } from '../../src/model/laid.ts';
import { ANY_IMPORT } from '../../src/model/shop.ts';
import { type DxfLayoutFault, layoutFaultsOfDxf } from '../../src/laid/check-dxf.ts';
import { laidFiles } from '../../src/use/laid/laid-files.ts';
import type { DrawingForm } from '../../src/use/made-part.ts';
import { DRAWINGS, laidPart, laidSheet, MIXED, REMNANT } from '../helpers/laid-sheets.ts';

const dxfOf = async (sheet: LaidSheet, writing?: Partial<DrawingForm>): Promise<string> => {
  const { files } = await laidFiles(sheet, DRAWINGS, { job: 'cart', writing });
  return String(files.find(({ name }) => name.endsWith('.dxf'))?.contents);
};
const faults = (dxf: string, sheet: LaidSheet, unit?: 'inch'): readonly DxfLayoutFault[] =>
  layoutFaultsOfDxf({ dxf, sheet, drawings: DRAWINGS, ...(unit && { unit }) });

/** The file of a sheet with one part laid otherwise, against the sheet as it should be. */
const harmed = async (
  sheet: LaidSheet,
  name: string,
  change: (part: LaidPart) => readonly LaidPart[],
): Promise<readonly string[]> => {
  const at = sheet.parts.findIndex((part) => part.name === name);
  const parts = sheet.parts.flatMap((part, i) => (i === at ? change(part) : [part]));
  const found = faults(await dxfOf({ ...sheet, parts }), sheet);
  return found.map((f) => ('part' in f ? `${f.kind} ${f.part}` : f.kind));
};

/** A file without the first circle on the layer of holes. */
const withoutHole = (dxf: string): string => {
  const lines = dxf.split('\n');
  const starts = lines.flatMap((line, i) => (i % 2 === 0 && line === '0' ? [i] : []));
  const at = starts.findIndex(
    (start, k) =>
      lines[start + 1] === 'CIRCLE' && lines.slice(start, starts[k + 1]).includes('HOLES'),
  );
  return lines.filter((_, i) => i < (starts[at] ?? 0) || i >= (starts[at + 1] ?? 0)).join('\n');
};

describe('the file of a laid sheet, read again', () => {
  test.each([
    ['mixed', MIXED],
    ['remnant', REMNANT],
  ])('is sound in every form that a cutter takes: %s', async (_, sheet) => {
    for (const dxfVersion of ['r2000', 'r12'] as const)
      for (const form of [
        ANY_IMPORT,
        { ...ANY_IMPORT, layers: 'merged' },
        { ...ANY_IMPORT, foldLines: 'out' },
        { ...ANY_IMPORT, curves: 'chords' },
        { ...ANY_IMPORT, units: 'inch' },
      ] as const) {
        const dxf = await dxfOf(sheet, { dxfVersion, form });
        expect(faults(dxf, sheet, form.units === 'inch' ? 'inch' : undefined)).toEqual([]);
      }
  });

  test('a part 0.02 mm too near is told, one 0.005 mm too near is not', async () => {
    const near = (by: number) =>
      harmed(MIXED, 'tank-strap', (part) => [{ ...part, yMm: part.yMm + by }]);
    expect(await near(0.02)).toEqual(['moved tank-strap', 'gap tank-strap']);
    expect(await near(0.005)).toEqual([]);
  });

  test('a part that is left out, or there once more', async () => {
    expect(await harmed(MIXED, 'drum-ring', () => [])).toEqual(['missing drum-ring']);
    expect(await harmed(MIXED, 'gusset', () => [])).toEqual(['missing gusset']);
    expect(await harmed(REMNANT, 'gusset', (part) => [part, { ...part, xMm: 370 }])).toContain(
      'stray',
    );
  });

  test('a part that lies turned, or turned over', async () => {
    const turned = await harmed(MIXED, 'lamp-bracket', (part) => [{ ...part, turnDeg: 10 }]);
    expect(turned).toContain('moved lamp-bracket');
    const over = await harmed(REMNANT, 'lamp-bracket', (part) => [
      { ...part, turnedOver: true, xMm: 140 },
    ]);
    expect(over).toEqual(['other-face lamp-bracket']);
    // What is its own mirror image may lie on either face.
    const washer = (part: LaidPart) => [{ ...part, turnedOver: true, xMm: part.xMm + 40 }];
    expect(await harmed(REMNANT, 'washer', washer)).toEqual([]);
  });

  test('a part off the sheet, over its edge, or over a hole that is there already', async () => {
    const to = (xMm: number, yMm: number) =>
      harmed(REMNANT, 'gusset', (part) => [{ ...part, xMm, yMm }]);
    expect(await to(300, 5)).toEqual(['moved gusset', 'edge gusset']);
    expect(await to(300, -30)).toEqual(['moved gusset', 'outside gusset']);
    expect(await to(225, 70)).toEqual(['moved gusset', 'outside gusset']);
  });

  test('a hole of a part is lost, and a line does not close', async () => {
    const dxf = await dxfOf(REMNANT);
    const lost = withoutHole(dxf);
    expect(lost).not.toBe(dxf);
    expect(faults(lost, REMNANT).map(({ kind }) => kind)).toEqual(['inner-missing']);
    const open = dxf.replace('\n0\nENDSEC\n0\nEOF', '');
    expect(faults(open, REMNANT).map(({ kind }) => kind)).toEqual(['unreadable']);
  });

  test('contours stand in it in the order of cutting', async () => {
    const strips = laidSheet(
      's',
      [0, 1, 2, 3].map((i) => laidPart('tank-strap', 10, 10 + 40 * i, { copy: i + 1 })),
    );
    const dxf = await dxfOf(strips);
    const layers = [...dxf.matchAll(/\n8\n(HOLES|OUTLINE)\n/g)].map(([, layer]) => layer);
    expect(layers).toEqual([0, 1, 2, 3].flatMap(() => ['HOLES', 'HOLES', 'OUTLINE']));
  });
});
