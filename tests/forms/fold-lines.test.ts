import { describe, expect, test } from 'vitest';
import { type FoldLinesInput, readFoldLines } from '../../src/forms/fold-lines.ts';

describe('fold lines', () => {
  const two = [
    {
      from: { at: [0, 40] },
      to: { at: [120, 40] },
      angleDeg: 90,
      direction: 'up',
      insideRadiusMm: 3,
    },
    { from: { at: [-5, 10] }, to: { at: [25.4, 60] }, angleDeg: 22.5, direction: 'down' },
  ];
  test.each([
    ['0,40 120,40 90 up r3; -5,10 1in,60 22.5 down'],
    [' 0 , 40  120,40 90 UP R3\n-5,10 25.4,60 22.5 down;'],
    [[{ from: '0,40', to: '120,40', angle: 90, direction: 'up', r: 3 }, '-5,10 25.4,60 22.5 down']],
  ] as const)('%j', (given) =>
    expect(readFoldLines(given as FoldLinesInput)).toEqual({ ok: true, value: two }),
  );

  test.each([
    '0,40 120,40 45 up slots r3 joggle2.5',
    '0,40 120,40 45 up JOGGLE2.5 Slots R3',
    [{ from: '0,40', to: '120,40', angle: 45, direction: 'up', r: 3, joggle: '2.5', slots: true }],
  ])('%j is slotted and joggled', (given) =>
    expect(readFoldLines(given)).toEqual({
      ok: true,
      value: [
        {
          from: { at: [0, 40] },
          to: { at: [120, 40] },
          angleDeg: 45,
          direction: 'up',
          insideRadiusMm: 3,
          slots: true,
          joggleMm: 2.5,
        },
      ],
    }),
  );

  test('from one named point to another', () =>
    expect(readFoldLines('A C2 90 up')).toEqual({
      ok: true,
      value: [{ from: { name: 'A' }, to: { name: 'C2' }, angleDeg: 90, direction: 'up' }],
    }));

  test('none', () => expect(readFoldLines('')).toEqual({ ok: true, value: [] }));

  test.each([
    ['0,40 120,40 90', "'0,40 120,40 90' as fold line 1", 'write two points'],
    ['0,40 120,40 90 up; 0 9,9 90 up', 'as fold line 2', 'first point: write x,y'],
    ['0,40 120,frog 90 up', 'as fold line 1', 'second point: '],
    ['0,40 10001,40 90 up', 'as fold line 1', 'second point: must lie between -10000 and 10000 mm'],
    ['0,40 120,40 181 up', 'as fold line 1', 'angle: must lie between 0.5 and 180 degrees'],
    ['0,40 120,40 0.4 up', 'as fold line 1', 'angle: must lie between 0.5 and 180 degrees'],
    ['0,40 120,40 90 left', 'as fold line 1', 'direction: write up or down'],
    [
      '0,40 120,40 90 up 3',
      'as fold line 1',
      'write the radius as r3, slots, or the offset as joggle2',
    ],
    ['0,40 120,40 90 up r3 r4', 'as fold line 1', 'write r once'],
    ['0,40 120,40 90 up slots slots', 'as fold line 1', 'write slots once'],
    ['0,40 120,40 90 up slots4', 'as fold line 1', 'write slots alone'],
    ['0,40 120,40 90 up joggle', 'as fold line 1', 'joggle: '],
    ['0,40 120,40 90 up joggle0.09', 'as fold line 1', 'joggle: must lie between 0.1 and 1000 mm'],
    ['0,40 120,40 91 up joggle2', 'as fold line 1', 'angle: must lie between 0.5 and 90 degrees'],
    ['0,40 120,40 90 up r1001', 'as fold line 1', 'r: must lie between 0 and 1000 mm'],
    ['A A 90 up', 'as fold line 1', 'the two points lie on each other'],
    ['0,40 0,40 90 up', 'as fold line 1', 'the two points lie on each other'],
  ])('%s is refused', (given, which, why) => {
    const read = readFoldLines(given);
    expect(read.ok ? [] : [read.given, read.mend]).toEqual([
      expect.stringContaining(which),
      expect.stringContaining(why),
    ]);
  });

  test.each([0.5, 180])('%d degrees is allowed', (angle) =>
    expect(readFoldLines(`0,40 120,40 ${angle} up`).ok).toBe(true),
  );
});
