import { describe, expect, test } from 'vitest';
import { makeParts } from '../../src/use/make/make-parts.ts';
import panels from '../../templates/panels/index.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/** Three flanges on a triangle lean in at 60 degrees and meet in a point over its middle. */
const pyramid = (height: number) => ({
  thickness: 2,
  base: 'polygon 3 40',
  flanges: [1, 2, 3].map((n) => `p${n} on base ${n} ${height} 120 up`),
});

const stopsOf = (height: number): string[] => {
  const made = makeParts(panels, pyramid(height), UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts.flatMap(({ result }) =>
    result.findings.filter(({ severity }) => severity === 'stop').map(({ message }) => message),
  );
};

describe('flanges that meet in a point', () => {
  test('are told how high they may be, and are made as high as that', () => {
    const [first, ...others] = stopsOf(45);
    expect(others).toHaveLength(2);
    const [, top, most] = /ends ([\d.]+) up: make it at most ([\d.]+) high/.exec(first ?? '') ?? [];
    // Measured to the outermost tangent of their bends they would meet 40 / cos 60 / 2 up the slope,
    // less what the bends and the gap take.
    expect(Number(top)).toBeGreaterThan(36);
    expect(Number(top)).toBeLessThan(41);
    expect(stopsOf(Number(most))).toEqual([]);
    expect(stopsOf(Number(top) + 0.1)).toHaveLength(3);
  });

  test('lower than that are none of its business', () => expect(stopsOf(20)).toEqual([]));
});
