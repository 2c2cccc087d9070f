import { describe, expect, test } from 'vitest';
import { signedArea } from '../../src/geometry/measure.ts';
import { readOpening } from '../../src/forms/opening.ts';

const areaOf = (given: string): number => {
  const read = readOpening(given);
  if (!read.ok || read.value.kind === 'outline') throw new Error(given);
  return signedArea(read.value.loop);
};

describe('openings by their shape', () => {
  // Areas by the formulas of any table: pi d^2 / 4, a b - (4 - pi) r^2, (a + c) / 2 h.
  test.each([
    ['round 100', (Math.PI / 4) * 100 ** 2],
    ['ROUND 4in', (Math.PI / 4) * 101.6 ** 2],
    ['oval 120 x 60', 60 * 60 + (Math.PI / 4) * 60 ** 2],
    ['oval 60x120', 60 * 60 + (Math.PI / 4) * 60 ** 2],
    ['240 x 160', 240 * 160],
    ['240x160r20', 240 * 160 - (4 - Math.PI) * 400],
    ['10in x 6in r 1/2in', 254 * 152.4 - (4 - Math.PI) * 12.7 ** 2],
    ['240 to 200 x 160', 220 * 160],
    ['240 to 200 x 160 r0', 220 * 160],
  ])('%s', (given, area) => {
    expect(areaOf(given)).toBeCloseTo(area, 6);
  });

  test('an outline is one that plate would read', () => {
    const read = readOpening('0,0; 240,0 r12; 230,160; 15,150');
    expect(read.ok && read.value.kind === 'outline' && read.value.outline.corners).toHaveLength(4);
    expect(readOpening('A; B; C r5').ok).toBe(true);
    expect(
      readOpening([
        { x: 0, y: 0 },
        { x: 9, y: 0 },
        { x: 0, y: 9 },
      ]).ok,
    ).toBe(true);
  });

  test.each([
    ['round', 'write round 100'],
    ['round 0', 'write 1 to 5000 mm'],
    ['round 100 r5', 'write round 100'],
    ['240', 'write round 100'],
    ['oval 60 x 60', 'write round 60'],
    ['240 x', 'write round 100'],
    ['240 x 160 r90', 'give at most r80'],
    ['240 to 200', 'write round 100'],
    ['square 60', 'write round 100'],
    ['0,0; 10,0', 'three points'],
  ])('%s is refused with what would do', (given, mend) => {
    const read = readOpening(given);
    expect(read.ok ? '' : read.mend).toContain(mend);
  });
});
