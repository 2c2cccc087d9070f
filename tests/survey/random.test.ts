import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { solveDistances } from '../../src/survey/solve.ts';
import type { Distance, Survey } from '../../src/survey/survey.ts';
import { fixedRuns } from '../helpers/extent.ts';
import {
  allDistances,
  inGeneralPlace,
  type Places,
  placesOf,
  scatter,
  surveyOf,
  worstDifference,
} from '../helpers/survey.ts';

const RUNS = { numRuns: fixedRuns(40) };
const field = scatter(4, 7, 60).filter((places) => inGeneralPlace(places, 40));

/** Errors of `mm` with either sign: their root mean square is `mm` exactly. */
const read = (distances: readonly Distance[], signs: readonly boolean[], mm: number): Distance[] =>
  distances.map((d, i) => ({ ...d, mm: d.mm + (signs[i % signs.length] === true ? mm : -mm) }));

const signs = fc.array(fc.boolean(), { minLength: 21, maxLength: 21 });

test('a figure is recovered from all its distances, up to the frame', () => {
  fc.assert(
    fc.property(field, (places) => {
      const survey = solveDistances(allDistances(places));
      expect(worstDifference(places, placesOf(survey))).toBeLessThan(1e-5);
      expect(survey.suspect).toBeNull();
      expect([...survey.loose, ...survey.contradictions, ...survey.unkept]).toEqual([]);
      expect(survey.otherFigure).toBe(false);
    }),
    RUNS,
  );
});

test('the frame: first point at the origin, second on +x, third with y over 0', () => {
  fc.assert(
    fc.property(field, (places) => {
      const [a, b, c] = solveDistances(allDistances(places)).points;
      expect([a?.x, a?.y, b?.y]).toEqual([0, 0, 0]);
      expect(b?.x).toBeGreaterThan(0);
      expect(c?.y).toBeGreaterThan(0);
    }),
    RUNS,
  );
});

test('where the whole set is shuffled and its pairs turned round, the figure stays the same', () => {
  fc.assert(
    fc.property(field, fc.infiniteStream(fc.nat(1000)), (places, keys) => {
      const shuffled = allDistances(places)
        .map((d) => ({ key: keys.next().value ?? 0, d: { from: d.to, to: d.from, mm: d.mm } }))
        .toSorted((p, q) => p.key - q.key)
        .map((k) => k.d);
      expect(worstDifference(places, placesOf(solveDistances(shuffled)))).toBeLessThan(1e-5);
    }),
    RUNS,
  );
});

// Of m residuals a figure of n points can swallow 2n - 3, so their root mean square is at most the
// error read, and never worse than what the true figure leaves.
test('with noise the residuals come out no larger than the noise', () => {
  fc.assert(
    fc.property(
      scatter(6, 7, 80).filter((p) => inGeneralPlace(p, 60)),
      signs,
      (places, pattern) => {
        const survey = solveDistances(read(allDistances(places), pattern, 0.5));
        expect(survey.rmsMm).toBeLessThanOrEqual(0.5 + 1e-9);
        expect(worstDifference(places, placesOf(survey))).toBeLessThan(10);
        expect(survey.suspect).toBeNull();
      },
    ),
    RUNS,
  );
});

test('noise averages to its share: m - (2n - 3) of m squares are left, within chance', () => {
  const surveys: Survey[] = fc
    .sample(fc.tuple(scatter(7, 7, 80), signs), { numRuns: 40, seed: 3 })
    .map(([places, pattern]) => solveDistances(read(allDistances(places), pattern, 0.5)));
  const mean = surveys.reduce((sum, s) => sum + s.rmsMm ** 2, 0) / surveys.length;
  // 21 distances, 7 points: 10 of 21 squares of 0.5 mm each are to be expected.
  expect(mean / (0.25 * (10 / 21))).toBeGreaterThan(0.8);
  expect(mean / (0.25 * (10 / 21))).toBeLessThan(1.2);
});

