import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { polygon, rectangle } from '../../src/geometry/loop.ts';
import { circle } from '../../src/geometry/shapes.ts';
import { cutList, type ListedBlank } from '../../src/cutlist/cut-list.ts';
import { leastOnLines } from '../../src/cutlist/line-measure.ts';
import { leastBins, leastSheets } from '../../src/cutlist/sheet-bound.ts';
import { silhouetteOf } from '../../src/cutlist/silhouette.ts';
import type { Loop } from '../../src/geometry/loop.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import type { Cutout } from '../../src/model/part.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { panel, part } from '../helpers/parts.ts';
import { shopWith } from '../helpers/shops.ts';
import { type Cells, fewestSheets } from './packing.ts';

const flatOf = (outline: Loop, cutouts: readonly Cutout[] = []) =>
  flatten(part([panel('plate', outline, cutouts)], []), { id: 'k', k: 0.42 });
const shapeOf = (outline: Loop, cutouts: readonly Cutout[] = []) =>
  silhouetteOf(flatOf(outline, cutouts));
const laid = (quantity: number, width: number, height: number) => ({
  shape: shapeOf(rectangle(0, 0, width, height)),
  quantity,
});

describe('a bound that lengths make, and area alone does not', () => {
  // Each worked out by hand on the sheet of 2000 x 1000.
  test.each([
    [
      'two of 1200 x 600, of which neither two side by side nor two in a row go on one',
      [laid(2, 1200, 600)],
      2,
    ],
    ['five straps of 1900 x 400: two side by side', [laid(5, 1900, 400)], 3],
    ['three of 990 x 490: two in a row and two of these rows', [laid(3, 990, 490)], 1],
    ['one strap that just goes', [laid(1, 2000, 50)], 1],
    ['21 straps of 1990 x 50: 20 side by side', [laid(21, 1990, 50)], 2],
    [
      'a wide one and a strap that finds no room beside it',
      [laid(1, 1900, 700), laid(1, 1950, 320)],
      2,
    ],
    ['the same and a narrower strap', [laid(1, 1900, 700), laid(1, 1950, 290)], 1],
    ['seven of 700 x 600: two in a row, one beside the other across', [laid(7, 700, 600)], 3],
    ['nothing', [], 0],
  ])('%s', (_, blanks, sheets) => {
    expect(leastSheets(blanks, 2000, 1000)).toBe(sheets);
    // A sheet has no front.
    expect(leastSheets(blanks, 1000, 2000)).toBe(sheets);
  });

  test('a hole is room for what goes through it, and for nothing else', () => {
    const frame = shapeOf(rectangle(0, 0, 1900, 900), [
      { kind: 'loop', from: 'window', loop: rectangle(50, 50, 1800, 800) },
    ]);
    expect(leastSheets([{ shape: frame, quantity: 1 }, laid(1, 1700, 700)], 2000, 1000)).toBe(1);
    expect(leastSheets([{ shape: frame, quantity: 1 }, laid(1, 1950, 200)], 2000, 1000)).toBe(2);
    const drilled = shapeOf(rectangle(0, 0, 1200, 600), [
      { kind: 'round', from: 'bolt', centre: [600, 300], diameterMm: 90 },
    ]);
    expect(leastSheets([{ shape: drilled, quantity: 2 }], 2000, 1000)).toBe(2);
  });

  test('blanks that nest are not kept apart by the rectangles round them', () => {
    const angle = shapeOf(
      polygon([0, 0], [1500, 0], [1500, 300], [300, 300], [300, 900], [0, 900]),
    );
    // Two of them lie in 1800 x 1000, one turned round into the other; their rectangles are 1.35 of
    // a sheet together.
    expect(leastSheets([{ shape: angle, quantity: 2 }], 2000, 1000)).toBe(1);
  });
});

