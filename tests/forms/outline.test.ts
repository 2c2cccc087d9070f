import { describe, expect, test } from 'vitest';
import { arcOf } from '../../src/geometry/arc.ts';
import { perimeter, signedArea } from '../../src/geometry/measure.ts';
import { type OutlineInput, readOutline } from '../../src/forms/outline.ts';

const loopOf = (given: OutlineInput) => {
  const read = readOutline(given);
  if (!read.ok) throw new Error(read.mend);
  return read.value;
};

const refusalOf = (given: OutlineInput): string => {
  const read = readOutline(given);
  return read.ok ? 'no refusal' : `${read.given ?? ''} ${read.mend ?? ''}`;
};

describe('areas and lengths by the plane figures of any table', () => {
  test.each(['0,0; 120,0; 120,80; 0,80', '0,0;0,80;120,80;120,0;', '0,0\n120,0\n12cm,80\n0,80'])(
    'rectangle %j',
    (given) => {
      expect(signedArea(loopOf(given))).toBeCloseTo(9600, 9);
      expect(perimeter(loopOf(given))).toBeCloseTo(400, 9);
    },
  );

  test.each(['0,0 r5; 120,0 r8; 120,80; 0,80 r10', '0,80 r10; 120,80; 120,0 r8; 0,0 r5'])(
    'a radius of its own at each corner: %s',
    (given) => {
      // A square corner loses r^2 (1 - pi / 4).
      expect(signedArea(loopOf(given))).toBeCloseTo(9600 - (25 + 64 + 100) * (1 - Math.PI / 4), 9);
      expect(perimeter(loopOf(given))).toBeCloseTo(400 - (5 + 8 + 10) * (2 - Math.PI / 2), 9);
    },
  );

  test('four corners whose arcs use up the edges make a circle', () => {
    const loop = loopOf('0,0 r20; 40,0 r20; 40,40 r20; 0,40 r20');
    expect(signedArea(loop)).toBeCloseTo(400 * Math.PI, 6);
  });

  test('an inward corner is rounded the other way', () => {
    const loop = loopOf('0,0; 60,0; 60,30; 30,30 r10; 30,60; 0,60');
    expect(signedArea(loop)).toBeCloseTo(2700 + 100 * (1 - Math.PI / 4), 9);
  });
});

describe('arcs through three points', () => {
  test.each([
    ['0,0; 100,0; 100,60; 50,110 arc; 0,60', 6000 + 1250 * Math.PI],
    ['100,0; 0,0; 0,60; 50,110 arc; 100,60', 6000 + 1250 * Math.PI],
    ['0,0; 100,0; 100,60; 50,10 arc; 0,60', 6000 - 1250 * Math.PI],
    // The through point need not be the middle: (80, 100) lies on the circle of 50 round (50, 60).
    ['0,0; 100,0; 100,60; 80,100 arc; 0,60', 6000 + 1250 * Math.PI],
    // The arc may close the outline.
    ['100,60; 50,110 arc; 0,60; 0,0; 100,0', 6000 + 1250 * Math.PI],
    ['50,110 arc; 0,60; 0,0; 100,0; 100,60', 6000 + 1250 * Math.PI],
  ])('%s', (given, area) => expect(signedArea(loopOf(given))).toBeCloseTo(area, 6));

  test('more than half a circle: 3-4-5, radius 50 round (0, 30)', () => {
    const [a, b] = loopOf('-40,0; 40,0; 0,80 arc');
    const long = [a, b].find((v) => v?.bulge !== 0);
    const other = [a, b].find((v) => v?.bulge === 0);
    if (long === undefined || other === undefined) throw new Error('no arc');
    const arc = arcOf([long.x, long.y], [other.x, other.y], long.bulge);
    expect([...arc.centre, arc.radius]).toEqual([
      expect.closeTo(0, 9),
      expect.closeTo(30, 9),
      expect.closeTo(50, 9),
    ]);
    expect(arc.sweepRad).toBeCloseTo(2 * Math.PI - 2 * Math.atan2(4, 3), 9);
  });
});

test('a list of objects and texts reads like the text', () => {
  expect(
    loopOf([
      { x: 0, y: 0 },
      { x: 120, y: '0', r: 8 },
      '120,80',
      { x: 60, y: 95, arc: true },
      '0,80',
    ]),
  ).toEqual(loopOf('0,0; 120,0 r8; 120,80; 60,95 arc; 0,80'));
});

describe('refusals name the point', () => {
  test.each([
    ['0,0; 120; 120,80', "'120' as point 2"],
    ['0,0; 120,0 r; 120,80', 'as point 2'],
    ['0,0; 120,frog; 120,80', "'120,frog' as point 2"],
    ['0,0; 10001,0; 120,80', 'as point 2 x: must lie between -10000 and 10000'],
    ['0,0; 120,0;; 120,80', 'as point 3'],
    ['0,0; 120,0', 'three points at least'],
    ['', 'three points at least; there are 0'],
    ['0,0; 120,0; 120,0; 0,80', 'points 2 and 3 lie on each other'],
    ['0,0; 120,0; 120,80; 0,0', 'points 4 and 1 lie on each other'],
    ['0,0; 60,0 arc; 120,0; 120,80', 'points 1, 2 and 3 lie on a straight line'],
    ['0,0; 60,9 arc; 90,8 arc; 120,80', 'points 2 and 3 are both on an arc'],
    ['0,0; 100,0; 100,60 r5; 50,110 arc; 0,60', 'point 3 has a radius and an arc beside it'],
    [
      '0,0; 120,0 r81; 120,80; 0,80',
      'r81 at point 2 is too big for the edges beside it: give at most 80',
    ],
    ['0,0; 100,100; 100,0; 0,90', 'meets itself at 47.37,47.37'],
    [
      [
        { x: 0, y: 0 },
        { x: 5, y: 0, r: 2, arc: true },
        { x: 5, y: 5 },
      ],
      'as point 2 leave out the radius',
    ],
    [
      [
        { x: 0, y: 0 },
        { x: 5, y: 0, r: -2 },
        { x: 5, y: 5 },
      ],
      'as point 2 r: must lie between 0',
    ],
  ] as const)('%j', (given, said) => expect(refusalOf(given as OutlineInput)).toContain(said));

  test('80 is the largest radius that fits', () =>
    expect(refusalOf('0,0; 120,0 r80; 120,80; 0,80')).toBe('no refusal'));
});
