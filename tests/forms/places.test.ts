import { describe, expect, test } from 'vitest';
import { readNamedHoles } from '../../src/forms/hole-size.ts';
import { readLine, readPlace, readSide } from '../../src/forms/places.ts';

const round = (diameterMm: number) => ({ kind: 'round', diameterMm });

describe('a place', () => {
  test.each([
    ['12,-3.5', { at: [12, -3.5] }],
    [' 1in , 2 ', { at: [25.4, 2] }],
    ['P1', { name: 'P1' }],
    ['12', { name: '12' }],
  ])('%s', (given, value) => expect(readPlace(given)).toEqual({ ok: true, value }));

  test.each([
    ['12,3,4', /one comma/],
    ['12,abc', /y: /],
    ['10001,0', /between -10000 and 10000/],
    ['', /x,y/],
  ])('%j is refused', (given, mend) => {
    const read = readPlace(given);
    expect(read.ok ? '' : read.mend).toMatch(mend);
  });
});

describe('a line', () => {
  test.each([
    ['0,40 120,55', [{ at: [0, 40] }, { at: [120, 55] }]],
    ['0, 40  120 ,55', [{ at: [0, 40] }, { at: [120, 55] }]],
    ['A 10,20', [{ name: 'A' }, { at: [10, 20] }]],
  ])('%s', (given, value) => expect(readLine(given)).toEqual({ ok: true, value }));

  test.each(['0,40', 'A B C', '', '1,2 x,y'])('%j is refused', (given) =>
    expect(readLine(given).ok).toBe(false),
  );
});

describe('a side', () => {
  test.each([
    ['Left', { facing: [-1, 0] }],
    ['top', { facing: [0, 1] }],
    ['A-B', { between: ['A', 'B'] }],
    [' P1 - P2 ', { between: ['P1', 'P2'] }],
  ])('%s', (given, value) => expect(readSide(given)).toEqual({ ok: true, value }));

  test.each(['up', 'A-A', 'A-B-C', 'A-', ''])('%j is refused', (given) =>
    expect(readSide(given).ok).toBe(false),
  );
});

describe('holes at named points', () => {
  test.each([
    // M12 through, medium series of ISO 273.
    ['P: M12', [{ name: 'P', hole: { shape: round(13.5), use: { screw: 'M12' } } }]],
    [
      'P: 12.5; Q: none;',
      [
        { name: 'P', hole: { shape: round(12.5) } },
        { name: 'Q', hole: null },
      ],
    ],
    [
      'C: 8x20@30',
      [{ name: 'C', hole: { shape: { kind: 'slot', widthMm: 8, lengthMm: 20, turnDeg: 30 } } }],
    ],
    ['', []],
  ])('%s', (given, value) => expect(readNamedHoles(given)).toEqual({ ok: true, value }));

  test.each([
    ['P', /name, ':' and the size/],
    ['P: 5; P: 6', /P has a size already/],
    ['P: huge', /./],
    ['P Q: 5', /letters, digits/],
    ['P: 20x8', /overall length comes second/],
  ])('%s is refused', (given, mend) => {
    const read = readNamedHoles(given);
    expect(read.ok ? '' : read.mend).toMatch(mend);
  });
});
