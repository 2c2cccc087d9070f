import { writeFileSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cardLayout, MARGIN_MM, OVERLAP_MM, tileName } from '../../src/draw/card-layout.ts';
import { cardPages } from '../../src/draw/card-template.ts';
import { loopExtents } from '../../src/geometry/extents.ts';
import type { MadePart } from '../../src/job.ts';
import type { PaperSize } from '../../src/model/paper.ts';
import type { Picture, PictureItem } from '../../src/model/picture.ts';
import { writePdf } from '../../src/write/pdf.ts';
import { FAMILIES } from '../../templates/index.ts';
import { loadFamily, make } from '../helpers/check-template.ts';
import { tempFolder } from '../helpers/command.ts';
import { fuzzRuns } from '../helpers/fuzz-runs.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { hasPoppler, inkOf } from '../helpers/poppler.ts';

const pagesOf = ({ flat, drawing, result: { name, hand } }: MadePart, paper: PaperSize): Picture[] => {
  if (flat === undefined || drawing === undefined) throw new Error(`${name} is not made`);
  return cardPages({ flat, drawing, name, hand, about: '1 off', paper });
};

describe('how a blank is laid out', () => {
  const sizes = fc.record({ width: fc.double({ min: 5, max: 3000, noNaN: true }), height: fc.double({ min: 5, max: 3000, noNaN: true }), paper: fc.constantFrom<PaperSize>('a4', 'a3', 'letter', { rollMm: 610 }) });

  test('every place of it lies on a page, neighbours share 10 mm, and nothing lies beyond what a printer prints', () => {
    fc.assert(
      fc.property(sizes, ({ width, height, paper }) => {
        const { page, live, columns, rows, tiles } = cardLayout(width, height, paper);
        expect(tiles).toHaveLength(columns * rows);
        const [first] = tiles;
        for (const { column, row, shows } of tiles) {
          expect(live[0] + shows.maxX - shows.minX).toBeCloseTo(page.widthMm - MARGIN_MM, 6);
          expect(live[1] + shows.maxY - shows.minY).toBeCloseTo(page.heightMm - MARGIN_MM, 6);
          const right = tiles.find((t) => t.column === column + 1 && t.row === row);
          if (right !== undefined) expect(shows.maxX - right.shows.minX).toBeCloseTo(OVERLAP_MM, 6);
          const below = tiles.find((t) => t.column === column && t.row === row + 1);
          if (below !== undefined) expect(below.shows.maxY - shows.minY).toBeCloseTo(OVERLAP_MM, 6);
        }
        expect(first?.shows.minX).toBeLessThanOrEqual(-1 + 1e-6);
        expect(Math.max(...tiles.map((t) => t.shows.maxX))).toBeGreaterThanOrEqual(width + 1 - 1e-6);
        expect(Math.min(...tiles.map((t) => t.shows.minY))).toBeLessThanOrEqual(-1 + 1e-6);
        expect(first?.shows.maxY).toBeGreaterThanOrEqual(height + 1 - 1e-6);
      }),
      { numRuns: fuzzRuns(300) },
    );
  });

  test('across the paper where that takes fewer pages; a roll is as long as it must be', () => {
    expect(cardLayout(260, 150, 'a4')).toMatchObject({ columns: 1, rows: 1, page: { widthMm: 297, heightMm: 210 } });
    expect(cardLayout(150, 255, 'a4')).toMatchObject({ columns: 1, rows: 1, page: { widthMm: 210, heightMm: 297 } });
    expect(cardLayout(500, 2400, { rollMm: 610 })).toMatchObject({ columns: 1, rows: 1, page: { widthMm: 610 } });
  });

  test('pages are named by letter and number', () => {
    expect([[0, 0], [1, 2], [25, 0], [26, 9], [27, 0]].map(([column = 0, row = 0]) => tileName({ column, row }))).toEqual(['A1', 'B3', 'Z1', 'AA10', 'AB1']);
  });
});

/** Strokes of what is drawn, groups opened: ends of pieces in the page's coordinates. */
const pointsOf = (items: readonly PictureItem[], at: readonly [number, number] = [0, 0]): (readonly [number, number])[] =>
  items.flatMap((item) => {
    if (item.kind === 'group') return pointsOf(item.items, [at[0] + item.at[0], at[1] + item.at[1]]);
    if (item.kind === 'curve') return item.pieces.map(({ from }) => [from[0] + at[0], from[1] + at[1]] as const);
    return [];
  });

test.each([...FAMILIES.keys()])('%s: a card of every example, nothing of it off the paper but what a page cuts off', async (family) => {
  const { examples } = await loadFamily(family);
  for (const { inputs } of examples) {
    for (const part of await make(family, inputs)) {
      if (part.flat === undefined) continue;
      const pages = pagesOf(part, 'a4');
      expect(pages.length).toBeGreaterThan(0);
      for (const { widthMm, heightMm, items } of pages) {
        for (const [x, y] of pointsOf(items.filter((item) => item.kind !== 'group'))) {
          expect(x).toBeGreaterThanOrEqual(MARGIN_MM - 4);
          expect(x).toBeLessThanOrEqual(widthMm - MARGIN_MM + 1e-6);
          expect(y).toBeGreaterThanOrEqual(MARGIN_MM);
          expect(y).toBeLessThanOrEqual(heightMm - MARGIN_MM + 1e-6);
        }
      }
    }
  }
});

