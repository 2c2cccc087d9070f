import { describe, expect, test } from 'vitest';
import { surveyFindings } from '../../src/survey/verdicts.ts';
import { placesOf, surveyOf } from '../helpers/survey.ts';

const QUAD = 'A-B: 400, B-C: 300, C-D: 400, D-A: 300, A-C: 500';
const rounded = (text: string): Record<string, readonly number[]> =>
  Object.fromEntries(
    Object.entries(placesOf(surveyOf(text))).map(([name, p]) => [
      name,
      p.map((v) => Math.round(v * 1000) / 1000 + 0),
    ]),
  );

// By hand: the 400 x 300 rectangle, and D turned over about its diagonal: D' = D - 2 x 240 mm along
// (-0.6, 0.8).
describe('a quadrilateral with one diagonal', () => {
  test('is a rectangle unless told otherwise, and says which side D was taken to lie on', () => {
    expect(rounded(QUAD)).toEqual({ A: [0, 0], B: [400, 0], C: [400, 300], D: [0, 300] });
    expect(surveyOf(QUAD).mirrors).toEqual([
      {
        points: ['A', 'B', 'C', 'D'],
        from: 'A',
        to: 'B',
        side: 'left',
        why: 'default',
        whole: true,
        otherwise: 'A-B-C: right',
      },
      {
        points: ['D'],
        from: 'A',
        to: 'C',
        side: 'left',
        why: 'default',
        whole: false,
        otherwise: 'A-C-D: right',
      },
    ]);
  });

  test('D goes to the other side when that is stated', () => {
    expect(rounded(`${QUAD}, A-C-D: right`)).toEqual({
      A: [0, 0],
      B: [400, 0],
      C: [400, 300],
      D: [288, -84],
    });
    expect(surveyOf(`${QUAD}, A-C-D: right`).mirrors[1]).toMatchObject({
      points: ['D'],
      side: 'right',
      why: 'stated',
      otherwise: 'A-C-D: left',
    });
  });

  test('the statement may be made about any line, from either end', () => {
    for (const side of ['C-A-D: left', 'A-B-D: right', 'B-A-D: left'])
      expect(rounded(`${QUAD}, ${side}`)['D']).toEqual([288, -84]);
  });

  test('the other statement on the third point turns over the whole and nothing else', () => {
    expect(rounded(`${QUAD}, A-B-C: right`)).toEqual({
      A: [0, 0],
      B: [400, 0],
      C: [400, -300],
      D: [0, -300],
    });
  });

  test('each mirror is had by the statement it gives', () => {
    for (const { from, to, points, otherwise, whole, side } of surveyOf(QUAD).mirrors) {
      const turned = surveyOf(`${QUAD}; ${otherwise}`).mirrors.find(
        (m) => m.whole === whole && m.points.join() === points.join(),
      );
      expect(turned).toMatchObject({
        from,
        to,
        why: 'stated',
        side: side === 'left' ? 'right' : 'left',
      });
    }
  });

  test('the second diagonal settles it, whatever else is said', () => {
    const survey = surveyOf(`${QUAD}, B-D: 500, A-B-C: left, A-C-D: right`);
    expect(survey.mirrors.map((m) => m.whole)).toEqual([true]);
    expect(survey.unkept).toEqual([{ from: 'A', to: 'C', point: 'D', side: 'right' }]);
    expect(surveyFindings(survey)).toContainEqual(
      expect.objectContaining({
        severity: 'warn',
        rule: 'survey-side',
        message: expect.stringMatching(/D does not lie right of A->C/),
      }),
    );
  });
});

test('a part that hangs on two points turns over as one', () => {
  // D, E and F are braced among themselves and hang on A and C.
  const survey = surveyOf(`${QUAD}, D-E: 120, A-E: 260, D-F: 150, E-F: 170`);
  const parts = survey.mirrors.filter((m) => !m.whole).map((m) => m.points);
  expect(parts).toEqual([['D', 'E', 'F'], ['E', 'F'], ['F']]);
});

test('a side that only the fit decides is told as such', () => {
  // D is measured from A, B and C, which lie all but in line: 0.5 mm off 200, so both sides fit
  // within a tape's reading.
  const survey = surveyOf(
    'A-B: 100, B-C: 100, A-C: 200, A-D: 110, B-D: 45.9, C-D: 110.6, A-E: 300, B-E: 290, C-E: 310',
  );
  expect(survey.mirrors.filter((m) => !m.whole)).toMatchObject([{ why: 'fit' }]);
});

// The complete bipartite graph of three and three points is rigid, but no point of it hangs on two:
// its other figures are no mirror images (a framework that is rigid without being globally rigid,
// since it has no distance to spare).
test('a figure that is not the only one, though nothing in it flips, is reported', () => {
  const places = {
    A: [0, 0],
    B: [300, 20],
    C: [120, 210],
    D: [200, -90],
    E: [-80, 150],
    F: [330, 180],
  } as const;
  const mm = (p: 'A' | 'B' | 'C', q: 'D' | 'E' | 'F'): number =>
    Math.hypot(places[p][0] - places[q][0], places[p][1] - places[q][1]);
  const survey = surveyOf(
    (['A', 'B', 'C'] as const)
      .flatMap((p) => (['D', 'E', 'F'] as const).map((q) => `${p}-${q}: ${mm(p, q).toFixed(9)}`))
      .join('\n'),
  );
  expect(survey.rmsMm).toBeLessThan(1e-4);
  expect(survey.loose).toEqual([]);
  expect(survey.otherFigure).toBe(true);
});
