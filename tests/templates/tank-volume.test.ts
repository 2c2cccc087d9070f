import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { warmingDeg } from '../../templates/tank/fluids.ts';
import {
  type Cavity,
  depthAtMm,
  floorMm,
  grossLitres,
  levelOf,
  litresBelow,
  litresBetween,
  riseMm,
  slopeDeg,
} from '../../templates/tank/volume.ts';
import { published } from '../helpers/published.ts';

const BOX: Cavity = { lengthMm: 600, widthMm: 400, deepMm: 300, shallowMm: 300, floorRadiusMm: 0 };
/** 3-4-5: the floor rises 300 over 400, 500 long. */
const WEDGE: Cavity = {
  lengthMm: 400,
  widthMm: 100,
  deepMm: 500,
  shallowMm: 200,
  floorRadiusMm: 0,
};

const of = (id: string) => {
  const { given, expect: asked, tolerance } = published('tank', id);
  return { given, asked: asked as Readonly<Record<string, number>>, tolerance };
};

describe('a box', () => {
  test('holds length by width by depth', () => {
    const { given, asked, tolerance } = of('v1');
    const [lengthMm, widthMm, deepMm] = given['box_mm'] as [number, number, number];
    const box = { lengthMm, widthMm, deepMm, shallowMm: deepMm, floorRadiusMm: 0 };
    const whole = grossLitres(box);
    expect(Math.abs(whole - (asked['litres'] ?? NaN))).toBeLessThan(tolerance);
    expect(Math.abs(0.95 * whole - (asked['fill95_l'] ?? NaN))).toBeLessThan(tolerance);
    // 57.8 kg is printed to a tenth.
    expect(0.95 * whole * 0.845).toBeCloseTo(asked['diesel_kg_at_845'] ?? NaN, 1);
    for (const dip of [0, 1, 75, 299, 300, 400])
      expect(litresBelow(box, dip)).toBeCloseTo(0.24 * Math.min(dip, 300), 9);
  });

  test('with rounded corners at both ends of the floor loses r2 (1 - pi / 4) at each', () => {
    const lost = 2 * 50 * 50 * (1 - Math.PI / 4) * 400 * 1e-6;
    expect(grossLitres({ ...BOX, floorRadiusMm: 50 })).toBeCloseTo(72 - lost, 9);
    expect(litresBelow({ ...BOX, floorRadiusMm: 50 }, 50)).toBeCloseTo(12 - lost, 9);
  });

  test('whose corners make its floor half a circle dips like a lying cylinder', () => {
    const { given, asked, tolerance } = of('v5');
    const { R, L } = given['cylinder'] as { R: number; L: number };
    const trough: Cavity = {
      lengthMm: 2 * R,
      widthMm: L,
      deepMm: 2 * R,
      shallowMm: 2 * R,
      floorRadiusMm: R,
    };
    expect(
      Math.abs(litresBelow(trough, given['dip'] as number) - (asked['litres'] ?? NaN)),
    ).toBeLessThan(tolerance);
    expect(Math.abs(2 * litresBelow(trough, R) - (asked['full'] ?? NaN))).toBeLessThan(tolerance);
  });
});

describe('a wedge', () => {
  test('is a trapezium across its width', () => {
    expect(grossLitres(WEDGE)).toBeCloseTo(((500 + 200) / 2) * 400 * 100 * 1e-6, 9);
    expect([riseMm(WEDGE), floorMm(WEDGE), depthAtMm(WEDGE, 100)]).toEqual([300, 500, 425]);
    expect(slopeDeg(WEDGE)).toBeCloseTo((Math.asin(3 / 5) * 180) / Math.PI, 9);
  });

  test('below the shallow end of its floor it fills as a triangle, above it as a prism', () => {
    // A triangle of depth d is 4/3 d long: 2/3 d2 by the width.
    for (const d of [1, 60, 150, 300])
      expect(litresBelow(WEDGE, d)).toBeCloseTo((2 / 3) * d * d * 100 * 1e-6, 9);
    for (const d of [300, 350, 500])
      expect(litresBelow(WEDGE, d)).toBeCloseTo((60_000 + (d - 300) * 400) * 100 * 1e-6, 9);
  });

  test('its rounded corners take r2 (cot(a / 2) - (pi - a) / 2) each', () => {
    const r = 40;
    const slope = Math.asin(3 / 5);
    const taken = (a: number) => r * r * (1 / Math.tan(a / 2) - (Math.PI - a) / 2);
    // Inside angles of the section: the floor falls towards the deep end, which makes that corner
    // the sharper one.
    const lost = (taken(Math.PI / 2 - slope) + taken(Math.PI / 2 + slope)) * 100 * 1e-6;
    expect(grossLitres({ ...WEDGE, floorRadiusMm: r })).toBeCloseTo(grossLitres(WEDGE) - lost, 9);
  });
});

test('bays add up to the whole, and a level is found from the litres', () => {
  const sizes = fc.record({
    lengthMm: fc.integer({ min: 200, max: 900 }),
    widthMm: fc.integer({ min: 50, max: 500 }),
    deepMm: fc.integer({ min: 200, max: 500 }),
    fall: fc.integer({ min: 0, max: 140 }),
    floorRadiusMm: fc.integer({ min: 0, max: 20 }),
    share: fc.integer({ min: 1, max: 99 }),
  });
  fc.assert(
    fc.property(sizes, ({ fall, share, ...given }) => {
      const c: Cavity = { ...given, shallowMm: given.deepMm - fall };
      const at = (c.lengthMm * share) / 100;
      expect(litresBetween(c, 0, at) + litresBetween(c, at, c.lengthMm)).toBeCloseTo(
        grossLitres(c),
        8,
      );
      const level = (c.deepMm * share) / 100;
      expect(levelOf(c, litresBelow(c, level))).toBeCloseTo(level, 2);
      // A slice is as thick as the surface at its middle, but for what that bends in a tenth of a
      // millimetre.
      expect(litresBelow(c, level + 0.1)).toBeGreaterThan(litresBelow(c, level));
    }),
  );
});

test('warming from the fill limit to brim-full', () => {
  const { given, asked, tolerance } = of('v4');
  expect(
    Math.abs(
      warmingDeg(100 * (given['fill'] as number), given['beta_C'] as number) -
        (asked['dT_C_to_full'] ?? NaN),
    ),
  ).toBeLessThan(tolerance);
  // 1 gallon from 20 to 100 F becomes 1.037, printed: a tank 1 / 1.0368 full is brim-full after 80
  // F.
  const { given: warm, asked: becomes } = of('v2');
  expect(warmingDeg(100 / (becomes['gal'] ?? NaN), warm['beta_F'] as number)).toBeCloseTo(
    (warm['to_F'] as number) - (warm['from_F'] as number),
    1,
  );
});
