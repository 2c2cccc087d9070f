import { describe, expect, test } from 'vitest';
import { type Loop, polygon, rectangle } from '../../src/geometry/loop.ts';
import { circle } from '../../src/geometry/shapes.ts';
import { layoutFaults, type Lying } from '../../src/laid/check-layout.ts';

const part = (name: string, outline: Loop, ...holes: readonly Loop[]): Lying => ({
  name,
  outline,
  holes,
});
const SHEET = { outline: rectangle(0, 0, 1000, 500), holes: [circle([900, 250], 40)] };
const kinds = (parts: readonly Lying[], gapMm = 0, edgeMm = 0) =>
  layoutFaults(parts, SHEET, { gapMm, edgeMm, withinMm: 0.01 }).map(({ kind }) => kind);

describe('what is wrong with a layout', () => {
  const a = part('a', rectangle(100, 100, 100, 50));

  test.each([
    ['beside each other, touching', rectangle(200, 100, 80, 50), []],
    ['over each other at a corner', rectangle(190, 140, 80, 50), ['overlap']],
    ['a crossing bar, no corner of either in the other', rectangle(140, 50, 20, 200), ['overlap']],
    ['exactly upon each other', rectangle(100, 100, 100, 50), ['overlap']],
    ['one inside the other', rectangle(120, 110, 10, 10), ['overlap']],
    ['in each other by less than a hundredth', rectangle(199.995, 100, 80, 50), []],
  ])('%s', (_, outline, expected) => {
    expect(kinds([a, part('b', outline)])).toEqual(expected);
    expect(kinds([part('b', outline), a])).toEqual(expected);
  });

  test('a gap is measured between true arcs', () => {
    const [one, other] = [part('a', circle([100, 100], 50)), part('b', circle([203, 100], 50))];
    expect(kinds([one, other], 3)).toEqual([]);
    expect(kinds([one, other], 3.005)).toEqual([]);
    expect(kinds([one, other], 3.02)).toEqual(['gap']);
  });

  test('a part may lie in a hole of another, with the gap all round', () => {
    const ring = part('ring', circle([300, 250], 100), circle([300, 250], 60));
    expect(kinds([ring, part('in', circle([300, 250], 50))], 10)).toEqual([]);
    expect(kinds([ring, part('in', circle([302, 250], 50))], 10)).toEqual(['gap']);
    expect(kinds([ring, part('in', circle([330, 250], 50))], 10)).toEqual(['overlap']);
  });

  test('the sheet has edges, and holes cut already', () => {
    expect(kinds([part('a', rectangle(0, 0, 50, 50))])).toEqual([]);
    expect(kinds([part('a', rectangle(-1, 0, 50, 50))])).toEqual(['outside']);
    expect(kinds([part('a', rectangle(2000, 0, 50, 50))])).toEqual(['outside']);
    expect(kinds([part('a', rectangle(840, 200, 50, 50))])).toEqual(['outside']);
    expect(kinds([part('a', rectangle(800, 150, 199, 200))])).toEqual(['outside']);
    expect(kinds([part('a', rectangle(4, 10, 50, 50))], 0, 5)).toEqual(['edge']);
    expect(kinds([part('a', rectangle(5, 10, 50, 50))], 0, 5)).toEqual([]);
    expect(kinds([part('a', polygon([700, 100], [857, 250], [700, 400]))], 0, 5)).toEqual(['edge']);
  });

  test('clamps hold the lower edge', () => {
    const low = (y: number, clampsMm: number) =>
      layoutFaults([part('a', circle([200, y + 30], 30))], SHEET, {
        gapMm: 0,
        edgeMm: 5,
        clampsMm,
        withinMm: 0.01,
      });
    expect(low(40, 40)).toEqual([]);
    expect(low(39.98, 40)).toEqual([{ kind: 'clamps', part: 'a', mm: expect.closeTo(39.98) }]);
    expect(low(39.98, 0)).toEqual([]);
  });
});
