import { writeFileSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  cardLayout,
  MARGIN_MM,
  OVERLAP_MM,
  tileName,
} from '../../../src/paper/draw/card-layout.ts';
import { cardPages } from '../../../src/paper/draw/card-template.ts';
import { textWidthMm } from '../../../src/paper/draw/text-width.ts';
import { type Extents, loopExtents } from '../../../src/geometry/extents.ts';
import type { Piece } from '../../../src/geometry/piece.ts';
import type { MadePart } from '../../../src/use/made-part.ts';
import type { FlatPattern } from '../../../src/model/flat.ts';
import type { PaperSize } from '../../../src/model/paper.ts';
import type { Label, Picture, PictureItem } from '../../../src/model/picture.ts';
import { writePdf } from '../../../src/paper/write/pdf.ts';
import { FAMILIES } from '../../../templates/index.ts';
import { loadFamily, make } from '../../helpers/check-template.ts';
import { tempFolder } from '../../helpers/command.ts';
import { fuzzRuns } from '../../helpers/fuzz-runs.ts';
import { needsOutside } from '../../helpers/needs-outside.ts';
import { hasPoppler, inkOf } from '../../helpers/poppler.ts';

const pagesOf = (
  { flat, drawing, result: { name, hand } }: MadePart,
  paper: PaperSize,
): Picture[] => {
  if (flat === undefined || drawing === undefined) throw new Error(`${name} is not made`);
  return cardPages({ flat, drawing, name, hand, about: '1 off', paper });
};

describe('how a blank is laid out', () => {
  const sizes = fc.record({
    width: fc.double({ min: 5, max: 3000, noNaN: true }),
    height: fc.double({ min: 5, max: 3000, noNaN: true }),
    paper: fc.constantFrom<PaperSize>('a4', 'a3', 'letter', { rollMm: 610 }),
  });

  test('every place of it lies on a page, neighbours share 10 mm, and nothing lies beyond what a printer prints', () => {
    fc.assert(
      fc.property(sizes, ({ width, height, paper }) => {
        const { page, live, columns, rows, tiles, isTurned } = cardLayout(width, height, paper);
        const [wide, tall] = isTurned ? [height, width] : [width, height];
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
        expect(Math.max(...tiles.map((t) => t.shows.maxX))).toBeGreaterThanOrEqual(wide + 1 - 1e-6);
        expect(Math.min(...tiles.map((t) => t.shows.minY))).toBeLessThanOrEqual(-1 + 1e-6);
        expect(first?.shows.maxY).toBeGreaterThanOrEqual(tall + 1 - 1e-6);
      }),
      { numRuns: fuzzRuns(300) },
    );
  });

  test('across the paper where that takes fewer pages; a roll is as long as it must be', () => {
    expect(cardLayout(260, 150, 'a4')).toMatchObject({
      columns: 1,
      rows: 1,
      page: { widthMm: 297, heightMm: 210 },
    });
    expect(cardLayout(150, 255, 'a4')).toMatchObject({
      columns: 1,
      rows: 1,
      page: { widthMm: 210, heightMm: 297 },
    });
    expect(cardLayout(500, 2400, { rollMm: 610 })).toMatchObject({
      columns: 1,
      rows: 1,
      isTurned: false,
      page: { widthMm: 610 },
    });
    expect(cardLayout(2400, 500, { rollMm: 610 })).toMatchObject({
      columns: 1,
      rows: 1,
      isTurned: true,
      page: { widthMm: 610 },
    });
    // The less paper of two that are both one page.
    expect(cardLayout(300, 560, { rollMm: 610 })).toMatchObject({
      columns: 1,
      rows: 1,
      isTurned: true,
    });
    // 180 by 255 mm go on one sheet upright, and on no sheet as they lie.
    expect(cardLayout(255, 180, 'a4')).toMatchObject({
      columns: 1,
      rows: 1,
      isTurned: true,
      page: { widthMm: 210, heightMm: 297 },
    });
  });

  test('a blank that just fits makes one page, and a hundredth more makes two', () => {
    // 210 less 8 twice and 6 for the check line; 1 mm each way for the width of the lines.
    expect(cardLayout(186, 200, 'a4').tiles).toHaveLength(1);
    expect(cardLayout(186.01, 200, 'a4').tiles).toHaveLength(2);
  });

  test('no page of a roll is longer than 200 inches, which PDF readers take (ISO 32000-1, annex C.2)', () => {
    const { page, tiles } = cardLayout(500, 6000, { rollMm: 610 });
    expect([page.heightMm <= 200 * 25.4, tiles.length]).toEqual([true, 2]);
  });

  test('pages are named by letter and number', () => {
    expect(
      [
        [0, 0],
        [1, 2],
        [25, 0],
        [26, 9],
        [27, 0],
      ].map(([column = 0, row = 0]) => tileName({ column, row })),
    ).toEqual(['A1', 'B3', 'Z1', 'AA10', 'AB1']);
  });
});

