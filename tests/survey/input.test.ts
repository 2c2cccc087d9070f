import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readDistances } from '../../src/forms/distances.ts';
import type { FieldReading } from '../../src/forms/field.ts';
import { optionalPoints, points, readPoints } from '../../src/forms/points.ts';
import { fixedRuns } from '../helpers/extent.ts';

const valueOf = <T>(reading: FieldReading<T>): T => {
  if (!reading.ok) throw new Error(`${reading.given}: ${reading.mend}`);
  return reading.value;
};
const refusalOf = <T>(reading: FieldReading<T>): string => {
  if (reading.ok) throw new Error(`read as ${JSON.stringify(reading.value)}`);
  return `${reading.given ?? ''} | ${reading.mend ?? ''}`;
};

describe('distances', () => {
  test.each([
    [
      'A-B: 312, A-C: 188.5, B-C: 240',
      [
        ['A', 'B', 312],
        ['A', 'C', 188.5],
        ['B', 'C', 240],
      ],
    ],
    [
      'A-B:312;A-C:188.5\nB-C:240\n',
      [
        ['A', 'B', 312],
        ['A', 'C', 188.5],
        ['B', 'C', 240],
      ],
    ],
    [
      '  front_left - P.2 : 4in ;; 1-2: 1m',
      [
        ['front_left', 'P.2', 101.6],
        ['1', '2', 1000],
      ],
    ],
    [
      'Süd-Öl: 2 1/2", Süd-Öl: 600/2 - 3',
      [
        ['Süd', 'Öl', 63.5],
        ['Süd', 'Öl', 297],
      ],
    ],
  ] as const)('%j', (text, expected) => {
    expect(valueOf(readDistances(text)).distances).toEqual(
      expected.map(([from, to, mm]) => ({ from, to, mm })),
    );
  });

  test('sides stand among them', () => {
    expect(
      valueOf(readDistances('A-B: 3, A - B - C: Left, B-C: 4; C-A: 5\nC-A-B: right')).sides,
    ).toEqual([
      { from: 'A', to: 'B', point: 'C', side: 'left' },
      { from: 'C', to: 'A', point: 'B', side: 'right' },
    ]);
  });

  test.each([
    ['', /no distance.*such as A-B: 312/],
    [' ,;\n', /no distance/],
    ['A-B', /'A-B'.*such as A-B: 312/],
    ['A-B: 312,5', /'5'.*decimal with a point, such as 312\.5/],
    ['A-B: ', /nothing is given/],
    ['A-B: 12 parsecs', /'A-B: 12 parsecs'.*'parsecs' at character 4 is no unit/],
    ['A-B: 0', /more than 0/],
    ['A-B: -5', /more than 0/],
    ['A-B: 100000', null],
    ['A-B: 100001', /100000 mm/],
    ['A-A: 5', /A from itself/],
    ['AB: 5', /two points with a hyphen/],
    ['A-B-C-D: 5', /two points with a hyphen/],
    ['A B-C: 5', /two points with a hyphen/],
    [`${'x'.repeat(24)}-B: 5`, null],
    [`${'x'.repeat(25)}-B: 5`, /up to 24/],
    ['A-B: 5, A-B-C: 7', /left or right.*from A to B does C/],
    ['A-B: 5, A-B-B: left', /three different points/],
    ['A-B: 5, A-B-C: left', /no distance names C; points are A, B/],
  ])('%j', (text, reason) => {
    if (reason === null) valueOf(readDistances(text));
    else expect(refusalOf(readDistances(text))).toMatch(reason);
  });

  const star = (n: number): string => Array.from({ length: n }, (_, i) => `A-B${i}: 5`).join();
  test('30 points and 400 distances are the most', () => {
    expect(valueOf(readDistances(star(29))).distances).toHaveLength(29);
    expect(refusalOf(readDistances(star(30)))).toMatch(/31 points.*at most 30/);
    const repeated = (n: number): string => Array.from({ length: n }, () => 'A-B: 5').join();
    expect(valueOf(readDistances(repeated(400))).distances).toHaveLength(400);
    expect(refusalOf(readDistances(repeated(401)))).toMatch(/401 distances/);
    expect(refusalOf(readDistances(repeated(801)))).toMatch(/801 entries/);
  });
});

