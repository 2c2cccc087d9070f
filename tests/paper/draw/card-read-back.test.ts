import { writeFileSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { cardLayout, OVERLAP_MM, tileName } from '../../../src/paper/draw/card-layout.ts';
import { loopExtents } from '../../../src/geometry/extents.ts';
import type { MadePart } from '../../../src/use/made-part.ts';
import type { PaperSize } from '../../../src/model/paper.ts';
import { writePdf } from '../../../src/paper/write/pdf.ts';
import { make } from '../../helpers/check-template.ts';
import { tempFolder } from '../../helpers/command.ts';
import { needsOutside } from '../../helpers/needs-outside.ts';
import { hasPoppler, inkOf } from '../../helpers/poppler.ts';
import { pagesOf } from './card.ts';

const HEAD = { title: 'card', mark: 'mark' };
/** 254 dots an inch are 10 a millimetre. */
const DOTS = 254;

describe('read back by Poppler', () => {
  test('the check lines measure 100 mm on every page, both ways; the blank its true size', async (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const [part] = await make('bracket-angle', {
      name: 'seat post',
      legA: 60,
      legB: 40,
      width: 80,
      material: 's275',
      thickness: 3,
      radius: 3,
      holesA: '35,20,M8',
    });
    if (part?.flat === undefined) throw new Error('not made');
    const file = join(tempFolder(), 'card.pdf');
    writeFileSync(file, writePdf(pagesOf(part, 'a4'), HEAD));
    const ink = inkOf(file, 1, DOTS);
    expect(checkLines(ink)).toEqual({
      across: expect.toSatisfy(isAbout(1000)),
      up: expect.toSatisfy(isAbout(1000)),
    });
    // The outline alone inside the live part of the page; its lines are 0.5 mm wide.
    const drawn = ink.box({ left: 300, top: 300, right: 1900, bottom: 2400 });
    if (drawn === undefined) throw new Error('nothing drawn');
    expect([drawn.right - drawn.left, drawn.bottom - drawn.top]).toEqual(
      [part.flat.widthMm, part.flat.heightMm].map((mm) => expect.toSatisfy(isAbout(mm * 10 + 5))),
    );
    const text = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).stdout;
    for (const word of [
      'seat post, LEFT HAND',
      'Print at 100 % (actual size)',
      '100 mm',
      'A 90 UP R3',
      'Ø9',
    ])
      expect(text).toContain(word);
  });

  test('tiles laid over each other by their place give the whole outline, and share their joining marks', async (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const [part] = await make('tray', {
      length: 320,
      depth: 240,
      height: 45,
      material: 'dc01',
      thickness: 1.5,
    });
    if (part?.flat === undefined) throw new Error('not made');
    const file = join(tempFolder(), 'card.pdf');
    const pages = pagesOf(part, 'a4');
    writeFileSync(file, writePdf(pages, HEAD));
    const { columns, rows, live, tiles, page } = cardLayout(
      part.flat.widthMm,
      part.flat.heightMm,
      'a4',
    );
    expect([pages.length, tileName({ column: columns - 1, row: rows - 1 })]).toEqual([
      columns * rows,
      'row 2 sheet 2',
    ]);
    const names = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).stdout;
    for (const { row, column } of tiles)
      expect(names).toContain(`row ${row + 1} of 2, sheet ${column + 1} of 2`);
    const inks = tiles.map((_, i) => inkOf(file, i + 1, DOTS));
    for (const ink of inks)
      expect(checkLines(ink)).toEqual({
        across: expect.toSatisfy(isAbout(1000)),
        up: expect.toSatisfy(isAbout(1000)),
      });
    /** Whether a place of the blank is inked on any page that shows it, give or take a dot. */
    const isInked = (x: number, y: number): boolean[] =>
      tiles.flatMap(({ shows }, i) => {
        if (x < shows.minX + 1 || x > shows.maxX - 1 || y < shows.minY + 1 || y > shows.maxY - 1)
          return [];
        const [px, py] = [
          Math.round((live[0] + x - shows.minX) * 10),
          Math.round((page.heightMm - live[1] - y + shows.minY) * 10),
        ];
        return [
          [-1, 0, 1].some((dx) =>
            [-1, 0, 1].some((dy) => inks[i]?.isInk(px + dx, py + dy) === true),
          ),
        ];
      });
    const box = loopExtents(part.flat.outline);
    if (box === undefined) throw new Error('no outline');
    for (const { x, y } of part.flat.outline) expect(isInked(x, y), `${x}, ${y}`).not.toEqual([]);
    expect(part.flat.outline.flatMap(({ x, y }) => isInked(x, y)).every(Boolean)).toBe(true);
    // The middle of the overlap of the first two pages, a quarter up: the foot of a joining mark on both.
    const [a] = tiles;
    if (a === undefined) throw new Error('no page');
    expect(
      isInked(
        a.shows.maxX - OVERLAP_MM / 2,
        a.shows.minY + (a.shows.maxY - a.shows.minY) / 4 - 2.4,
      ),
    ).toEqual([true, true]);
  });

  test('a long blank is turned on a roll, and is what its pages show together', async (ctx) => {
    needsOutside(ctx, 'poppler', hasPoppler);
    const [part] = await make('bracket-angle', {
      name: 'long lip',
      legA: 60,
      legB: 40,
      width: 500,
      material: 's275',
      thickness: 3,
      radius: 3,
      holesA: '35,20,M8',
    });
    if (part?.flat === undefined) throw new Error('not made');
    const { widthMm, heightMm } = part.flat;
    const [whole, pages] = await Promise.all([drawnAs(part, { rollMm: 200 }), drawnAs(part, 'a4')]);
    expect([
      whole.inks.length,
      whole.layout.isTurned,
      pages.layout.isTurned,
      pages.inks.length > 1,
    ]).toEqual([1, true, false, true]);
    // Marks and edges of pages are the tiles' own, as is the check line at the roll's foot, which
    // is the blank's right end: what the roll shows elsewhere must be on every page that shows its
    // place.
    let seen = 0;
    const missing: [number, number][] = [];
    for (let y = 0; y <= heightMm; y += 0.2) {
      for (let x = 0; x <= widthMm - 2; x += 0.2) {
        const [only] = whole.inkAt(y, widthMm - x, 0);
        if (only !== true) continue;
        seen += 1;
        if (pages.inkAt(x, y, 3).some((is) => !is)) missing.push([x, y]);
      }
    }
    expect(seen).toBeGreaterThan(5000);
    expect(missing).toEqual([]);
  });

  /**
   * A card as dots, ten a millimetre, and what its pages show of a place of the card within some
   * dots.
   */
  const drawnAs = async (part: MadePart, paper: PaperSize) => {
    if (part.flat === undefined) throw new Error('not made');
    const file = join(tempFolder(), 'card.pdf');
    writeFileSync(file, writePdf(pagesOf(part, paper), HEAD));
    const layout = cardLayout(part.flat.widthMm, part.flat.heightMm, paper);
    const inks = layout.tiles.map((_, i) => inkOf(file, i + 1, DOTS));
    const inkAt = (x: number, y: number, within: number): boolean[] =>
      layout.tiles.flatMap(({ shows }, i) => {
        if (x < shows.minX + 1 || x > shows.maxX - 1 || y < shows.minY + 1 || y > shows.maxY - 1)
          return [];
        const [px, py] = [
          Math.round((layout.live[0] + x - shows.minX) * 10),
          Math.round((layout.page.heightMm - layout.live[1] - y + shows.minY) * 10),
        ];
        const near = Array.from({ length: 2 * within + 1 }, (__, k) => k - within);
        return [near.some((dx) => near.some((dy) => inks[i]?.isInk(px + dx, py + dy) === true))];
      });
    return { layout, inks, inkAt };
  };
});

const isAbout =
  (dots: number) =>
  (found: number): boolean =>
    Math.abs(found - dots) <= 4;

/**
 * Lengths in dots of the two check lines: from their corner along the bottom and the left of the
 * drawing as far as they are inked without a break.
 */
const checkLines = (ink: ReturnType<typeof inkOf>): { across: number; up: number } => {
  // The corner lies 14 mm from the left and 28 mm from below; the lines are 0.35 mm wide, the frame
  // beyond thin and grey.
  const [x, y] = [140, ink.height - 280];
  let across = 0;
  while (ink.isInk(x + across, y)) across += 1;
  let up = 0;
  while (ink.isInk(x, y - up)) up += 1;
  return { across, up };
};