describe('true', () => {
  const SHAPES: readonly Cells[] = [
    ['#'],
    ['##'],
    ['###'],
    ['####'],
    ['#####'],
    ['##', '##'],
    ['###', '###'],
    ['####', '####'],
    ['###', '###', '###'],
    ['##', '# '],
    ['###', '#  '],
    ['####', '#   ', '#   '],
    ['# #', '###'],
    ['###', '# #', '###'],
    ['####', '#  #', '####'],
    [' # ', '###', ' # '],
    ['## ', ' ##'],
  ];
  /** Once round a shape of cells of 100 mm that hang together by their sides, and its one hole. */
  const outlineOf = (cells: Cells): { readonly outline: Loop; readonly holes: readonly Loop[] } => {
    const isMetal = (x: number, y: number): boolean => cells[cells.length - 1 - y]?.[x] === '#';
    const next = new Map<string, Vec2[]>();
    const edge = (from: Vec2, to: Vec2): void =>
      void next.set(String(from), [...(next.get(String(from)) ?? []), to]);
    for (let y = 0; y < cells.length; y++) {
      for (let x = 0; x < 6; x++) {
        if (!isMetal(x, y)) continue;
        if (!isMetal(x, y - 1)) edge([x, y], [x + 1, y]);
        if (!isMetal(x + 1, y)) edge([x + 1, y], [x + 1, y + 1]);
        if (!isMetal(x, y + 1)) edge([x + 1, y + 1], [x, y + 1]);
        if (!isMetal(x - 1, y)) edge([x, y + 1], [x, y]);
      }
    }
    const loops: Vec2[][] = [];
    for (const [start] of next) {
      const loop: Vec2[] = [];
      for (let at = start.split(',').map(Number) as unknown as Vec2; ;) {
        const to = next.get(String(at))?.pop();
        if (to === undefined) break;
        loop.push([at[0] * 100, at[1] * 100]);
        at = to;
      }
      if (loop.length > 0) loops.push(loop);
    }
    const area = (l: readonly Vec2[]): number =>
      l.reduce(
        (sum, [x, y], i) =>
          sum + x * (l[(i + 1) % l.length]?.[1] ?? 0) - y * (l[(i + 1) % l.length]?.[0] ?? 0),
        0,
      );
    const straight = (l: readonly Vec2[]): Loop =>
      polygon(
        ...l.filter(([x, y], i) => {
          const [before, after] = [l.at(i - 1) as Vec2, l[(i + 1) % l.length] as Vec2];
          return (before[0] - x) * (after[1] - y) !== (before[1] - y) * (after[0] - x);
        }),
      );
    return {
      outline: straight(loops.find((l) => area(l) > 0) as Vec2[]),
      holes: loops.filter((l) => area(l) < 0).map((l) => straight(l.toReversed())),
    };
  };
  const shapes = SHAPES.map((cells) => {
    const { outline, holes } = outlineOf(cells);
    return {
      cells,
      shape: shapeOf(
        outline,
        holes.map((loop, i) => ({ kind: 'loop' as const, from: `hole ${i}`, loop })),
      ),
    };
  });

  test('the shapes are what they are drawn as', () => {
    for (const { cells, shape } of shapes)
      expect(shape.areaMm2).toBeCloseTo(
        [...cells.join('')].filter((c) => c === '#').length * 10_000,
        6,
      );
    expect(shapes.map(({ shape }) => shape.holes.length).filter((n) => n > 0)).toEqual([1, 1]);
  });

  test('no layout takes fewer sheets, of any shapes, found by trying all that lie square', () => {
    let sharper = 0;
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...shapes), { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 3, max: 6 }),
        fc.integer({ min: 3, max: 5 }),
        (some, columns, rows) => {
          const blanks = some.filter(({ cells }) => fewestFit(cells, columns, rows));
          fc.pre(blanks.length > 0);
          const bound = leastSheets(
            blanks.map(({ shape }) => ({ shape, quantity: 1 })),
            columns * 100,
            rows * 100,
          );
          const least = fewestSheets(
            blanks.map(({ cells }) => cells),
            columns,
            rows,
          );
          expect(bound).toBeLessThanOrEqual(least);
          const byArea = Math.ceil(
            blanks.reduce((sum, { shape }) => sum + shape.areaMm2, 0) / (columns * rows * 10_000),
          );
          expect(bound).toBeGreaterThanOrEqual(byArea);
          if (bound > byArea) sharper += 1;
        },
      ),
      { numRuns: fuzzRuns(250) },
    );
    expect(sharper).toBeGreaterThan(shareOf(0));
  });

  // The smallest squares that hold n unit squares, some of them turned: E. Friedman, Packing Unit
  // Squares in Squares, Electronic Journal of Combinatorics, Dynamic Survey 7 (from memory). Lying
  // square, one fewer would go in.
  test.each([
    [5, 2 + Math.SQRT1_2],
    [10, 3 + Math.SQRT1_2],
    [19, 3 + (4 * Math.SQRT2) / 3],
  ])('%d squares that go into a square of %d, turned, take one sheet', (count, side) => {
    expect(leastSheets([laid(count, 100, 100)], side * 100, side * 100)).toBe(1);
  });

  const fewestFit = (cells: Cells, columns: number, rows: number): boolean => {
    const [w, h] = [Math.max(...cells.map((row) => row.length)), cells.length];
    return (w <= columns && h <= rows) || (h <= columns && w <= rows);
  };

  test('bins: never more than the fewest there are, by trying all', () => {
    const fewest = (sizes: readonly number[]): number => {
      const fits = (bins: readonly number[], i: number): boolean =>
        i === sizes.length ||
        bins.some(
          (left, b) =>
            left >= (sizes[i] as number) &&
            bins.indexOf(left) === b &&
            fits(bins.with(b, left - (sizes[i] as number)), i + 1),
        );
      for (let n = 1; ; n++) if (fits(Array<number>(n).fill(12), 0)) return n;
    };
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 1, maxLength: 9 }),
        (sizes) => {
          const bound = leastBins(sizes.map((size) => ({ size: size / 12, quantity: 1 })));
          expect(bound).toBeLessThanOrEqual(fewest(sizes));
          expect(bound).toBeGreaterThanOrEqual(
            Math.ceil(sizes.reduce((sum, s) => sum + s, 0) / 12 - 1e-9),
          );
        },
      ),
      { numRuns: fuzzRuns(500) },
    );
    // Six over a half take six, though they are 3.3 bins.
    expect(leastBins([{ size: 0.55, quantity: 6 }])).toBe(6);
  });

  test('no turn and no place takes less of the lines, of thousands that are tried', () => {
    const blank = fc.record({
      w: fc.integer({ min: 20, max: 400 }),
      h: fc.integer({ min: 20, max: 400 }),
      cut: fc.integer({ min: 0, max: 90 }),
    });
    fc.assert(
      fc.property(
        blank,
        fc.integer({ min: 100, max: 400 }),
        fc.integer({ min: 100, max: 400 }),
        fc.integer({ min: 1, max: 3 }),
        fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })),
        ({ w, h, cut }, along, across, lines, chance) => {
          const c = (cut / 200) * Math.min(w, h);
          // A rectangle with a corner off; the metal that is asked is all of it.
          const corners: Vec2[] =
            c === 0
              ? [
                  [0, 0],
                  [w, 0],
                  [w, h],
                  [0, h],
                ]
              : [
                  [0, 0],
                  [w, 0],
                  [w, h - c],
                  [w - c, h],
                  [0, h],
                ];
          const { hull, core } = shapeOf(polygon(...corners));
          if (core === undefined) throw new Error('no rectangle');
          const least = leastOnLines({ hull, core }, along, across, lines);
          const draw = (): number => chance.next().value;
          for (let i = 0; i < 300; i++) {
            const rad =
              i % 3 === 0
                ? (Math.floor(draw() * 4) * Math.PI) / 2 + (draw() - 0.5) / 50
                : 2 * Math.PI * draw();
            const turnedCorners = corners.map(([x, y]): Vec2 => [
              x * Math.cos(rad) - y * Math.sin(rad),
              x * Math.sin(rad) + y * Math.cos(rad),
            ]);
            const [xs, ys] = [turnedCorners.map((p) => p[0]), turnedCorners.map((p) => p[1])];
            const [minX, maxX, high] = [
              Math.min(...xs),
              Math.max(...xs),
              Math.max(...ys) - Math.min(...ys),
            ];
            if (maxX - minX > along || high > across) continue;
            const shift = draw() * (along - (maxX - minX)) - minX;
            const taken = Array.from({ length: lines }, (_, k) =>
              chordAt(turnedCorners, ((k + 1) * along) / (lines + 1) - shift),
            ).reduce((sum, l) => sum + l, 0);
            expect(least).toBeLessThanOrEqual(taken + 1e-6);
          }
        },
      ),
      { numRuns: fuzzRuns(150) },
    );
  });

  /** How much of the upright line at x lies in a convex polygon. */
  const chordAt = (corners: readonly Vec2[], x: number): number => {
    const ys = corners.flatMap(([ax, ay], i) => {
      const [bx, by] = corners[(i + 1) % corners.length] as Vec2;
      return ax !== bx && (ax - x) * (bx - x) <= 0 ? [ay + ((by - ay) * (x - ax)) / (bx - ax)] : [];
    });
    return ys.length === 0 ? 0 : Math.max(...ys) - Math.min(...ys);
  };

  test('the rectangle of metal that is found lies in the metal, and is all of a rectangle', () => {
    expect(shapeOf(rectangle(0, 0, 70, 30)).core).toEqual({ minX: 0, minY: 0, maxX: 70, maxY: 30 });
    const disc = shapeOf(circle([0, 0], 100)).core;
    expect(
      Math.hypot((disc?.maxX ?? 0) - (disc?.minX ?? 0), (disc?.maxY ?? 0) - (disc?.minY ?? 0)),
    ).toBeLessThanOrEqual(200 + 1e-9);
    // The largest square in a circle is 2 r^2.
    expect(
      ((disc?.maxX ?? 0) - (disc?.minX ?? 0)) * ((disc?.maxY ?? 0) - (disc?.minY ?? 0)),
    ).toBeGreaterThan(0.95 * 2 * 100 ** 2);
    const { core, solid } = shapeOf(rectangle(0, 0, 300, 100), [
      { kind: 'round', from: 'bolt', centre: [250, 50], diameterMm: 40 },
    ]);
    expect([core?.maxX, solid?.maxX]).toEqual([300, expect.closeTo(230, 0)]);
  });
});

