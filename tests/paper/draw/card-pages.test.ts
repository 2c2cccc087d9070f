import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { usualDatum } from '../../../src/paper/sizes/datum.ts';
import { cardLayout, MARGIN_MM } from '../../../src/paper/draw/card-layout.ts';
import { cardPages } from '../../../src/paper/draw/card-template.ts';
import type { Extents } from '../../../src/geometry/extents.ts';
import type { Piece } from '../../../src/geometry/piece.ts';
import type { FlatPattern } from '../../../src/model/flat.ts';
import type { PaperSize } from '../../../src/model/paper.ts';
import type { Picture, PictureItem } from '../../../src/model/picture.ts';
import { FAMILIES } from '../../../templates/index.ts';
import { loadFamily, make } from '../../helpers/check-template.ts';
import { fuzzRuns } from '../../helpers/extent.ts';
import { pagesOf, labelsOf } from './card.ts';

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
            datum: usualDatum(blankOf(at)),
            flat: blankOf(at),
            drawing: { title: '', items: [] },
            name: 'star',
            hand: 'left',
            about: '',
            paper,
            paperMark: { part: 'star' },
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
    labelsOf(page).flatMap(({ text }) => {
      const place = /^row (\d+) of \d+, sheet (\d+) of \d+$/.exec(text);
      return place === null ? [] : [`row ${place[1]} sheet ${place[2]}`];
    }),
  );
  expect(names).toHaveLength(pages.length);
  expect(pages.length).toBeLessThan(columns * rows);
  const joined = pages.flatMap((page) =>
    labelsOf(page).flatMap(({ text }) => /^joins (.+)$/.exec(text)?.[1] ?? []),
  );
  expect(joined.length).toBeGreaterThan(pages.length);
  expect(joined.filter((name) => !names.includes(name))).toEqual([]);
});