describe('points', () => {
  test.each([
    [
      '0,0; 40,25.5',
      [
        ['P1', 0, 0],
        ['P2', 40, 25.5],
      ],
    ],
    [
      'A: 1in,0; -10,5;',
      [
        ['A', 25.4, 0],
        ['P2', -10, 5],
      ],
    ],
    [
      'front: 10-2*3, 7\nrear: -4, -8',
      [
        ['front', 4, 7],
        ['rear', -4, -8],
      ],
    ],
    ['-10,-5', [['P1', -10, -5]]],
    ['10-2,3', [['P1', 8, 3]]],
  ] as const)('%j', (text, expected) => {
    expect(valueOf(readPoints(text))).toEqual({
      points: expected.map(([name, x, y]) => ({ name, x, y })),
      survey: null,
    });
  });

  test('distances give the points, and how they were found', () => {
    const { points: found, survey } = valueOf(
      readPoints('A-B: 400, B-C: 300, A-C: 500, A-B-C: right'),
    );
    expect(found.map((p) => p.name)).toEqual(['A', 'B', 'C']);
    expect(found[2]?.x).toBeCloseTo(400, 6);
    expect(found[2]?.y).toBeCloseTo(-300, 6);
    expect(survey?.residuals).toHaveLength(3);
  });

  test.each([
    ['', /at least/],
    ['1', /x,y/],
    ['1,2,3', /one comma/],
    ['1,2;;3,4', /'' as point 2/],
    ['1,2; x,4', /'x,4' as point 2.*x: 'x' at character 1/],
    ['1,y', /y: /],
    ['10001,0', /-10000 and 10000/],
    ['0,-10001', /-10000 and 10000/],
    ['A: 1,2; A: 3,4', /a point A already/],
    ['1,2; P1: 3,4', /a point P1 already/],
    ['A: 1,2; B: 1,2', /A lies at 1,2 already/],
    ['A B: 1,2', /a name has/],
    ['A-B: 312, A-C: 100', /do not pin the figure down.*One more distance/],
    ['A-B: 312, A-C: 100, B-C: 100', /A-C-B comes to 200 mm only/],
    ['A-B', /such as A-B: 312/],
  ])('%j', (text, reason) => {
    expect(refusalOf(readPoints(text))).toMatch(reason);
  });

  test('no text makes it throw', () => {
    const bits = fc.array(
      fc.constantFrom('A', 'B', 'C', '-', ':', ',', ';', '1', '30', ' ', '\n', 'left', '#', 'mm'),
      { maxLength: 30 },
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary', maxLength: 80 }),
          bits.map((b) => b.join('')),
        ),
        (text) => {
          const reading = readPoints(text);
          expect(
            reading.ok
              ? reading.value.points.every((p) => Number.isFinite(p.x + p.y))
              : reading.mend !== undefined,
          ).toBe(true);
        },
      ),
      { numRuns: fixedRuns(1000) },
    );
  });

  test('as a field they carry their description, and may be left out where that is said', () => {
    const field = points({ about: 'Bolt holes of the plate.' });
    expect(field.facts).toMatchObject({
      kind: 'text',
      about: 'Bolt holes of the plate.',
      allowed: expect.stringContaining('name: x,y'),
    });
    expect(field.read('0,0;10,0')).toMatchObject({ value: { points: { length: 2 } } });
    expect(field.read(undefined).ok).toBe(false);
    expect(field.read('0')).toMatchObject({ flaws: [{ given: "'0' as point 1" }] });
    expect(
      optionalPoints({ about: 'Pick-up holes.', otherwise: 'there are none' }).read(undefined),
    ).toEqual({ ok: true, value: undefined });
  });
});
