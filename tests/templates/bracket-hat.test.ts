import { describe, expect, test } from 'vitest';
import { checkTemplate, makeOne } from '../helpers/check-template.ts';

checkTemplate('bracket-hat');

/** By hand with K = 0.42, 2 mm, inside radius 2: s = 4, BA = 4.46106, BD = 3.53894 each. */
const BY_HAND = {
  crown: 50,
  height: 30,
  footA: 25,
  footB: 20,
  width: 40,
  material: 's235',
  thickness: 2,
  radius: 2,
  rule: 'k:0.42',
};

describe('a hat with crown 50, height 30, feet 25 and 20, 2 mm', () => {
  test('blank, bends and folded size: crown + feet - 2 thicknesses wide', async () => {
    const { result, blank, folded } = await makeOne('bracket-hat', BY_HAND);
    expect(blank.heightMm).toBeCloseTo(155 - 4 * 3.53894, 3);
    const ba = 4.46106;
    expect(result.bends.map((b) => [b.id, b.direction, b.centreLine[0][1]])).toEqual([
      ['A', 'up', expect.closeTo(21 + ba / 2, 4)],
      ['B', 'down', expect.closeTo(21 + ba + 22 + ba / 2, 4)],
      ['C', 'down', expect.closeTo(21 + 2 * ba + 22 + 42 + ba / 2, 4)],
      ['D', 'up', expect.closeTo(21 + 3 * ba + 22 + 42 + 22 + ba / 2, 4)],
    ]);
    expect(folded.sizeMm).toEqual([
      expect.closeTo(40, 6),
      expect.closeTo(91, 6),
      expect.closeTo(30, 6),
    ]);
  });

  test('holes of crown, sides and feet', async () => {
    const { flat } = await makeOne('bracket-hat', {
      ...BY_HAND,
      holesCrown: '25,20,6',
      holesA: '15,10,5',
      holesB: '15,10,5',
      holesFootA: '15,20,5',
      holesFootB: '14,20,5',
    });
    const heights = Object.fromEntries(
      flat.cutouts.map((h) => [h.from, h.kind === 'round' ? h.centre[1] : 0]),
    );
    const ba = 4.46106;
    const crownStart = 21 + ba + 22 + ba;
    expect(heights['holesCrown 1']).toBeCloseTo(crownStart + 21, 4);
    // Sides: 15 from the crown's corner is 11 from the tangent line, away from the crown.
    expect(heights['holesA 1']).toBeCloseTo(crownStart - ba - 11, 4);
    expect(heights['holesB 1']).toBeCloseTo(crownStart + 42 + ba + 11, 4);
    expect(heights['holesFootA 1']).toBeCloseTo(25 - 15, 4);
    expect(heights['holesFootB 1']).toBeCloseTo(crownStart + 42 + ba + 22 + ba + 10, 4);
  });

  test('the other hand is the mirror image', async () => {
    const inputs = { ...BY_HAND, holesCrown: '25,10,6' };
    const left = await makeOne('bracket-hat', inputs);
    const right = await makeOne('bracket-hat', { ...inputs, hand: 'right' });
    const [l, r] = [left.flat.cutouts[0], right.flat.cutouts[0]];
    expect(l?.kind === 'round' && l.centre[0]).toBeCloseTo(10, 6);
    expect(r?.kind === 'round' && r.centre[0]).toBeCloseTo(30, 6);
    expect(right.result.bends.map((b) => b.direction)).toEqual(
      left.result.bends.map((b) => b.direction),
    );
  });
});
