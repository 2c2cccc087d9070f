import { describe, expect, test } from 'vitest';
import { readCutouts } from '../../src/forms/cutouts.ts';
import { outlineLoop } from '../../src/forms/outline.ts';

describe('cut-outs', () => {
  const window = { x: 10, y: 10, bulge: 0 };
  test.each([
    ['10,10; 30,10; 30,20; 10,20 | 50,10; 60,10; 55,20'],
    ['10,10; 10,20; 30,20; 30,10|50,10; 60,10; 55,20;'],
    [[[{ x: 10, y: 10 }, '30,10', '30,20', '10,20'], '50,10; 60,10; 55,20']],
  ])('%j are two loops, counter-clockwise', (given) => {
    const read = readCutouts(given);
    const loops = read.ok
      ? read.value
          .map((outline) => outlineLoop(outline, () => undefined))
          .map((loop) => (loop.ok ? loop.value : []))
      : [];
    expect(loops.map((loop) => loop.length)).toEqual([4, 3]);
    expect(loops[0]).toContainEqual(window);
    // Shoelace: 20 x 10 and 10 x 10 / 2.
    const areas = loops.map((loop) =>
      loop.reduce(
        (s, v, i) =>
          s +
          (v.x * (loop[(i + 1) % loop.length]?.y ?? 0) -
            (loop[(i + 1) % loop.length]?.x ?? 0) * v.y) /
            2,
        0,
      ),
    );
    expect(areas).toEqual([200, 50]);
  });

  test('none', () =>
    expect([readCutouts(''), readCutouts('  '), readCutouts([])]).toEqual(
      [1, 2, 3].map(() => ({ ok: true, value: [] })),
    ));

  test.each([
    ['10,10; 30,10; 30,20 | 1,1; 2,2', 'cut-out 2: give three points at least'],
    ['10,10; 30,10; 12', 'cut-out 1: write x,y'],
    ['10,10; 30,10; 30,20 |', 'cut-out 2: '],
    [Array.from({ length: 201 }, () => '0,0; 9,0; 9,9').join('|'), 'give at most 200'],
  ])('%.40s is refused', (given, mend) => {
    const read = readCutouts(given);
    expect(read.ok ? '' : read.mend).toContain(mend);
  });
});