test('one gross error is named, and the rest give back the true distance', () => {
  fc.assert(
    fc.property(
      scatter(6, 7, 100).filter((p) => inGeneralPlace(p, 80)),
      signs,
      fc.nat(),
      fc.constantFrom(30, 50, -30),
      (places, pattern, n, slip) => {
        const truth = allDistances(places);
        const wrong = n % truth.length;
        const { from, to, mm } = truth[wrong] as Distance;
        const survey = solveDistances(
          read(truth, pattern, 0.2).map((d, i) => (i === wrong ? { ...d, mm: d.mm + slip } : d)),
        );
        expect(survey.suspect).toMatchObject({ from, to, rivals: [] });
        expect(Math.abs((survey.suspect?.wouldBeMm ?? 0) - mm)).toBeLessThan(5);
        expect(survey.suspect?.rmsWithoutMm).toBeLessThan(0.25);
      },
    ),
    RUNS,
  );
});

/**
 * A triangle, and every further point from two of the earlier ones: just enough, with mirror images
 * of each point.
 */
const chain = (places: Places): Distance[] =>
  allDistances(places).filter(({ from, to }) => {
    const [i, j] = [Object.keys(places).indexOf(from), Object.keys(places).indexOf(to)];
    return j - i <= 2;
  });

describe('a chain of triangles', () => {
  const sideOf = (
    places: Places,
    [p, q, r]: readonly [string, string, string],
  ): 'left' | 'right' => {
    const [[ax, ay], [bx, by], [cx, cy]] = [p, q, r].map((n) => places[n] ?? [NaN, NaN]) as [
      [number, number],
      [number, number],
      [number, number],
    ];
    return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax) > 0 ? 'left' : 'right';
  };

  test('is recovered when every side is stated, and reported point by point', () => {
    fc.assert(
      fc.property(field, (places) => {
        const names = Object.keys(places);
        const sides = names.slice(2).map((point, i) => {
          const [from, to] = [names[i] as string, names[i + 1] as string];
          return { from, to, point, side: sideOf(places, [from, to, point]) };
        });
        const survey = solveDistances(chain(places), { sides });
        expect(worstDifference(places, placesOf(survey))).toBeLessThan(1e-4);
        expect([survey.unkept, survey.otherFigure]).toEqual([[], false]);
        // A, B and C make the frame; each point from D on hangs on the two before it.
        expect(survey.mirrors).toHaveLength(names.length - 2);
      }),
      RUNS,
    );
  });

  test('takes every point to the left when nothing is said', () => {
    fc.assert(
      fc.property(field, (places) => {
        const names = Object.keys(places);
        const survey = solveDistances(chain(places));
        const found = placesOf(survey);
        expect(survey.otherFigure).toBe(false);
        for (const [i, point] of names.slice(2).entries())
          expect(sideOf(found, [names[i] as string, names[i + 1] as string, point])).toBe('left');
      }),
      RUNS,
    );
  });
});

test('the same set gives the same bytes', () => {
  const text = 'A-B: 412, A-C: 300.5, B-C: 377, C-D: 120, A-D: 260, B-D: 430, D-E: 200, C-E: 150';
  expect(JSON.stringify(surveyOf(text))).toBe(JSON.stringify(surveyOf(text)));
});

/** Some of the distances, exact. */
const some = fc
  .tuple(
    scatter(4, 8, 60).filter((p) => inGeneralPlace(p, 30)),
    fc.array(fc.integer({ min: 0, max: 99 }), { minLength: 28, maxLength: 28 }),
  )
  .map(([places, dice]) => ({
    places,
    read: allDistances(places).filter((_, i) => (dice[i] ?? 0) < 72),
  }))
  .filter(({ read }) => read.length > 0);

test('whatever is given, the figure is the true one, or it is said what else it may be', () => {
  fc.assert(
    fc.property(some, ({ places, read }) => {
      const survey = solveDistances(read);
      expect(survey.rmsMm).toBeLessThan(0.01);
      const found = placesOf(survey);
      const truth: Places = Object.fromEntries(
        Object.entries(places).filter(([name]) => Object.hasOwn(found, name)),
      );
      const isOpen = survey.otherFigure || survey.mirrors.some((m) => !m.whole);
      if (!isOpen) expect(worstDifference(truth, found)).toBeLessThan(0.5);
    }),
    RUNS,
  );
});
