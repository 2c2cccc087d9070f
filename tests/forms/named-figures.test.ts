import { describe, expect, test } from 'vitest';
import { readDipTable, readHeights, readSideAngles } from '../../src/forms/named-figures.ts';

const mendOf = (read: {
  readonly ok: boolean;
  readonly mend?: string | undefined;
}): string | undefined => (read.ok ? undefined : read.mend);

describe('heights', () => {
  test('are one for all, or several at points, corners and places', () => {
    expect(readHeights('12.5')).toEqual({ ok: true, value: { levelMm: 12.5, at: [] } });
    expect(readHeights('-1/2in')).toEqual({ ok: true, value: { levelMm: -12.7, at: [] } });
    expect(readHeights('A: 0; 3: 2*4\n120, 40: 1in;')).toEqual({
      ok: true,
      value: {
        at: [
          { place: { name: 'A' }, mm: 0 },
          { place: { name: '3' }, mm: 8 },
          { place: { at: [120, 40] }, mm: 25.4 },
        ],
      },
    });
  });

  test('are refused with what would do', () => {
    expect(mendOf(readHeights('A: 0; A: 3'))).toBe('there is a height of A already');
    expect(mendOf(readHeights('A: 0; 3'))).toBe("write what it is of, ':' and the height");
    expect(mendOf(readHeights('A: 20000; B: 0'))).toBe(
      'a height must lie between -10000 and 10000 mm',
    );
    expect(mendOf(readHeights('99999'))).toBe('a height must lie between -10000 and 10000 mm');
    expect(mendOf(readHeights('1,2,3: 4; B: 5'))).toContain('one comma between them');
    expect(mendOf(readHeights(';'))).toBeDefined();
    expect(mendOf(readHeights('high'))).toBeDefined();
    const many = Array.from({ length: 31 }, (_, i) => `${i}: 0`).join('; ');
    expect(mendOf(readHeights(many))).toBe('give at most 30');
  });
});

describe('angles of sides', () => {
  test('go by the number of the side', () => {
    expect(readSideAngles('2: 5; 4: -3.5', 30)).toEqual({
      ok: true,
      value: [
        { side: 2, deg: 5 },
        { side: 4, deg: -3.5 },
      ],
    });
    expect(mendOf(readSideAngles('left: 5', 30))).toBe('name a side by its number, counted from 1');
    expect(mendOf(readSideAngles('2: 31', 30))).toBe('give at most 30 degrees');
    expect(mendOf(readSideAngles('0: 5', 30))).toBeDefined();
  });
});

describe('a dip table', () => {
  test('rises from empty to full', () => {
    expect(readDipTable('-4: 0; 60: 9.5')).toEqual({
      ok: true,
      value: [
        { heightMm: -4, litres: 0 },
        { heightMm: 60, litres: 9.5 },
      ],
    });
    expect(mendOf(readDipTable('0: 1; 60: 9'))).toBe(
      'begin with the height at which it is empty, 0 litres',
    );
    expect(mendOf(readDipTable('0: 0; 60: 9; 50: 12'))).toBe(
      'give heights and litres that rise from row to row',
    );
    expect(mendOf(readDipTable('0: 0; 60: 9; 70: 9'))).toBe(
      'give heights and litres that rise from row to row',
    );
    expect(mendOf(readDipTable('0: 0'))).toBe('give two rows at least, empty and full');
    expect(mendOf(readDipTable('deep: 0; 1: 2'))).toBeDefined();
  });
});
