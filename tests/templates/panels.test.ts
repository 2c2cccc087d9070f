import { describe, expect, test } from 'vitest';
import { checkTemplate, makeOne } from '../helpers/check-template.ts';

checkTemplate('panels');

const SHEET = { material: 's235', rule: 'k:0.42' };

/** Worked by hand: the legs less the deduction 2 s - BA, BA = A pi / 180 (r + K t), K = 0.42. */
describe('blanks worked by hand', () => {
  test.each([
    [90, 94.6916],
    [45, 98.3752],
    [120, 96.9221],
  ])('an angle 60 x 40 of %d degrees is %d long', async (angle, mm) => {
    const { blank } = await makeOne('panels', {
      ...SHEET,
      base: '80 x 60',
      flanges: `leg on top 40 ${angle} up`,
      thickness: 3,
      radius: 3,
    });
    expect(blank.heightMm).toBeCloseTo(mm, 4);
    expect(blank.widthMm).toBe(80);
  });

  test('a zed 40, 50, 30 is 112.9221 long, the third panel on the second', async () => {
    const { blank } = await makeOne('panels', {
      ...SHEET,
      base: '80 x 40',
      flanges: ['web on top 50 90 up', 'foot on web end 30 90 down'],
      thickness: 2,
      radius: 2,
    });
    expect(blank.heightMm).toBeCloseTo(112.9221, 4);
  });

  test('a joggle of 2 mm on 1 mm sheet, its web and both bends', async () => {
    // By hand: s = (1 + 1) tan 22.5 = 0.8284, BA = pi / 4 (1 + 0.42) = 1.1153; the web runs
    // 2 / sin 45 + tan 22.5 = 3.2426; 20 + 3.2426 + 15 less 2 (2 s - BA).
    const { blank } = await makeOne('panels', {
      ...SHEET,
      base: '40 x 20',
      flanges: 'tongue on top 15 45 up joggle 2',
      thickness: 1,
      radius: 1,
    });
    expect(blank.heightMm).toBeCloseTo(20 + 3.24264 + 15 - 2 * (2 * 0.828427 - 1.115265), 4);
  });
});

describe('corners of a tray 100 x 60 x 30 in 2 mm', () => {
  const tray = (corners: string) => ({
    ...SHEET,
    base: '100 x 60',
    flanges: ['front on bottom 30', 'right on right 30', 'back on top 30', 'left on left 30'],
    corners,
    thickness: 2,
    radius: 2,
    cornerGap: 0.5,
  });

  test('open, both are cut back alike', async () => {
    const { flat } = await makeOne('panels', tray(''));
    const width = (id: string): number => {
      const xs = flat?.panels.find((p) => p.id === id)?.region.map(({ x }) => x) ?? [];
      return Math.max(...xs) - Math.min(...xs);
    };
    // The plane between them stands at 45 degrees; of an end cut square the inside edge, a thickness
    // in, comes to half a gap before it: 100 - 2 (2 + 0.25 sqrt 2).
    expect(width('front')).toBeCloseTo(100 - 2 * (2 + 0.25 * Math.SQRT2), 6);
  });

  test('butt, one runs on to the outside and the other ends at its inside', async () => {
    const { result } = await makeOne('panels', tray('front and right butt through right gap 1'));
    expect(result.findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
  });

  test('lapped, the short one carries a tab', async () => {
    const { result } = await makeOne('panels', tray('front and right lapped through right lap 15'));
    expect(result.bends).toHaveLength(5);
    expect(result.bends.at(-1)).toMatchObject({ angleDeg: 90, direction: 'up' });
  });
});