/** Strokes of what is drawn, groups opened: ends of pieces in the page's coordinates. */
const pointsOf = (
  items: readonly PictureItem[],
  at: readonly [number, number] = [0, 0],
): (readonly [number, number])[] =>
  items.flatMap((item) => {
    if (item.kind === 'group')
      return pointsOf(item.items, [at[0] + item.at[0], at[1] + item.at[1]]);
    if (item.kind === 'curve')
      return item.pieces.map(({ from }) => [from[0] + at[0], from[1] + at[1]] as const);
    return [];
  });

test.each([...FAMILIES.keys()])(
  '%s: a card of every example, nothing of it off the paper but what a page cuts off',
  async (family) => {
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
  },
);

/** The outline as it lies on the card, and what each page shows of it. */
const shownBy = (
  pages: readonly Picture[],
): { outline: readonly Piece[]; shown: readonly Extents[] } => {
  const groups = pages.flatMap(({ items }) => items.filter((item) => item.kind === 'group'));
  const [first] = groups[0]?.items ?? [];
  if (first?.kind !== 'area') throw new Error('no outline');
  return {
    outline: first.rims[0] ?? [],
    shown: groups.map(({ clip }) => clip).filter((clip) => clip !== undefined),
  };
};

describe('pages of random blanks', () => {
  /** Corners at uneven distances round a middle: simple, and seldom convex. */
  const star = fc.record({
    reach: fc.array(fc.double({ min: 0.15, max: 1, noNaN: true }), { minLength: 3, maxLength: 9 }),
    wide: fc.integer({ min: 20, max: 900 }),
    tall: fc.integer({ min: 20, max: 900 }),
    paper: fc.constantFrom<PaperSize>('a4', 'a3', 'letter', { rollMm: 420 }),
  });

  test('every place of the outline lies on a page, and none is empty', () => {
    fc.assert(
      fc.property(star, ({ reach, wide, tall, paper }) => {
        const spokes = reach.map((r, i): [number, number] => [
          r * wide * Math.cos((2 * Math.PI * i) / reach.length),
          r * tall * Math.sin((2 * Math.PI * i) / reach.length),
        ]);
        const [left, low] = [
          Math.min(...spokes.map(([x]) => x)),
          Math.min(...spokes.map(([, y]) => y)),
        ];
        const at = spokes.map(([x, y]): [number, number] => [x - left, y - low]);
        const { outline, shown } = shownBy(
          cardPages({
            flat: blankOf(at),
            drawing: { title: '', items: [] },
            name: 'star',
            hand: 'left',
            about: '',
            paper,
          }),
        );
        const places = outline.flatMap(({ from, to }) =>
          Array.from({ length: 400 }, (_, i): [number, number] => [
            from[0] + ((to[0] - from[0]) * i) / 400,
            from[1] + ((to[1] - from[1]) * i) / 400,
          ]),
        );
        const isIn = ([x, y]: readonly [number, number], box: Extents, more = 0): boolean =>
          x >= box.minX - more &&
          x <= box.maxX + more &&
          y >= box.minY - more &&
          y <= box.maxY + more;
        expect(places.filter((p) => !shown.some((box) => isIn(p, box, 1e-6)))).toEqual([]);
        // Steps of the outline are 5 mm at most; a page without any of them lies inside it, as the
        // crossings of a ray tell.
        for (const box of shown)
          if (!places.some((p) => isIn(p, box, 5)))
            expect(
              crossings(outline, [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2]) % 2,
            ).toBe(1);
      }),
      { numRuns: fuzzRuns(60) },
    );
  });

  const blankOf = (corners: readonly [number, number][]): FlatPattern => ({
    name: 'star',
    thicknessMm: 1,
    cutouts: [],
    bends: [],
    panels: [],
    areaMm2: 1,
    findings: [],
    outline: corners.map(([x, y]) => ({
      x,
      y,
      bulge: 0,
      origin: { kind: 'edge', panel: 'star', edge: 0 },
    })),
    widthMm: Math.max(...corners.map(([x]) => x)),
    heightMm: Math.max(...corners.map(([, y]) => y)),
  });

  const crossings = (outline: readonly Piece[], [x, y]: readonly [number, number]): number =>
    outline.filter(
      ({ from, to }) =>
        from[1] > y !== to[1] > y &&
        x < from[0] + ((y - from[1]) * (to[0] - from[0])) / (to[1] - from[1]),
    ).length;
});

