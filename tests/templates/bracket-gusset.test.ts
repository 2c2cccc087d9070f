import { describe, expect, test } from 'vitest';
import { checkTemplate, make, makeOne, rulesOf } from '../helpers/check-template.ts';

checkTemplate('bracket-gusset');

/** By hand with K = 0.42, 3 mm, inside radius 3: s = 6, BA = 6.6916, BD = 5.3084. */
const BY_HAND = {
  base: 120,
  upright: 140,
  width: 60,
  gussetDepth: 100,
  gussetHeight: 110,
  material: 's235',
  thickness: 3,
  radius: 3,
  rule: 'k:0.42',
};

describe('a shelf bracket 120 x 140 x 60, 3 mm', () => {
  test('blank, bends and folded size', async () => {
    const { result, blank, folded } = await makeOne('bracket-gusset', BY_HAND);
    expect(blank.heightMm).toBeCloseTo(260 - 5.3084, 4);
    // A cheek's slope rises from its nose of r + 2 t = 9 to 110 over 100. It is cut 3 + 0.5 from
    // the outside of the upright, where it is 9 + 1.01 x 96.5 = 106.465 high, 100.465 of it flat.
    // The base is flat over 60 - 12.
    expect(blank.widthMm).toBeCloseTo(48 + 2 * (6.6916 + 100.465), 3);
    expect(result.bends.map((b) => [b.id, b.angleDeg, b.direction])).toEqual(
      expect.arrayContaining([
        ['A', 90, 'up'],
        ['B', 90, 'up'],
        ['C', 90, 'up'],
      ]),
    );
    // The upright is the largest panel.
    expect(folded.sizeMm).toEqual([
      expect.closeTo(60, 6),
      expect.closeTo(140, 6),
      expect.closeTo(120, 6),
    ]);
  });

  test('one cheek on the left leaves the right side straight', async () => {
    const { blank, result } = await makeOne('bracket-gusset', { ...BY_HAND, gussetSide: 'left' });
    // The base is flat from 6 to the full width of 60 here.
    expect(blank.widthMm).toBeCloseTo(54 + 6.6916 + 100.465, 3);
    expect(result.bends.map((b) => b.id)).toEqual(['A', 'B']);
  });

  test('holes of both cheeks face each other', async () => {
    const { flat } = await makeOne('bracket-gusset', {
      ...BY_HAND,
      holesLeft: '25,30,10',
      holesRight: '25,30,10',
    });
    const [left, right] = ['holesLeft 1', 'holesRight 1'].map((from) =>
      flat.cutouts.find((h) => h.from === from),
    );
    if (left?.kind !== 'round' || right?.kind !== 'round') throw new Error('two round holes');
    expect(left.centre[1]).toBeCloseTo(right.centre[1], 6);
    // 25 up is 19 of flat cheek beyond the bend, on either side of a base that is flat over 48.
    expect(right.centre[0] - left.centre[0]).toBeCloseTo(48 + 2 * (6.6916 + 19), 3);
  });

  test.each([
    [{ gussetDepth: 121 }, 'gusset-too-deep'],
    [{ gussetHeight: 141 }, 'gusset-too-high'],
    [{ gussetHeight: 9 }, 'gusset-too-low'],
  ])('%o stops the part', async (change, rule) => {
    const [part] = await make('bracket-gusset', { ...BY_HAND, ...change });
    expect(rulesOf(part, 'stop')).toEqual([rule]);
    expect(part?.result.blank).toBeNull();
    expect(part?.files()).toEqual([]);
  });
});
