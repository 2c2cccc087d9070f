import { describe, expect, test } from 'vitest';
import { solveDistances } from '../../src/survey/solve.ts';
import { surveyFindings } from '../../src/survey/verdicts.ts';
import { apart, placesOf, surveyOf } from '../helpers/survey.ts';

const stopsOf = (text: string): string[] =>
  surveyFindings(surveyOf(text))
    .filter((f) => f.severity === 'stop')
    .map((f) => f.message);

// A plane figure of n points needs 2n - 3 distances (Laman's count, from memory); what is short is
// counted by hand.
describe('too few distances', () => {
  test.each([
    ['one distance is a figure of two points', 'A-B: 312', [], 0],
    ['a point on one distance swings', 'A-B: 312, B-C: 100', [['C', 'swings']], 1],
    [
      'a quadrilateral without a diagonal folds',
      'A-B: 400, B-C: 300, C-D: 400, D-A: 300',
      [
        ['C', 'swings'],
        ['D', 'swings'],
      ],
      1,
    ],
    ['a triangle with a tail', 'A-B: 400, B-C: 300, A-C: 500, C-D: 80', [['D', 'swings']], 1],
    [
      'two triangles that share a corner',
      'A-B: 400, B-C: 300, A-C: 500, C-D: 300, D-E: 400, C-E: 500',
      [
        ['D', 'swings'],
        ['E', 'swings'],
      ],
      1,
    ],
    [
      'two triangles apart',
      'A-B: 400, B-C: 300, A-C: 500, D-E: 300, E-F: 400, D-F: 500',
      [
        ['D', 'apart'],
        ['E', 'apart'],
        ['F', 'apart'],
      ],
      3,
    ],
    [
      'the larger rigid part is the figure',
      'A-B: 90, B-C: 400, C-D: 300, B-D: 500',
      [['A', 'swings']],
      1,
    ],
    [
      'one distance too many here does not make up for one too few there',
      'A-B: 400, B-C: 300, A-C: 500, A-D: 300, B-D: 500, C-D: 400, A-E: 90',
      [['E', 'swings']],
      1,
    ],
    [
      'enough distances in number, but the same twice',
      'A-B: 400, B-C: 300, B-C: 300',
      [['C', 'swings']],
      1,
    ],
  ] as const)('%s', (_, text, loose, missing) => {
    const survey = surveyOf(text);
    expect(survey.loose).toEqual(loose.map(([name, why]) => ({ name, why })));
    expect(survey.missing).toBe(missing);
    expect(survey.points.filter((p) => loose.some(([name]) => name === p.name))).toEqual([]);
    expect(stopsOf(text)).toHaveLength(loose.length > 0 ? 1 : 0);
  });

  test('the message names the loose points and what they need', () => {
    expect(stopsOf('A-B: 400, B-C: 300, A-C: 500, C-D: 80, E-F: 90')).toEqual([
      expect.stringMatching(
        /^The distances do not pin the figure down\. No distance leads from A, B, C to E, F\. Still free to swing about A, B, C: D\. 4 more distances/,
      ),
    ]);
  });

  test('the loose points leave the rest as it is', () => {
    expect(placesOf(surveyOf('A-B: 400, B-C: 300, A-C: 500, C-D: 80'))).toEqual(
      placesOf(surveyOf('A-B: 400, B-C: 300, A-C: 500')),
    );
  });
});