const labelsOf = ({ items }: Picture): Label[] => items.filter((item) => item.kind === 'label');

test('pages within a large hole are left out, and no page says that it joins one of them', async () => {
  const [ring] = await make('ring', {
    name: 'tank collar',
    outer: 900,
    inner: 840,
    bolts: 0,
    boltCircle: 870,
    material: 'dc01',
    thickness: 2,
  });
  if (ring?.flat === undefined) throw new Error('not made');
  const pages = pagesOf(ring, 'a4');
  const { columns, rows } = cardLayout(ring.flat.widthMm, ring.flat.heightMm, 'a4');
  const names = pages.flatMap((page) =>
    labelsOf(page).flatMap(({ text }) => /^(\w+) of \w+$/.exec(text)?.[1] ?? []),
  );
  expect(names).toHaveLength(pages.length);
  expect(pages.length).toBeLessThan(columns * rows);
  const joined = pages.flatMap((page) =>
    labelsOf(page).flatMap(({ text }) => /^joins (\w+)$/.exec(text)?.[1] ?? []),
  );
  expect(joined.length).toBeGreaterThan(pages.length);
  expect(joined.filter((name) => !names.includes(name))).toEqual([]);
});

test.each(['a4', 'a3', 'letter', { rollMm: 200 }] as const)(
  'texts beside the drawing keep clear of each other and of the edge of the paper: %j',
  async (paper) => {
    for (const [family, inputs] of [
      [
        'tray',
        {
          name: 'a tray with a name as long as anyone is likely to give to one',
          length: 620,
          depth: 440,
          height: 45,
          material: 'dc01',
          thickness: 1.5,
        },
      ],
      ['strap', {}],
    ] as const) {
      const [example] = (await loadFamily(family)).examples;
      for (const part of await make(family, { ...example?.inputs, ...inputs })) {
        for (const page of pagesOf(part, paper)) {
          const boxes = labelsOf(page).map(boxOf);
          for (const [i, a] of boxes.entries()) {
            expect(
              [a.minX >= 4, a.minY >= 4, a.maxX <= page.widthMm - 4, a.maxY <= page.heightMm - 4],
              a.text,
            ).toEqual([true, true, true, true]);
            for (const b of boxes.slice(i + 1))
              expect(
                a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY,
                `${a.text} / ${b.text}`,
              ).toBe(false);
          }
        }
      }
    }
  },
);

/** From the base line to the top of the capitals; texts beside a drawing run level or up. */
const boxOf = ({
  at: [x, y],
  text,
  sizeMm,
  align = 'left',
  isBold,
  angleDeg = 0,
}: Label): Extents & { readonly text: string } => {
  const [long, high] = [textWidthMm(text, sizeMm, isBold), 0.72 * sizeMm];
  const start = { left: 0, middle: -long / 2, right: -long }[align];
  if (angleDeg === 90)
    return { text, minX: x - high, maxX: x, minY: y + start, maxY: y + start + long };
  expect(angleDeg).toBe(0);
  return { text, minX: x + start, maxX: x + start + long, minY: y, maxY: y + high };
};

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
    writeFileSync(file, await writePdf(pagesOf(part, 'a4'), HEAD));
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

  test('tiles laid over each other by their place give the whole outline, and share their register marks', async (ctx) => {
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
    writeFileSync(file, await writePdf(pages, HEAD));
    const { columns, rows, live, tiles, page } = cardLayout(
      part.flat.widthMm,
      part.flat.heightMm,
      'a4',
    );
    expect([pages.length, tileName({ column: columns - 1, row: rows - 1 })]).toEqual([
      columns * rows,
      'B2',
    ]);
    const names = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).stdout;
    for (const tile of tiles) expect(names).toContain(`${tileName(tile)} of B2`);
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
    // The middle of the overlap of the first two pages, a quarter up: a register mark on both.
    const [a] = tiles;
    if (a === undefined) throw new Error('no page');
    expect(
      isInked(a.shows.maxX - OVERLAP_MM / 2, a.shows.minY + (a.shows.maxY - a.shows.minY) / 4),
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
    writeFileSync(file, await writePdf(pagesOf(part, paper), HEAD));
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