describe('in a cut list', () => {
  const listed = (name: string, width: number, height: number, quantity = 1): ListedBlank => {
    const flat = flatOf(rectangle(0, 0, width, height));
    const blank = {
      widthMm: width,
      heightMm: height,
      areaMm2: width * height,
      cutLengthMm: 1,
      pierces: 1,
      massKg: 1,
      datum: {
        x: { kind: 'edge', name: 'the left edge', at: [0, 0], towards: [1, 0] },
        y: { kind: 'edge', name: 'the bottom edge', at: [0, 0], towards: [0, 1] },
      },
      holes: [],
    } as const;
    return {
      flat,
      materialFamily: 'steel',
      result: {
        name,
        family: 'plate',
        piece: null,
        hand: 'left',
        quantity,
        material: { id: 's235', thicknessMm: 2, densityKgM3: 7850 },
        rule: 'k:0.42',
        blank,
        bends: [],
        folded: null,
        foldPlan: null,
        proof: null,
        fit: null,
        findings: [],
      },
    };
  };
  const STOCK = shopWith(
    {},
    {
      sheets: [
        { length: 2000, width: 1000, price: 50 },
        { length: 2500, width: 1250 },
      ],
    },
  );
  const groupOf = (...blanks: ListedBlank[]) => {
    const [group] = cutList(blanks, STOCK);
    return { sheets: group?.sheets, tooLarge: group?.tooLarge, otherSheets: group?.otherSheets };
  };

  test('the first sheet on which all go', () => {
    expect(groupOf(listed('plate', 900, 600, 4))).toEqual({
      sheets: { lengthMm: 2000, widthMm: 1000, count: 2, cost: 100 },
      tooLarge: [],
      otherSheets: [],
    });
    expect(groupOf(listed('plate', 900, 600), listed('strap', 2400, 60))).toEqual({
      sheets: { lengthMm: 2500, widthMm: 1250, count: 1, cost: null },
      tooLarge: [],
      otherSheets: [],
    });
  });

  test('a strap longer than any sheet is told, and no sheet is counted for it', () => {
    expect(groupOf(listed('plate', 900, 600), listed('strap', 2900, 60))).toEqual({
      sheets: { lengthMm: 2000, widthMm: 1000, count: 1, cost: 50 },
      tooLarge: ['strap'],
      otherSheets: [],
    });
    expect(groupOf(listed('strap', 2900, 60))).toEqual({
      sheets: null,
      tooLarge: ['strap'],
      otherSheets: [],
    });
    // From corner to corner it is 2795 mm, and a narrow strap goes there.
    expect(groupOf(listed('strap', 2700, 60)).tooLarge).toEqual([]);
  });

  test('where no sheet takes all, what goes on another is told', () => {
    const stock = shopWith(
      {},
      {
        sheets: [
          { length: 3000, width: 300 },
          { length: 1250, width: 1250 },
        ],
      },
    );
    const [group] = cutList(
      [listed('strap', 2800, 60), listed('plate', 1000, 1000), listed('lid', 500, 500)],
      stock,
    );
    expect(group).toMatchObject({
      sheets: { lengthMm: 1250, widthMm: 1250, count: 1 },
      tooLarge: [],
      otherSheets: [{ name: 'strap', lengthMm: 3000, widthMm: 300 }],
    });
  });
});
