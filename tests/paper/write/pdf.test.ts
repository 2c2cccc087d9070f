import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
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

const HEAD = { title: 'seat post (łódź)', mark: 'blankwright bracket-angle seat-post left' };

describe('a PDF', () => {
  test('says of each object where it begins (ISO 32000-1, 7.5.4), and of each stream how long it is', () => {
    const text = Buffer.from(writePdf([PAGE, PAGE], HEAD)).toString('latin1');
    const table = Number(/startxref\n(\d+)\n%%EOF\n$/.exec(text)?.[1]);
    const [, size, lines] = /^xref\n0 (\d+)\n((?:\d{10} \d{5} [nf] \n)*)trailer\n/.exec(
      text.slice(table),
    ) as RegExpExecArray;
    const places = [...(lines ?? '').matchAll(/^(\d{10}) 00000 n $/gm)].map(([, at]) => Number(at));
    expect(places).toHaveLength(Number(size) - 1);
    for (const [i, place] of places.entries())
      expect(text.slice(place)).toMatch(new RegExp(`^${i + 1} 0 obj\n<< `));
    const streams = [...text.matchAll(/\/Length (\d+) .*>>\nstream\n/g)];
    expect(streams).toHaveLength(2);
    for (const { index, 0: start, 1: long } of streams)
      expect(text.slice(index + start.length + Number(long))).toMatch(/^\nendstream\nendobj\n/);
  });

  test('is the same at every run, and bears its mark near its start', () => {
    const [one, two] = [writePdf([PAGE, PAGE], HEAD), writePdf([PAGE, PAGE], HEAD)];
    expect(Buffer.compare(one, two)).toBe(0);
    expect(Buffer.from(one).subarray(0, 2000).toString('latin1')).toContain(`\n%${HEAD.mark}\n`);
  });

  test('is of true size and holds what was drawn, by Poppler', async (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const file = join(tempFolder(), 'page.pdf');
    writeFileSync(file, writePdf([PAGE, { ...PAGE, widthMm: 100 }], HEAD));
    const info = spawnSync('pdfinfo', ['-l', '2', file], { encoding: 'utf8' });
    expect(info.stderr).toBe('');
    expect(info.stdout).toMatch(/^Title: +seat post \(łódź\)$/m);
    expect(info.stdout).not.toMatch(/Date:/);
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

/** Every letter of Windows 1252 that leaves a mark; a soft hyphen is no part of a line. */
const LETTERS = [
  ...Array.from({ length: 0x5e }, (_, i) => String.fromCharCode(0x21 + i)),
  ...'€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ',
  ...Array.from({ length: 0x5f }, (_, i) => String.fromCharCode(0xa1 + i)),
].filter((letter) => letter !== '\u00ad');

describe.each([
  ['Helvetica', false],
  ['Helvetica-Bold', true],
] as const)('letters of %s, by Poppler', (_, isBold) => {
  /** Each in a line of its own, so many of them side by side, ten times. */
  const SIDE_BY_SIDE = 10;
  const SIZE_MM = 20;
  const page: Picture = {
    widthMm: 500,
    heightMm: 30 * (LETTERS.length + 2),
    items: LETTERS.map((letter, i) => ({
      kind: 'label',
      at: [20, 30 * (i + 1)],
      sizeMm: SIZE_MM,
      text: letter.repeat(SIDE_BY_SIDE),
      isBold,
    })),
  };

  /**
   * The letters that Poppler reads in each line, from the lowest line up, and how wide it takes
   * them to be by its own tables of the standard fonts, mm.
   */
  const wordsOf = (): { readonly text: string; readonly wideMm: number }[] => {
    const file = join(tempFolder(), 'letters.pdf');
    writeFileSync(file, writePdf([page], HEAD));
    const { stdout } = spawnSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8' });
    return [...stdout.matchAll(/<word xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" .*?>(.*)<\/word>/g)]
      .map(([, left, top, right, text]) => ({
        text: (text ?? '').replace(/&(\w+);/g, (__, name: string) => NAMED[name] ?? '?'),
        wideMm: ((Number(right) - Number(left)) * 25.4) / 72,
        top: Number(top),
      }))
      .toSorted((a, b) => b.top - a.top);
  };
  const NAMED: Readonly<Record<string, string>> = {
    amp: '&',
    lt: '<',
    gt: '>',
    quot: '"',
    apos: "'",
  };

  test('are read back as they were written, and are as wide as the layout takes them to be', async (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const words = wordsOf();
    expect(words.map((w) => w.text)).toEqual(LETTERS.map((l) => l.repeat(SIDE_BY_SIDE)));
    for (const [i, letter] of LETTERS.entries())
      expect(words[i]?.wideMm, letter).toBeCloseTo(
        textWidthMm(letter.repeat(SIDE_BY_SIDE), SIZE_MM, isBold),
        3,
      );
  });
});
