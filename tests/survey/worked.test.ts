import { describe, expect, test } from 'vitest';
import type { Survey } from '../../src/survey/survey.ts';
import { placesOf, surveyOf } from '../helpers/survey.ts';

const expectPlaces = (
  survey: Survey,
  expected: Readonly<Record<string, readonly [number, number]>>,
): void => {
  const places = placesOf(survey);
  expect(Object.keys(places)).toEqual(Object.keys(expected));
  for (const [name, [x, y]] of Object.entries(expected)) {
    expect(places[name]?.[0], `${name} x`).toBeCloseTo(x, 5);
    expect(places[name]?.[1], `${name} y`).toBeCloseTo(y, 5);
  }
};

// Right and Heronian triangles of whole numbers; coordinates by hand from the squares of the sides.
describe('triangles of whole numbers', () => {
  test('3-4-5, as walls are set out square with a tape', () => {
    const survey = surveyOf('A-B: 400, B-C: 300, A-C: 500');
    expectPlaces(survey, { A: [0, 0], B: [400, 0], C: [400, 300] });
    expect(survey.rmsMm).toBeCloseTo(0, 6);
    expect(survey.redundancy).toBe(0);
  });

  test('13-14-15: the height on 14 is 12 and stands at 5', () => {
    expectPlaces(surveyOf('A-B: 140, A-C: 130, B-C: 150'), {
      A: [0, 0],
      B: [140, 0],
      C: [50, 120],
    });
  });

  test('any unit of length will do', () => {
    expectPlaces(surveyOf('A-B: 4in; B-C: 3in\nA-C: 5"'), {
      A: [0, 0],
      B: [101.6, 0],
      C: [101.6, 76.2],
    });
  });

  test('the obtuse one of 9, 10, 17 with the foot outside: 8-15-17 less 6-8-10', () => {
    // C at height 8 over the line, 15 from one foot and 6 from the other: sides 17 and 10 on a base
    // of 15 - 6 = 9.
    expectPlaces(surveyOf('A-B: 90, A-C: 170, B-C: 100'), { A: [0, 0], B: [90, 0], C: [150, 80] });
  });
});

// Worked by hand: by symmetry the best figure is a rectangle a x b with diagonal d. It minimises
// 2(a-400)^2 + 2(b-300)^2 + 2(d-502)^2; with d growing by (0.8, 0.6) per mm of a and b, the shift
// is 0.8 and 0.6, the diagonal becomes 501, and the residuals stand as 0.8, 0.6 and -1.
test('a braced rectangle whose diagonals are both read 2 mm long', () => {
  const survey = surveyOf('A-B: 400, B-C: 300, C-D: 400, D-A: 300, A-C: 502, B-D: 502');
  expectPlaces(survey, { A: [0, 0], B: [400.8, 0], C: [400.8, 300.6], D: [0, 300.6] });
  const residuals = survey.residuals.map((r) => r.residualMm);
  [0.8, 0.6, 0.8, 0.6, -1, -1].forEach((r, i) => expect(residuals[i]).toBeCloseTo(r, 6));
  expect(survey.rmsMm).toBeCloseTo(Math.sqrt((2 * 0.64 + 2 * 0.36 + 2) / 6), 6);
  expect(survey.redundancy).toBe(1);
  expect(survey.suspect).toBeNull();
});

// Worked by hand: sides 300 sqrt 3 belong to a radius of 300, the radii are read 302. The best
// radius R minimises 3(sqrt3 R - 300 sqrt3)^2 + 3(R - 302)^2, so 3(R - 300) + (R - 302) = 0 and R =
// 300.5.
test('an equilateral triangle measured from its centre', () => {
  const side = 300 * Math.sqrt(3);
  const survey = surveyOf(`O-A: 302, O-B: 302, O-C: 302, A-B: ${side}, B-C: ${side}, C-A: ${side}`);
  for (const { from, residualMm } of survey.residuals)
    expect(residualMm).toBeCloseTo(from === 'O' ? -1.5 : Math.sqrt(3) / 2, 6);
});

test('a distance measured twice counts twice, and the mean is taken', () => {
  const survey = surveyOf('A-B: 100, B-A: 102');
  expectPlaces(survey, { A: [0, 0], B: [101, 0] });
  expect(survey.residuals.map((r) => r.residualMm)).toEqual(
    [1, -1].map((r) => expect.closeTo(r, 9)),
  );
});

// By Ptolemy's theorem an isosceles trapezium of legs c and parallels a, b has diagonals with d^2 =
// a b + c^2.
test('an isosceles trapezium agrees with the theorem of Ptolemy', () => {
  const diagonal = Math.sqrt(500 * 260 + 170 ** 2);
  const survey = surveyOf(
    `A-B: 500, B-C: 170, C-D: 260, D-A: 170, A-C: ${diagonal}, B-D: ${diagonal}`,
  );
  // The legs stand in by (500 - 260) / 2 = 120, and 170^2 - 120^2 = 14500.
  expectPlaces(survey, {
    A: [0, 0],
    B: [500, 0],
    C: [380, Math.sqrt(14_500)],
    D: [120, Math.sqrt(14_500)],
  });
  expect(survey.rmsMm).toBeLessThan(1e-6);
});
