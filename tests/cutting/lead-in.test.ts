import { describe, expect, test } from 'vitest';
import { pierceOf } from '../../src/cutting/lead-in.ts';
import { sheetCuts } from '../../src/cutting/sheet-cuts.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { type Loop, polygon, rectangle } from '../../src/geometry/loop.ts';
import { cutFindings, cutRulesOf } from '../../src/use/laid/cut-rules.ts';
import { DRAWINGS, laidPart, laidSheet } from '../helpers/laid-sheets.ts';

const NEEDS = { longMm: 4, clearMm: 2 };
const SHEET = { outline: rectangle(0, 0, 500, 300), holes: [] };
const pierce = (outline: Loop, others: readonly Loop[] = []) =>
  pierceOf(
    outline,
    { stock: SHEET, others: others.map((o) => ({ outline: o, holes: [] })) },
    NEEDS,
  );

describe('where an outline is pierced', () => {
  test('at the corner nearest to the lower left that has room outside', () => {
    const { outline, roomMm } = pierce(rectangle(50, 50, 100, 60));
    expect([outline[0]?.x, outline[0]?.y, roomMm]).toEqual([50, 50, 4]);
  });

  test('elsewhere where another part lies there, or the edge of the sheet', () => {
    const beside = pierce(rectangle(50, 50, 100, 60), [rectangle(10, 10, 38, 38)]);
    expect([beside.outline[0]?.x, beside.outline[0]?.y]).toEqual([50, 110]);
    const atEdge = pierce(rectangle(2, 2, 100, 60));
    expect([atEdge.outline[0]?.x, atEdge.outline[0]?.y]).toEqual([102, 62]);
    expect(atEdge.roomMm).toBe(4);
  });

  test('in a notch only as far as there is room in it', () => {
    // Every outer corner is taken; only the notch, 3 mm wide, is left.
    const notched = polygon(
      [50, 50],
      [150, 50],
      [150, 110],
      [101.5, 110],
      [101.5, 70],
      [98.5, 70],
      [98.5, 110],
      [50, 110],
    );
    const around = [
      rectangle(30, 30, 140, 18),
      rectangle(30, 112, 140, 20),
      rectangle(30, 48, 18, 64),
      rectangle(152, 48, 18, 64),
    ];
    const { roomMm } = pierce(notched, around);
    expect(roomMm).toBeGreaterThan(1.5);
    expect(roomMm).toBeLessThan(2.2);
  });

  test('behind a straight edge, since a file has to end with one', () => {
    const half: Loop = [
      { x: 100, y: 100, bulge: 0 },
      { x: 160, y: 100, bulge: 1 },
    ];
    const { outline } = pierce(half);
    expect(outline.at(-1)?.bulge).toBe(0);
  });
});

describe('a gap without room for a pierce', () => {
  const rows = (gapMm: number) =>
    laidSheet(
      's235-3-1',
      // Of nine plates the one in the middle has no corner free.
      Array.from({ length: 9 }, (_, i) =>
        laidPart('lid', 20 + (i % 3) * (90 + gapMm), 20 + Math.floor(i / 3) * (60 + gapMm), {
          copy: i + 1,
        }),
      ),
      { gapMm },
    );
  const findings = (gapMm: number) => {
    const sheet = rows(gapMm);
    const rules = cutRulesOf(DEFAULT_SHOP, sheet, 'steel');
    return cutFindings(sheetCuts(sheet, DRAWINGS, rules), rules);
  };

  test('is told with what would do, which then is enough', () => {
    const told = findings(1.5);
    expect(told.map(({ rule, severity }) => [rule, severity])).toEqual([['lead-in-room', 'warn']]);
    expect(told[0]?.message).toContain('lid (5)');
    expect(told[0]?.message).not.toContain('lid (4)');
    const [, enough] = /gap of ([\d.]+) mm, or/.exec(told[0]?.message ?? '') ?? [];
    // 2 kerfs of 1.84 mm or 1.5 thicknesses of 3 mm are 4.5 mm, and a kerf beside the pierce.
    expect(Number(enough)).toBeCloseTo(4.5 + 1.84, 0);
    expect(findings(Number(enough))).toEqual([]);
  });
});

test('long neighbours that no order keeps apart are told on sheet that warps, and only there', () => {
  const strips = laidSheet(
    's235-3-1',
    [0, 1, 2].map((i) => laidPart('tank-strap', 20, 20 + 45 * i, { copy: i + 1 })),
  );
  const told = (warpsUpTo: number) => {
    const cutters = DEFAULT_SHOP.cutters.map((cutter) => ({ ...cutter, warpsUpTo }));
    const rules = cutRulesOf({ ...DEFAULT_SHOP, cutters }, strips, 'steel');
    return cutFindings(sheetCuts(strips, DRAWINGS, rules), rules).map(({ rule }) => rule);
  };
  expect(told(3)).toEqual(['long-neighbours']);
  expect(told(1.5)).toEqual([]);
});
