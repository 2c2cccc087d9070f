import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Picture } from '../../../src/model/picture.ts';
import { textWidthMm } from '../../../src/paper/draw/text-width.ts';
import { writePdf } from '../../../src/paper/write/pdf.ts';
import { pictureSvg } from '../../../src/paper/write/picture-svg.ts';
import { tempFolder } from '../../helpers/command.ts';
import { needsOutside } from '../../helpers/needs-outside.ts';
import { type Box, hasPoppler, inkOf } from '../../helpers/poppler.ts';

/** A square of 100 mm, a half circle standing on it, a disc in it, and a part that is cut off. */
const PAGE: Picture = {
  widthMm: 210,
  heightMm: 297,
  items: [
    {
      kind: 'area',
      rims: [
        [
          { from: [50, 50], to: [150, 50], bulge: 0 },
          { from: [150, 50], to: [150, 150], bulge: 0 },
          { from: [150, 150], to: [50, 150], bulge: 1 },
          { from: [50, 150], to: [50, 50], bulge: 0 },
        ],
      ],
      fill: 0,
    },
    { kind: 'round', centre: [100, 100], radiusMm: 20, fill: 1 },
    {
      kind: 'group',
      at: [0, 200],
      clip: { minX: 160, minY: 10, maxX: 180, maxY: 30 },
      items: [
        {
          kind: 'curve',
          pieces: [{ from: [0, 20], to: [210, 20], bulge: 0 }],
          stroke: { widthMm: 4 },
        },
      ],
    },
    { kind: 'label', at: [20, 20], sizeMm: 6, text: 'Ärger & <Größe> 1½" łódź 🔧' },
  ],
};
/** Within a dot: one that is touched counts as black. */
const about = (box: Box): unknown =>
  Object.fromEntries(
    Object.entries(box).map(([side, dot]) => [
      side,
      expect.toSatisfy((found: number) => Math.abs(found - dot) <= 1),
    ]),
  );

const HEAD = { title: 'seat post', mark: 'blankwright bracket-angle seat-post left' };

describe('a PDF', () => {
  test('is the same at every run, and bears its mark near its start', async () => {
    const [one, two] = [await writePdf([PAGE, PAGE], HEAD), await writePdf([PAGE, PAGE], HEAD)];
    expect(Buffer.compare(one, two)).toBe(0);
    expect(Buffer.from(one).subarray(0, 2000).toString('latin1')).toContain(`\n%${HEAD.mark}\n`);
  });

  test('is of true size and holds what was drawn, by Poppler', async (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const file = join(tempFolder(), 'page.pdf');
    writeFileSync(file, await writePdf([PAGE, { ...PAGE, widthMm: 100 }], HEAD));
    const info = spawnSync('pdfinfo', ['-l', '2', file], { encoding: 'utf8' });
    expect(info.stderr).toBe('');
    // A point is 1/72 inch of 25.4 mm (ISO 32000-1): 210 mm are 595.276 points.
    expect(info.stdout).toMatch(/Page +1 size: +595\.276 x 841\.89 pts/);
    expect(info.stdout).toMatch(/Page +2 size: +283\.465 x 841\.89 pts/);
    expect(spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).stdout).toContain(
      'Ärger & <Größe> 1½" ?ódz ?',
    );
    const ink = inkOf(file, 1, 254);
    // Dots of 0.1 mm: the square and the half circle on it, 100 wide and 150 high, 50 from the
    // left, 97 from the top.
    expect(ink.box({ left: 400, top: 500, right: 1550, bottom: 2600 })).toEqual(
      about({ left: 500, right: 1499, top: 970, bottom: 2469 }),
    );
    expect(ink.isInk(1000, 1970)).toBe(false);
    expect(ink.isInk(1000, 1970 - 210)).toBe(true);
    // Cut off at 160 and 180 from the left, 4 mm high about 220 from below.
    expect(ink.box({ left: 1550, top: 600, right: 2099, bottom: 900 })).toEqual(
      about({ left: 1600, right: 1799, top: 750, bottom: 789 }),
    );
  });
});

test('an SVG picture says the same, its arcs true', () => {
  const svg = pictureSvg(PAGE, 'a');
  expect(svg).toContain('width="210mm" height="297mm" viewBox="0 0 210 297"');
  expect(svg).toContain('M50 247L150 247L150 147A50.00000000 50.00000000 0 0 0 50 147L50 247Z');
  expect(svg).toContain(
    '<clipPath id="a-1"><rect x="160" y="67" width="20" height="20"/></clipPath>',
  );
  expect(svg).toContain('Ärger &amp; &lt;Größe&gt;');
});

test.each([
  ['Helvetica', false],
  ['Helvetica-Bold', true],
] as const)('letters of %s are as wide as its font metrics say', (font, isBold) => {
  // Adobe's AFM files of the 14 standard fonts, as the PDF library brings them: `C 65 ; WX 667 ; N
  // A ; ...`.
  const afm = readFileSync(`node_modules/pdfkit/js/data/${font}.afm`, 'latin1');
  const rows = [...afm.matchAll(/^C (\d+) ; WX (\d+) ; N (\w+) ;/gm)];
  // Standard and Latin-1 codes agree for the ASCII letters and figures.
  const same = rows.filter(
    ([, code, , name]) => Number(code) < 127 && !['quoteright', 'quoteleft'].includes(name ?? ''),
  );
  expect(same.length).toBeGreaterThan(90);
  for (const [, code, width] of same)
    expect(textWidthMm(String.fromCharCode(Number(code)), 1000, isBold)).toBeCloseTo(
      Number(width),
      9,
    );
  const named: Record<string, string> = {
    Adieresis: 'Ä',
    eacute: 'é',
    germandbls: 'ß',
    degree: '°',
    onehalf: '½',
    multiply: '×',
    plusminus: '±',
  };
  for (const [, , width, name] of rows)
    if (named[name ?? ''] !== undefined)
      expect(textWidthMm(named[name ?? ''] as string, 1000, isBold)).toBeCloseTo(Number(width), 9);
});
