import { describe, expect, test } from 'vitest';
import {
  deratingOf,
  FINGER_DERATING,
  longestBendMm,
} from '../../src/plan/machines/bend-capacity.ts';
import { sightLine } from '../../src/plan/of-part/sight-line.ts';
import { bendFigures } from '../../src/bending/bend.ts';
import { springbackOf, stopAtDeg, tabledFactor } from '../../src/bending/springback.ts';
import { findMaterial, MATERIALS } from '../../src/data/materials.ts';
import { setbackMm } from '../../src/bending/setback.ts';

const sheet = (id: string) => {
  const found = findMaterial(id);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
};

describe('marks for a folder', () => {
  // FAA-H-8083-31 chapter 4, U-channel of 0.040 in with R 0.16 in: flats 0.8, 1.6, 0.8 and 0.27 for
  // each bend.
  test('sight lines of the published U-channel, the web under the nose and a flange under it', () => {
    const bend = { thicknessMm: 0.04, insideRadiusMm: 0.16, angleDeg: 90 };
    const tangents = [0.8, 1.07, 2.67, 2.94] as const;
    const web = [sightLine(tangents[1], -1, 0.16, bend), sightLine(tangents[2], 1, 0.16, bend)];
    const flange = [sightLine(tangents[0], 1, 0.16, bend), sightLine(tangents[3], -1, 0.16, bend)];
    expect(web.map((s) => s.markMm)).toEqual([expect.closeTo(0.91, 9), expect.closeTo(2.83, 9)]);
    expect(flange.map((s) => s.markMm)).toEqual([expect.closeTo(0.96, 9), expect.closeTo(2.78, 9)]);
  });

  // Derived with the same rules: flange of 30 outside, t 1.5, R 1.5, K 0.42: tangent line of the
  // body 30.346 from the free edge.
  test.each([
    [1.5, 28.846, 1.5],
    [0, 30.346, 3],
    // A nose rounder than the bend touches it at the bend's own radius.
    [4, 28.846, 1.5],
  ])('a nose of radius %d', (nose, markMm, gapMm) => {
    const bend = { thicknessMm: 1.5, insideRadiusMm: 1.5, angleDeg: 90 };
    const { allowanceMm } = bendFigures({ id: 'k', k: 0.42 }, bend, 'outside');
    const tangent = 30 - setbackMm(90, 1.5, 1.5, 'outside') + allowanceMm;
    const found = sightLine(tangent, -1, nose, bend);
    expect([found.markMm, found.noseGapMm]).toEqual([
      expect.closeTo(markMm, 3),
      expect.closeTo(gapMm, 9),
    ]);
  });
});

describe('what a folder takes', () => {
  test.each([
    // A published 6 ft machine of 0.036 in sheet bends 2 ft of 0.060 in: the formula gives 2.16 ft.
    [6, 0.036, 0.06, 2.16],
    [1250, 2, 2.5, 800],
    [2000, 1.5, 2, 1125],
    [1250, 2, 1, 1250],
  ])('%d long for %d thick: %d thick for %d', (lengthMm, rated, thickness, longest) => {
    expect(longestBendMm({ lengthMm, thicknessMm: rated }, thickness)).toBeCloseTo(longest, 2);
  });

  test('by material: stainless counts as much stronger, aluminium as weaker, up to the trade rule', () => {
    // Published: four gauges less for stainless, 1.2 mm on a machine of 2 mm; two gauges less with
    // fingers, 1.42 to 1.6.
    expect(2 * deratingOf(sheet('1.4301')).factor).toBeCloseTo(1.2, 9);
    expect(2 * FINGER_DERATING).toBeCloseTo(1.42, 9);
    // K5: 3 mm of aluminium by the trade rule on a machine of 2 mm.
    for (const material of MATERIALS)
      expect(deratingOf(material).factor).toSatisfy(
        (f: number) => f > 0.5 && f <= (material.family === 'aluminium' ? 1.5 : 1),
      );
    expect(deratingOf(sheet('s355')).factor).toBeLessThan(deratingOf(sheet('s235')).factor);
  });
});

describe('springback', () => {
  test('reads the columns of the table as they are, and between them in order', () => {
    expect([1, 1.6, 4, 10, 100].map((ratio) => tabledFactor('DC01', ratio, 1))).toEqual(
      [0.99, 0.99, 0.97, 0.96, 0.66].map((f) => expect.closeTo(f, 12)),
    );
    // Halfway between columns 2.5 and 4 by logarithm: sqrt(10) = 3.162; halfway between 0.99 and
    // 0.97.
    expect(tabledFactor('DC01', Math.sqrt(10), 1)).toBeCloseTo(0.98, 9);
    // A row ends where the book leaves it blank.
    expect([0.2, 40, 200].map((ratio) => tabledFactor('X12CrNi18-8', ratio, 1))).toEqual([
      0.99, 0.63, 0.63,
    ]);
  });

  test('grows with the radius and the strength, and never pulls a bend on', () => {
    for (const material of MATERIALS) {
      const factors = [0, 1, 2, 5, 20].map((r) => springbackOf(material, r, 1.5).factor);
      expect(factors.toSorted((a, b) => b - a)).toEqual(factors);
      for (const f of factors) expect(f).toSatisfy((x: number) => x > 0.5 && x <= 1);
    }
    expect(springbackOf(sheet('s355'), 5, 5).factor).toBeLessThan(
      springbackOf(sheet('s235'), 5, 5).factor,
    );
    expect(stopAtDeg(90, springbackOf(sheet('dc01'), 1.5, 1.5))).toBeCloseTo(90 / 0.99, 9);
  });
});
