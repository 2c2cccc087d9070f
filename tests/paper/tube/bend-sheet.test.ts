import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import tubeBent from '../../../templates/tube-bent/index.ts';
import { sub3, cross3, dot3, length3, type Vec3 } from '../../../src/geometry/vec3.ts';
import type { TableBlock } from '../../../src/paper/sheet/content.ts';
import { sheetPages } from '../../../src/paper/sheet/sheet-pages.ts';
import { bendSheetContent } from '../../../src/paper/tube/bend-sheet.ts';
import { makeFiles } from '../../../src/use/make/make-files.ts';
import { makeParts } from '../../../src/use/make/make-parts.ts';
import type { PrintUnit } from '../../../src/text/printed.ts';
import { examplesIn } from '../../helpers/extent.ts';
import { offPage, overlapping, paintedOf, struckThrough } from '../../helpers/legible.ts';
import { needsOutside } from '../../helpers/needs-outside.ts';
import { hasPoppler } from '../../helpers/poppler.ts';
import { tempFolder } from '../../helpers/command.ts';
import { bentOf, type MadeBent } from '../../helpers/tubes-of-kind.ts';

const tubesOf = (inputs: Readonly<Record<string, unknown>>): readonly MadeBent[] => {
  const made = makeParts(tubeBent, inputs);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return bentOf(made.tubes);
};
const contentOf = ({ tube, result, mark }: MadeBent, units: PrintUnit = 'mm') =>
  bendSheetContent({
    tube,
    result,
    mark,
    paperMark: { part: result.name },
    paper: 'a4',
    units,
    isHanded: true,
    links: [],
  });
const tableOf = (made: MadeBent, title: RegExp): TableBlock => {
  const block = contentOf(made).blocks.find((b) => b.kind === 'table' && title.test(b.title));
  if (block?.kind !== 'table') throw new Error(`no table ${title}`);
  return block;
};

interface Bent {
  /** The leading end, the corners made so far, and the end that is free. */
  readonly points: readonly Vec3[];
  readonly acrossMm: readonly number[];
}

/**
 * A person at a bench bender with the paper in hand, and nothing else: the free end lies along -x, the
 * clamp is towards +x, and the former always turns what it holds from +x towards +y.
 */
const bentFromPaper = (made: MadeBent, cutMm: number): Bent => {
  const radii = tableOf(made, /^Along/).rows.flatMap(([what = '', , , , , radius = '']) =>
    what.startsWith('bend') ? [Number(radius)] : [],
  );
  let held: Vec3[] = [[0, 0, 0]];
  let at = 0;
  const acrossMm: number[] = [];
  tableOf(made, /^Bending/).rows.forEach((row, i) => {
    const [bend = '', mark = '', turn = '', , angle = ''] = row;
    const feed = Number(mark) - at;
    const [deg, way] = turn.split('° ');
    const turned =
      i === 0 || turn === 'no turn'
        ? 0
        : turn === 'half a turn'
          ? 180
          : Number(deg) * (way === 'clockwise' ? 1 : -1);
    const [c, s] = [Math.cos((turned * Math.PI) / 180), Math.sin((turned * Math.PI) / 180)];
    // Looking along +x, towards the clamp, clockwise takes y to z.
    const fed = held.map(([x, y, z]): Vec3 => [x + feed, c * y - s * z, s * y + c * z]);
    const rad = (Number(angle) * Math.PI) / 180;
    const radius = radii[Number(bend) - 1] as number;
    const swung = fed.map(([x, y, z]): Vec3 => [
      Math.cos(rad) * x - Math.sin(rad) * (y - radius),
      Math.sin(rad) * x + Math.cos(rad) * (y - radius) + radius,
      z,
    ]);
    held = [...swung, [radius * Math.tan(rad / 2), 0, 0]];
    at = Number(mark) + radius * rad;
    acrossMm.push(length3(sub3(held[0] as Vec3, [at - cutMm, 0, 0])));
  });
  return { points: [...held, [at - cutMm, 0, 0]], acrossMm };
};

/** Distances of all pairs of points, and which way round each four in a row turn. */
const shapeOf = (points: readonly Vec3[]) => ({
  apart: points.flatMap((p, i) => points.slice(i + 1).map((q) => length3(sub3(p, q)))),
  turns: points.slice(3).map((d, i) => {
    const [a, b, c] = points.slice(i, i + 3) as [Vec3, Vec3, Vec3];
    const volume = dot3(sub3(b, a), cross3(sub3(c, b), sub3(d, c)));
    return Math.abs(volume) < 1e5 ? 0 : Math.sign(volume);
  }),
});

