import { describe, expect, test } from 'vitest';
import { checkTemplate, makeOne } from '../helpers/check-template.ts';

checkTemplate('bracket-channel');

/**
 * By hand with K = 0.42, 2 mm, inside radius 2: s = 4, BA = pi/2 (2 + 0.84) = 4.46106, BD =
 * 3.53894.
 */
const BY_HAND = {
  web: 80,
  flangeA: 40,
  flangeB: 30,
  width: 60,
  material: 's235',
  thickness: 2,
  radius: 2,
  rule: 'k:0.42',
};

describe('a channel 40 / 80 / 30, 2 mm', () => {
  test('blank, bends and folded size', async () => {
    const { result, blank, folded } = await makeOne('bracket-channel', BY_HAND);
    expect(blank.heightMm).toBeCloseTo(150 - 2 * 3.53894, 4);
    expect(blank.widthMm).toBeCloseTo(60, 6);
    // Flange A is flat up to 36; the web is flat over 72.
    const heights = result.bends.map((b) => [b.id, b.direction, b.centreLine[0][1]]);
    expect(heights).toEqual([
      ['A', 'up', expect.closeTo(36 + 2.23053, 4)],
      ['B', 'up', expect.closeTo(36 + 4.46106 + 72 + 2.23053, 4)],
    ]);
    expect(folded.sizeMm[0]).toBeCloseTo(60, 6);
    expect(folded.sizeMm[1]).toBeCloseTo(80, 6);
    expect(folded.sizeMm[2]).toBeCloseTo(40, 6);
  });

  test('holes of the web are measured from the outside of flange A', async () => {
    const { flat } = await makeOne('bracket-channel', {
      ...BY_HAND,
      holesA: '20,10,5',
      holesWeb: '40,30,6',
      holesB: '20,50,7',
    });
    const centres = flat.cutouts.map((h) => (h.kind === 'round' ? [h.from, ...h.centre] : []));
    // Flange A: 40 - 20. Web: its tangent line lies at 40.46106, 4 inside its mould line. Flange B
    // likewise at 116.92212.
    expect(centres).toEqual(
      expect.arrayContaining([
        ['holesA 1', expect.closeTo(10, 6), expect.closeTo(20, 6)],
        ['holesWeb 1', expect.closeTo(30, 6), expect.closeTo(40.46106 + 36, 4)],
        ['holesB 1', expect.closeTo(50, 6), expect.closeTo(116.92212 + 16, 4)],
      ]),
    );
  });

  test('flanges leaning out by 30 degrees: setbacks of 4 tan 15', async () => {
    const { blank, folded } = await makeOne('bracket-channel', { ...BY_HAND, bendAngle: 30 });
    const [s, ba] = [1.0718, 1.48702];
    expect(blank.heightMm).toBeCloseTo(150 - 2 * (2 * s - ba), 4);
    // 80 + 40 cos 30 + 30 cos 30 wide, 40 sin 30 + 2 cos 30 high.
    expect(folded.sizeMm[1]).toBeCloseTo(140.6218, 4);
    expect(folded.sizeMm[2]).toBeCloseTo(21.7321, 4);
  });
});
