import { expect, test } from 'vitest';
import { readFloorSteps } from '../../src/forms/floor-steps.ts';

const mendOf = (given: string): string | undefined => {
  const read = readFloorSteps(given);
  return read.ok ? undefined : read.mend;
};

test('steps of a floor are read in any order and unit, and come in that of their places', () => {
  expect(readFloorSteps('x 420 down 1.5in; x 12in up 40')).toEqual({
    ok: true,
    value: [
      { axis: 'x', atMm: expect.closeTo(304.8, 9), upMm: 40 },
      { axis: 'x', atMm: 420, upMm: expect.closeTo(-38.1, 9) },
    ],
  });
  expect(readFloorSteps('Y -20 UP 8')).toEqual({
    ok: true,
    value: [{ axis: 'y', atMm: -20, upMm: 8 }],
  });
});

test('what is no step is refused with how one is written', () => {
  for (const given of ['300 up 40', 'x 300 40', 'x up 40', 'z 300 up 40'])
    expect(mendOf(given)).toContain('x 300 up 40');
  expect(mendOf('x 300 up 0')).toContain('over 0');
  expect(mendOf('x 300 up -5')).toContain('over 0');
  expect(mendOf('x 3 up ell')).toBeDefined();
  expect(mendOf('x 300 up 40; y 20 up 5')).toBe('give all steps along one axis, x or y');
  expect(mendOf('x 300 up 40; x 300 up 5')).toContain('already');
  expect(mendOf('')).toBe('give one step at least');
  expect(mendOf(Array.from({ length: 7 }, (_, i) => `x ${i} up 5`).join('; '))).toContain('6');
});