const HEAD = { title: 'card', mark: 'mark' };
/** 254 dots an inch are 10 a millimetre. */
const DOTS = 254;

describe('read back by Poppler', () => {
  test('the check lines measure 100 mm on every page, both ways; the blank its true size', async (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const [part] = await make('bracket-angle', { name: 'seat post', legA: 60, legB: 40, width: 80, material: 's275', thickness: 3, radius: 3, holesA: '35,20,M8' });
    if (part?.flat === undefined) throw new Error('not made');
    const file = join(tempFolder(), 'card.pdf');
    writeFileSync(file, await writePdf(pagesOf(part, 'a4'), HEAD));
    const ink = inkOf(file, 1, DOTS);
    expect(checkLines(ink)).toEqual({ across: expect.toSatisfy(isAbout(1000)), up: expect.toSatisfy(isAbout(1000)) });
    // The outline alone inside the live part of the page; its lines are 0.5 mm wide.
    const drawn = ink.box({ left: 300, top: 300, right: 1900, bottom: 2400 });
    if (drawn === undefined) throw new Error('nothing drawn');
    expect([drawn.right - drawn.left, drawn.bottom - drawn.top]).toEqual([part.flat.widthMm, part.flat.heightMm].map((mm) => expect.toSatisfy(isAbout(mm * 10 + 5))));
    const text = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).stdout;
    for (const word of ['seat post   LEFT HAND', 'Print at 100 % (actual size)', '100 mm', 'A 90 UP R3', 'Ø9']) expect(text).toContain(word);
  });

  test('tiles laid over each other by their place give the whole outline, and share their register marks', async (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const [part] = await make('tray', { length: 320, depth: 240, height: 45, material: 'dc01', thickness: 1.5 });
    if (part?.flat === undefined) throw new Error('not made');
    const file = join(tempFolder(), 'card.pdf');
    const pages = pagesOf(part, 'a4');
    writeFileSync(file, await writePdf(pages, HEAD));
    const { columns, rows, live, tiles, page } = cardLayout(part.flat.widthMm, part.flat.heightMm, 'a4');
    expect([pages.length, tileName({ column: columns - 1, row: rows - 1 })]).toEqual([columns * rows, 'B2']);
    const names = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).stdout;
    for (const tile of tiles) expect(names).toContain(`${tileName(tile)} of B2`);
    const inks = tiles.map((_, i) => inkOf(file, i + 1, DOTS));
    for (const ink of inks) expect(checkLines(ink)).toEqual({ across: expect.toSatisfy(isAbout(1000)), up: expect.toSatisfy(isAbout(1000)) });
    /** Whether a place of the blank is inked on any page that shows it, give or take a dot. */
    const isInked = (x: number, y: number): boolean[] =>
      tiles.flatMap(({ shows }, i) => {
        if (x < shows.minX + 1 || x > shows.maxX - 1 || y < shows.minY + 1 || y > shows.maxY - 1) return [];
        const [px, py] = [Math.round((live[0] + x - shows.minX) * 10), Math.round((page.heightMm - live[1] - y + shows.minY) * 10)];
        return [[-1, 0, 1].some((dx) => [-1, 0, 1].some((dy) => inks[i]?.isInk(px + dx, py + dy) === true))];
      });
    const box = loopExtents(part.flat.outline);
    if (box === undefined) throw new Error('no outline');
    for (const { x, y } of part.flat.outline) expect(isInked(x, y), `${x}, ${y}`).not.toEqual([]);
    expect(part.flat.outline.flatMap(({ x, y }) => isInked(x, y)).every(Boolean)).toBe(true);
    // The middle of the overlap of the first two pages, a quarter up: a register mark on both.
    const [a] = tiles;
    if (a === undefined) throw new Error('no page');
    expect(isInked(a.shows.maxX - OVERLAP_MM / 2, a.shows.minY + (a.shows.maxY - a.shows.minY) / 4)).toEqual([true, true]);
  });
});

const isAbout = (dots: number) => (found: number): boolean => Math.abs(found - dots) <= 4;

/** Lengths in dots of the two check lines: from their corner along the bottom and the left of the drawing as far as they are inked without a break. */
const checkLines = (ink: ReturnType<typeof inkOf>): { across: number; up: number } => {
  // The corner lies 14 mm from the left and 28 mm from below; the lines are 0.35 mm wide, the frame beyond thin and grey.
  const [x, y] = [140, ink.height - 280];
  let across = 0;
  while (ink.isInk(x + across, y)) across += 1;
  let up = 0;
  while (ink.isInk(x, y - up)) up += 1;
  return { across, up };
};
