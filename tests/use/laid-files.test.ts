import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { loopExtents } from '../../src/geometry/extents.ts';
import { layoutFaultsOfDxf } from '../../src/laid/check-dxf.ts';
import type { LaidSheet } from '../../src/model/laid.ts';
import { readPaperMark } from '../../src/model/paper-mark.ts';
import { laidFiles } from '../../src/use/laid/laid-files.ts';
import { laidTable } from '../../src/use/laid/laid-table.ts';
import { ezdxfAvailable, type ReadEntity, readWithEzdxf } from '../helpers/ezdxf.ts';
import { DRAWINGS, laidPart, laidSheet, MIXED, REMNANT } from '../helpers/laid-sheets.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { madeOf } from '../helpers/packed.ts';

const JOB = { job: 'vineyard cart', shop: DEFAULT_SHOP, family: 'steel' } as const;

const dxfOf = async (sheet: LaidSheet, dxfVersion: 'r2000' | 'r12' = 'r2000'): Promise<string> => {
  const { files } = await laidFiles(sheet, DRAWINGS, { ...JOB, writing: { dxfVersion } });
  return String(files[0]?.contents);
};

const isCut = ({ layer }: ReadEntity): boolean => layer === 'OUTLINE' || layer === 'HOLES';

/** Where an entity lies: the left end of its box. */
const placeOf = (entity: ReadEntity): readonly [number, number] => {
  if (entity.type === 'CIRCLE')
    return [entity.centre[0] - entity.radius, entity.centre[1] - entity.radius];
  if (entity.type !== 'LWPOLYLINE' && entity.type !== 'POLYLINE') return [NaN, NaN];
  const box = loopExtents(entity.vertices);
  return [box?.minX ?? NaN, box?.minY ?? NaN];
};

describe('the DXF of a laid sheet, as a program of somebody else reads it', () => {
  test('is sound, and its cuts stand in their order: each outline behind its own holes', async (ctx) => {
    needsOutside(ctx, 'ezdxf', ezdxfAvailable);
    const texts = [await dxfOf(MIXED), await dxfOf(MIXED, 'r12'), await dxfOf(REMNANT)];
    for (const { errors, fixes, entities } of readWithEzdxf(texts)) {
      expect([errors, fixes]).toEqual([[], []]);
      const cuts = entities.filter(isCut);
      cuts.forEach((hole, i) => {
        if (hole.layer !== 'HOLES') return;
        const [x, y] = placeOf(hole);
        // The outline that the hole belongs to begins left of it and under it, and comes later.
        const later = cuts
          .slice(i)
          .filter(({ layer }) => layer === 'OUTLINE')
          .map(placeOf);
        expect(later.some(([left, low]) => left < x && low < y)).toBe(true);
      });
      // The ring comes behind the washers in it.
      const outlines = cuts.filter(({ layer }) => layer === 'OUTLINE').map(placeOf);
      const at = (wanted: readonly [number, number]): number =>
        outlines.findIndex(([x, y]) => Math.hypot(x - wanted[0], y - wanted[1]) < 0.01);
      if (at([10, 10]) >= 0) {
        expect(at([65, 90])).toBeGreaterThanOrEqual(0);
        expect(at([10, 10])).toBeGreaterThan(Math.max(at([65, 90]), at([115, 90])));
      }
    }
  });

  test('has the number and name of each part, and the edges of the sheet, on NOTE alone', async (ctx) => {
    needsOutside(ctx, 'ezdxf', ezdxfAvailable);
    const [read] = readWithEzdxf([await dxfOf(REMNANT)]);
    const notes = read?.entities.filter(({ layer }) => layer === 'NOTE') ?? [];
    const texts = notes.flatMap((e) => (e.type === 'TEXT' ? [e.text] : []));
    expect(texts).toEqual(
      expect.arrayContaining(['1 washer (1)', '2 washer (2)', '3 gusset', '4 lamp-bracket']),
    );
    expect(notes.filter(({ type }) => type !== 'TEXT').map(({ type }) => type)).toEqual([
      'LWPOLYLINE',
      'CIRCLE',
    ]);
  });
});

describe('a part of a family on a sheet', async () => {
  const made = await madeOf(
    'bracket-angle',
    { hand: 'left' },
    { kerf: 'shop', shop: DEFAULT_SHOP },
  );
  const [part] = made;
  if (part === undefined || part.stopped) throw new Error('it was not made');
  const { name, material } = part.result;
  const drawings = new Map([[name, part.drawing]]);
  const sheet = laidSheet(
    'one',
    [
      laidPart(name, 30, 30),
      laidPart(name, 500, 30, { copy: 2, turnedOver: true }),
      laidPart(name, 700, 200, { copy: 3, turnDeg: 33, turnedOver: true }),
    ],
    { material: material.id, thicknessMm: material.thicknessMm },
  );

  test('with the kerf on its lines, turned over and at an odd angle: the file is sound', async () => {
    const { files, findings } = await laidFiles(sheet, drawings, JOB);
    const dxf = String(files[0]?.contents);
    expect(layoutFaultsOfDxf({ dxf, sheet, drawings })).toEqual([]);
    expect(findings).toEqual([]);
    // Folded up as drawn, down where it lies turned over.
    expect(dxf.match(/\n8\nFOLD-UP\n/g)).toHaveLength(1);
    expect(dxf.match(/\n8\nFOLD-DOWN\n/g)).toHaveLength(2);
    expect(dxf.match(/ UP R/g)).toHaveLength(1);
    expect(dxf.match(/ DOWN R/g)).toHaveLength(2);
  });

  test('the same sheet gives the same files, each with its mark near its start', async () => {
    const [one, two] = [
      await laidFiles(sheet, drawings, JOB),
      await laidFiles(sheet, drawings, JOB),
    ];
    expect(one.files).toEqual(two.files);
    expect(one.files.map((file) => file.name)).toEqual(['one.dxf', 'one.svg', 'one.pdf']);
    for (const { contents, mark } of one.files)
      expect(Buffer.from(contents).subarray(0, 2000).toString('latin1')).toContain(mark);
    const svg = String(one.files[1]?.contents);
    const sha = /SHA-256 ([0-9a-f]{12})/.exec(svg)?.[1];
    expect(readPaperMark(`one, one.dxf, SHA-256 ${sha}`)).toMatchObject({ file: 'one.dxf', sha });
  });
});

test('the table of all sheets stays within 80 columns, whatever the names', () => {
  const long = 'a bracket with a name that nobody would ever type twice';
  const sheets = [
    MIXED,
    REMNANT,
    laidSheet('s235-3-9', [laidPart(long, 0, 0), laidPart('lid', 0, 0)]),
  ];
  const text = laidTable(
    sheets.map((sheet) => ({
      sheet,
      usedPercent: 61.4,
      clean: { minX: 0, minY: 0, maxX: 812.4, maxY: 430 },
    })),
  );
  for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  expect(text).toContain('3 lamp-bracket');
  expect(text).toContain('812 x 430');
  expect(text).toMatch(/R7 .* 61 /);
});
