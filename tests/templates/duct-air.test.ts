import { expect, test } from 'vitest';
import {
  equalAreaDiameterMm,
  equalFrictionDiameterMm,
  hydraulicDiameterMm,
  ORDINARY_TAPER_DEG,
  rectangleAreaMm2,
  roundAreaMm2,
  taperLengthMm,
} from '../../src/kit/duct-air.ts';
import { published, publishedFile } from '../helpers/published.ts';

test('three round equivalents of a rectangle, as published', () => {
  const { given, expect: asked, tolerance } = published('duct', 'a1');
  const rectangle = { widthMm: given['a'] as number, depthMm: given['b'] as number };
  expect(Math.abs(hydraulicDiameterMm(rectangle) - (asked['Dh'] as number))).toBeLessThan(
    tolerance,
  );
  expect(Math.abs(equalAreaDiameterMm(rectangle) - (asked['Da'] as number))).toBeLessThan(
    tolerance,
  );
  expect(Math.abs(equalFrictionDiameterMm(rectangle) - (asked['De'] as number))).toBeLessThan(
    tolerance,
  );
  expect(roundAreaMm2(equalAreaDiameterMm(rectangle))).toBeCloseTo(rectangleAreaMm2(rectangle), 9);
});

test('length of a taper', () => {
  const { given, expect: asked, tolerance } = published('duct', 'a3');
  expect(
    Math.abs(
      taperLengthMm(given['step_in'] as number, given['angle_deg'] as number) -
        (asked['length_in'] as number),
    ),
  ).toBeLessThan(tolerance);
});

test('the ordinary taper is 2.25 times as long as its step, as printed', () => {
  const { given, expect: asked } = published('duct', 'a4');
  expect(taperLengthMm(given['step_in'] as number, ORDINARY_TAPER_DEG)).toBeCloseTo(
    asked['length_in'] as number,
    1,
  );
  const { facts } = publishedFile<{
    readonly facts: { readonly taper_advice: readonly { readonly fact: string }[] };
  }>('duct');
  expect(
    facts.taper_advice.some(({ fact }) => fact.includes(`${ORDINARY_TAPER_DEG} deg slope`)),
  ).toBe(true);
});
