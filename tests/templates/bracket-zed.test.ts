import { describe, expect, test } from 'vitest';
import { checkTemplate, makeOne } from '../helpers/check-template.ts';

checkTemplate('bracket-zed');

/** By hand with K = 0.42, 2 mm, inside radius 2: s = 4, BA = 4.46106, BD = 3.5389 each. */
const BY_HAND = {
  flangeA: 40,
  offset: 50,
  flangeB: 30,
  width: 60,
  material: 's235',
  thickness: 2,
  radius: 2,
  rule: 'k:0.42',
};

describe('a zed 40 / 50 / 30, 2 mm', () => {
  test('blank, bends and folded size: 40 + 30 - 2 wide, 50 high', async () => {
    const { result, blank, folded } = await makeOne('bracket-zed', BY_HAND);
    expect(blank.heightMm).toBeCloseTo(112.9221, 4);
    expect(result.bends.map((b) => [b.id, b.direction, b.centreLine[0][1]])).toEqual([
      ['A', 'up', expect.closeTo(36 + 2.23053, 4)],
      ['B', 'down', expect.closeTo(36 + 4.46106 + 42 + 2.23053, 4)],
    ]);
    // The web is the largest panel: its height runs along y, the width over both flanges along z.
    expect(folded.sizeMm).toEqual([
      expect.closeTo(60, 6),
      expect.closeTo(50, 6),
      expect.closeTo(68, 6),
    ]);
  });

  test('holes', async () => {
    const { flat } = await makeOne('bracket-zed', {
      ...BY_HAND,
      holesA: '25,10,5',
      holesWeb: '20,30,6',
      holesB: '18,50,7',
    });
    const centres = flat.cutouts.map((h) => (h.kind === 'round' ? [h.from, ...h.centre] : []));
    expect(centres).toEqual(
      expect.arrayContaining([
        ['holesA 1', expect.closeTo(10, 6), expect.closeTo(15, 6)],
        ['holesWeb 1', expect.closeTo(30, 6), expect.closeTo(40.46106 + 16, 4)],
        ['holesB 1', expect.closeTo(50, 6), expect.closeTo(86.92212 + 14, 4)],
      ]),
    );
  });

  test('at 45 degrees', async () => {
    const { blank } = await makeOne('bracket-zed', { ...BY_HAND, bendAngle: 45 });
    // s = 4 tan 22.5 = 1.65685, BA = pi/4 2.84 = 2.23053.
    expect(blank.heightMm).toBeCloseTo(120 - 2 * (2 * 1.65685 - 2.23053), 4);
  });
});
