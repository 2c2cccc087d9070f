import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import { laidItems } from '../../src/cutting/laid-items.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import type { DrawingItem } from '../../src/model/drawing.ts';
import { fixedRuns } from '../helpers/extent.ts';
import { DRAWINGS } from '../helpers/laid-sheets.ts';

const ANGLE = DRAWINGS.get('lamp-bracket') ?? { title: '', items: [] };
const laid = (turnDeg: number, turnedOver: boolean) =>
  laidItems(ANGLE, { turnDeg, turnedOver, xMm: 300, yMm: 200 });
const texts = (items: readonly DrawingItem[]) =>
  items.flatMap((item) => (item.kind === 'text' ? [item] : []));

describe('a part as it lies', () => {
  test('it is turned over first, then turned about its own 0,0, then moved', () => {
    const [hole] = laid(90, true).filter((item) => item.kind === 'circle');
    // (20, 20) turned over is (-20, 20), by a quarter turn (-20, -20).
    expect(hole).toMatchObject({ centre: [280, 180] });
  });

  test('turned over, a fold up has become a fold down, on its layer and in its words', () => {
    const [line] = laid(0, true).filter((item) => item.kind === 'line');
    expect(line?.role).toBe('fold-down');
    expect(texts(laid(0, true)).map(({ text }) => text)).toEqual(['A 90 DOWN R3']);
    const same = laid(90, false).find((item) => item.kind === 'line');
    expect(same?.role).toBe('fold-up');
    expect(texts(laid(90, false)).map(({ text }) => text)).toEqual(['A 90 UP R3']);
  });

  test('turned over twice it is as it was', () => {
    const over = { turnDeg: 0, turnedOver: true, xMm: 0, yMm: 0 };
    const twice = laidItems({ title: '', items: laidItems(ANGLE, over) }, over);
    const was = ANGLE.items.filter((item) => item.kind !== 'text');
    expect(twice.filter((item) => item.kind !== 'text')).toEqual(was);
  });

  test('loops stay counter-clockwise; texts read from below or from the right', () => {
    fc.assert(
      fc.property(fc.double({ min: -720, max: 720, noNaN: true }), fc.boolean(), (turn, over) => {
        const items = laid(turn, over);
        for (const item of items)
          if (item.kind === 'loop') expect(signedArea(item.loop)).toBeGreaterThan(0);
        for (const { angleDeg } of texts(items)) {
          expect(angleDeg).toBeGreaterThan(-90 - 1e-6);
          expect(angleDeg).toBeLessThan(90 + 1e-5);
        }
      }),
      { numRuns: fixedRuns(100) },
    );
  });

  test('a text stays in the box that it took up, which moves with the part', () => {
    // The text stands between 4 and 26.5 of the part's own x, over 54 to 56.5 of its y.
    for (const [turn, over, x, y] of [
      [0, true, 300 - 26.5, 200 + 54],
      [180, false, 300 - 26.5, 200 - 56.5],
      [180, true, 300 + 4, 200 - 56.5],
    ] as const) {
      const [text] = texts(laid(turn, over));
      const wide = (over ? 'A 90 DOWN R3' : 'A 90 UP R3').length * 0.9 * 2.5;
      const ends = [text?.at[0] ?? NaN, (text?.at[0] ?? NaN) + wide];
      expect(text?.angleDeg).toBeCloseTo(0, 9);
      expect(text?.at[1]).toBeCloseTo(y, 6);
      // Either end is where the box had one.
      expect(
        Math.min(Math.abs((ends[0] as number) - x), Math.abs((ends[1] as number) - x - 22.5)),
      ).toBeLessThan(1e-6);
    }
  });
});
