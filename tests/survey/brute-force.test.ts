import fc from 'fast-check';
import { expect, test } from 'vitest';
import { solveDistances } from '../../src/survey/solve.ts';
import type { Distance } from '../../src/survey/survey.ts';
import {
  allDistances,
  inGeneralPlace,
  type Places,
  placesOf,
  scatter,
  worstDifference,
} from '../helpers/survey.ts';

/**
 * The least sum of squares by feeling about: every coordinate a step up or down, and half the step
 * when nothing gets better (compass search, after Hooke and Jeeves 1961, from memory). It knows no
 * derivatives, frames or circles.
 */
function feltFor(
  distances: readonly Distance[],
  start: Places,
): { readonly places: Places; readonly cost: number } {
  const at = new Map(
    Object.entries(start).map(([name, [x, y]]) => [name, [x, y] as [number, number]]),
  );
  const misfit = ({ from, to, mm }: Distance): number => {
    const p = at.get(from) as [number, number];
    const q = at.get(to) as [number, number];
    return (Math.sqrt((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2) - mm) ** 2;
  };
  const cost = (): number => distances.reduce((sum, d) => sum + misfit(d), 0);
  let least = cost();
  for (let step = 8; step > 1e-6;) {
    let better = false;
    for (const place of at.values()) {
      for (const axis of [0, 1] as const) {
        for (const move of [step, -step]) {
          place[axis] += move;
          const next = cost();
          if (next < least) [least, better] = [next, true];
          else place[axis] -= move;
        }
      }
    }
    if (!better) step /= 2;
  }
  return { places: Object.fromEntries(at), cost: least };
}

test('no figure near the true one fits better than the one found', () => {
  const cases = fc.tuple(
    scatter(4, 5, 150).filter((p) => inGeneralPlace(p, 120)),
    fc.array(fc.integer({ min: -300, max: 300 }), { minLength: 10, maxLength: 10 }),
  );
  fc.assert(
    fc.property(cases, ([places, errors]) => {
      const read = allDistances(places).map((d, i) => ({
        ...d,
        mm: d.mm + (errors[i] ?? 0) / 100,
      }));
      const survey = solveDistances(read);
      const felt = feltFor(read, places);
      const cost = survey.residuals.reduce((sum, r) => sum + r.residualMm ** 2, 0);
      expect(cost).toBeLessThanOrEqual(felt.cost + 1e-6);
      expect(worstDifference(placesOf(survey), felt.places)).toBeLessThan(0.05);
    }),
    { numRuns: 25 },
  );
});
