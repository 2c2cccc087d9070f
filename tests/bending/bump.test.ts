import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bumpOf, isTooClose, MOST_HITS, shortByMm, type WideBend } from '../../src/bending/bump.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import published from '../published/bump.json' with { type: 'json' };

const inputsOf = (id: string) => {
  const found = published.cases.find((c) => c.id === id);
  if (found === undefined) throw new Error(id);
  return found;
};

/** The length of a bend in the flat by a K factor, as its definition says. */
const wide = (
  angleDeg: number,
  insideRadiusMm: number,
  thicknessMm: number,
  k: number,
): WideBend => ({
  angleDeg,
  insideRadiusMm,
  thicknessMm,
  allowanceMm: ((Math.PI * angleDeg) / 180) * (insideRadiusMm + k * thicknessMm),
});

describe('against published and worked figures (tests/published/bump.json)', () => {
  test('facets of a quarter round of 150', () => {
    const { inputs, expected, tolerance } = inputsOf('bump-facets');
    const { Ri = 0, t = 0, angle_deg: deg, hits, K = 0 } = inputs;
    const bump = bumpOf(wide(deg, Ri, t, K), { hits });
    expect(bump.angleDeg).toBeCloseTo(expected.deg_per_hit ?? NaN, 9);
    expect(bump.pitchMm).toBeCloseTo(expected.pitch ?? NaN, 3);
    expect(bump.firstMm).toBeCloseTo(expected.first_hit_from_tangent ?? NaN, 3);
    // Worked out there on the middle of the sheet, which lies half a thickness farther out.
    expect(Math.abs(bump.standOffMm - (expected.stand_off ?? NaN))).toBeLessThan(
      tolerance.abs ?? 0,
    );
    expect((bump.standOffMm * (Ri + t / 2)) / Ri).toBeCloseTo(expected.stand_off ?? NaN, 4);
  });

  // The note of that case: for 0.2 mm at R 150 it takes 15.2 hits or more.
  test('16 hits keep within 0.2 mm there, 15 do not', () => {
    const bend = wide(90, 150, 1.5, 0.5);
    expect(bumpOf(bend, { standOffMm: 0.2 }).hits).toBe(16);
    expect(bumpOf(bend, { hits: 15 }).standOffMm).toBeGreaterThan(0.2);
    expect(bumpOf(bend, { hits: 16 }).standOffMm).toBeLessThan(0.2);
  });

  test('the arc and pitch of a letter, and not its misprint', () => {
    const { inputs, expected, printed } = inputsOf('bump-26in-30-misprint');
    const { Ri_in: inches = 0, angle_deg: deg, hits = 0 } = inputs;
    const { pitchMm } = bumpOf(wide(deg, 25.4 * inches, 2, 0), { hits });
    expect(pitchMm / 25.4).toBeCloseTo(expected.pitch_in ?? NaN, 3);
    expect((pitchMm * hits) / 25.4).toBeCloseTo(expected.arc_in ?? NaN, 3);
    expect(Math.abs((pitchMm * hits) / 25.4 - (printed?.arc_in ?? 0))).toBeGreaterThan(2.9);
  });

  test('a smooth face by the trade: 2 degrees a hit', () => {
    const { inputs, expected } = inputsOf('bump-rules');
    const { angle_deg: deg } = inputs;
    expect(bumpOf(wide(deg, 500, 2, 0.5), { hits: expected.hits }).angleDeg).toBe(2);
  });
});

const BENDS = fc.record({
  angleDeg: fc.double({ min: 5, max: 180, noNaN: true }),
  radius: fc.double({ min: 5, max: 2000, noNaN: true }),
  thickness: fc.double({ min: 0.5, max: 6, noNaN: true }),
  k: fc.double({ min: 0.3, max: 0.5, noNaN: true }),
  hits: fc.integer({ min: 2, max: MOST_HITS }),
});

test('the flats touch the arc at their middles, and the corners stand off it as told', () => {
  fc.assert(
    fc.property(BENDS, ({ angleDeg, radius, thickness, k, hits }) => {
      const bump = bumpOf(wide(angleDeg, radius, thickness, k), { hits });
      const h = (bump.angleDeg * Math.PI) / 180;
      // Walked along the inside face, from its tangent point at the origin; the middle of the arc is
      // at 0, radius.
      const flat = 2 * radius * Math.tan(h / 2);
      let [x, y, way] = [0, 0, 0];
      const go = (mm: number): void => {
        x += mm * Math.cos(way);
        y += mm * Math.sin(way);
      };
      go(flat / 2);
      for (let i = 0; i < hits; i++) {
        expect(Math.hypot(x, y - radius)).toBeCloseTo(radius + bump.standOffMm, 6);
        way += h;
        go(flat / 2);
        expect(Math.hypot(x, y - radius)).toBeCloseTo(radius, 6);
        go(i === hits - 1 ? 0 : flat / 2);
      }
      const end = (angleDeg * Math.PI) / 180;
      expect([x, y]).toEqual([
        expect.closeTo(radius * Math.sin(end), 5),
        expect.closeTo(radius * (1 - Math.cos(end)), 5),
      ]);
    }),
    { numRuns: fuzzRuns(300) },
  );
});

test('in the flat all hits are as long as the arc, and shorter than the flats need by what is told', () => {
  fc.assert(
    fc.property(BENDS, ({ angleDeg, radius, thickness, k, hits }) => {
      const bend = wide(angleDeg, radius, thickness, k);
      const bump = bumpOf(bend, { hits });
      expect(2 * bump.firstMm + (hits - 1) * bump.pitchMm).toBeCloseTo(bend.allowanceMm, 6);
      // Hits about an inside radius of their own, with flats between them that touch the arc.
      const rho = Math.min(radius, thickness);
      const h = (bump.angleDeg * Math.PI) / 180;
      const flat = 2 * (radius - rho) * Math.tan(h / 2);
      const needs = hits * (flat + (rho + k * thickness) * h);
      expect(shortByMm(bend, bump, rho)).toBeCloseTo(needs - bend.allowanceMm, 6);
    }),
    { numRuns: fuzzRuns(300) },
  );
});

test('unasked, hits are as slight as there is room for', () => {
  fc.assert(
    fc.property(BENDS, ({ angleDeg, radius, thickness, k }) => {
      const bend = wide(angleDeg, radius, thickness, k);
      const bump = bumpOf(bend);
      const finer = bumpOf(bend, { hits: bump.hits + 1 });
      const isFine = bump.angleDeg <= 5 + 1e-9 && bump.standOffMm <= 0.2 + 1e-9;
      expect(isFine || isTooClose(finer, thickness) || bump.hits === MOST_HITS).toBe(true);
      expect(bump.hits === 1 || !isTooClose(bump, thickness)).toBe(true);
    }),
    { numRuns: fuzzRuns(300) },
  );
});