describe('distances that contradict themselves', () => {
  test('a side longer than the way round', () => {
    const text = 'A-B: 312, A-C: 100, B-C: 200';
    expect(surveyOf(text).contradictions).toEqual([
      { from: 'A', to: 'B', measuredMm: 312, way: ['A', 'C', 'B'], wayMm: 300 },
    ]);
    expect(stopsOf(text)).toEqual([
      expect.stringMatching(
        /^A-B is given as 312 mm, but A-C-B comes to 300 mm only.*A-B must be 300 mm or less/,
      ),
    ]);
  });

  test('a way of three legs', () => {
    expect(surveyOf('A-B: 100, B-C: 100, C-D: 100, A-D: 320').contradictions).toMatchObject([
      { from: 'A', to: 'D', way: ['A', 'B', 'C', 'D'], wayMm: 300 },
    ]);
  });

  // Three readings of 1 mm each may differ by 3.29 sqrt 3 = 5.7 mm between them.
  test('what a tape may be off is no contradiction, and a little more is', () => {
    expect(surveyOf('A-B: 305.6, A-C: 100, B-C: 200').contradictions).toEqual([]);
    expect(surveyOf('A-B: 305.8, A-C: 100, B-C: 200').contradictions).toHaveLength(1);
  });

  test('the same distance read twice and far apart', () => {
    expect(surveyOf('A-B: 100, A-B: 160').contradictions).toMatchObject([
      { measuredMm: 160, way: ['A', 'B'], wayMm: 100 },
    ]);
  });
});

describe('points in line', () => {
  test('lie where they are, and are said to be weak sideways', () => {
    const survey = surveyOf('A-B: 100, A-C: 60, B-C: 40');
    expect(placesOf(survey)['C']?.[0]).toBeCloseTo(60, 3);
    expect(survey.weak).toMatchObject([{ name: 'C' }]);
    expect(survey.loose).toEqual([]);
  });

  test('a reading a little short pulls them straight', () => {
    const survey = surveyOf('A-B: 103, A-C: 60, B-C: 40');
    // By hand: 3 mm to share among three readings of one line, 1 mm each.
    for (const { residualMm } of survey.residuals) expect(Math.abs(residualMm)).toBeCloseTo(1, 3);
  });

  // By hand: C stands h over the middle of c = 200, so h^2 = (p^2 + q^2) / 2 - c^2 / 4 for legs p
  // and q. By the law of propagation of errors 1 mm in each moves it by the root of p^2 / 2 h^2 +
  // c^2 / 16 h^2: 10.85 mm for h = 8 and 9.65 mm for h = 9. (Sideways it moves by less than 1 mm.)
  test.each([
    [8, [{ name: 'C', mmPerMm: expect.closeTo(10.85, 1) }]],
    [9, []],
  ])('a point %d mm off a line of 200 mm', (h, expected) => {
    const leg = Math.sqrt(100 ** 2 + h ** 2);
    const survey = solveDistances([
      { from: 'A', to: 'B', mm: 200 },
      { from: 'A', to: 'C', mm: leg },
      { from: 'B', to: 'C', mm: leg },
    ]);
    expect(survey.weak).toEqual(expected);
  });

  test('a point measured from three in line may lie on either side', () => {
    const survey = surveyOf(
      'A-B: 100, B-C: 100, A-C: 200, A-D: 50, B-D: 111.803, C-D: 206.155, A-E: 80, B-E: 128.062, C-E: 215.407',
    );
    expect(survey.mirrors.map((m) => [m.points.length, m.whole])).toEqual([
      [5, true],
      [1, false],
    ]);
  });
});

test('what nobody can measure is refused as a fault of the caller', () => {
  expect(() => solveDistances([])).toThrow(RangeError);
  expect(() => solveDistances([{ from: 'A', to: 'A', mm: 1 }])).toThrow(RangeError);
  expect(() => solveDistances([{ from: 'A', to: 'B', mm: 0 }])).toThrow(RangeError);
  expect(() => solveDistances([{ from: 'A', to: 'B', mm: NaN }])).toThrow(RangeError);
});

test('two points that turn out to be in one place do no harm', () => {
  const survey = surveyOf('A-C: 100, B-C: 100, A-D: 80, B-D: 80, C-D: 60, A-B: 0.001');
  expect(apart(placesOf(survey), 'A', 'B')).toBeLessThan(1);
});