const TUBES = [
  { points: '0,0,0; 300,0,0; 300,250,0; 300,250,400; 500,250,400', radius: 80 },
  { points: '0,0,0; 420,35,-60; 700,260,40; 980,240,390; 1250,-60,420', radius: 90 },
  {
    legs: '300; 90, 300; 45@180, 200; 60@-70, 250',
    radius: 75,
    testBends: '20 = 18.2; 120 = 115.4',
  },
  { span: 900, height: 700, lean: 6, radius: 90 },
].map((tube) => ({ diameter: 25, wall: 2, ...tube }));

describe('the printed sheet', () => {
  test.each(TUBES)('is all that a tube is bent from: %#', (inputs) => {
    for (const made of tubesOf({ ...inputs, hand: 'both' })) {
      const facts = contentOf(made).blocks.flatMap((b) => (b.kind === 'overview' ? b.facts : []));
      const cutMm = Number(facts.find(({ name }) => name.startsWith('Cut off'))?.value);
      const { points, acrossMm } = bentFromPaper(made, cutMm);
      const [found, asked] = [shapeOf(points), shapeOf(made.tube.points)];
      found.apart.forEach((mm, i) => {
        expect(Math.abs(mm - (asked.apart[i] as number))).toBeLessThan(1.5);
      });
      expect(found.turns).toEqual(asked.turns);
      tableOf(made, /^Bending/).rows.forEach((row, i) => {
        expect(Math.abs(Number(row[6]) - (acrossMm[i] as number))).toBeLessThan(1.5);
      });
    }
  });

  test.each(examplesIn(tubeBent))('can be read, every text of it: $title', ({ inputs }) => {
    for (const made of tubesOf(inputs))
      for (const page of sheetPages(contentOf(made))) {
        const painted = paintedOf(page);
        expect([
          ...offPage(page, painted),
          ...overlapping(painted),
          ...struckThrough(painted),
        ]).toEqual([]);
      }
  });

  test('has its marks and its cautions in the PDF', async (ctx) => {
    needsOutside(ctx, 'pdftotext', hasPoppler);
    const made = await makeFiles({
      template: tubeBent,
      inputs: TUBES[0] ?? {},
      outputs: ['sheet', 'model'],
    });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    expect(made.files.map(({ name }) => name)).toEqual([
      'tube-bent.svg',
      'tube-bent-sheet.html',
      'tube-bent-sheet.pdf',
      'tube-bent.glb',
      'tube-bent.stl',
    ]);
    for (const { contents, mark } of made.files)
      expect(Buffer.from(contents.slice(0, 2000) as string).toString('latin1')).toContain(mark);
    const file = join(tempFolder(), 'sheet.pdf');
    writeFileSync(file, made.files[2]?.contents ?? '');
    const text = spawnSync('pdftotext', ['-layout', file, '-']).stdout.toString();
    for (const words of ['220', '435.7', '801.3', '90° clockwise', 'Check mm', 'licensed practice'])
      expect(text).toContain(words);
  });

  test('in inches has no length in mm but that of its tube', () => {
    const [made] = tubesOf(TUBES[0] ?? {});
    if (made === undefined) throw new Error('no tube');
    const texts = JSON.stringify(contentOf(made, 'inch').blocks);
    expect(texts).not.toMatch(/\d mm\b/);
    expect(texts).toContain('Mark in');
  });

  test('has room for every mark over the tube, and breaks no figure, in inches too', () => {
    const made = tubesOf({
      points: '0,0,0; 0,0,320; 240,120,420; 500,120,300',
      diameter: 30,
      wall: 2,
      radius: 90,
    });
    for (const one of made)
      for (const units of ['mm', 'inch'] as const) {
        const { printed, figures } = marksOn(contentOf(one, units));
        expect(offPage(printed)).toEqual([]);
        const pages = sheetPages(contentOf(one, units));
        const texts = pages.flatMap((page) => paintedOf(page).texts.map(({ label }) => label.text));
        expect(texts).toEqual(expect.arrayContaining(figures));
      }
  });
});

/** The picture of the marks, and the figures of the table that a tube is bent by. */
const marksOn = ({ blocks }: ReturnType<typeof contentOf>) => {
  const picture = blocks.find((b) => b.kind === 'picture' && b.title.startsWith('Marks'));
  const table = blocks.find((b) => b.kind === 'table' && b.title.startsWith('Bending'));
  if (picture?.kind !== 'picture' || table?.kind !== 'table') throw new Error('no marks');
  return {
    printed: picture.picture,
    figures: table.rows.flatMap(([, mark = '', , , , , check = '']) => [mark, check]),
  };
};
