import { describe, expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { foldUp } from '../../src/fold/fold-up.ts';
import { polygon, rectangle } from '../../src/geometry/loop.ts';
import { dot3 } from '../../src/geometry/vec3.ts';
import type { Pose } from '../../src/geometry/pose.ts';
import { angle, fold, panel, part } from '../helpers/parts.ts';

const K042 = { id: 'k', k: 0.42 } as const;

/** Worked by hand from the definitions of setback and allowance, K = 0.42; rounded to 0.0001 mm. */
describe('blanks worked by hand', () => {
  it.each([
    { angleDeg: 90, setback: 6, allowance: 6.6916, deduction: 5.3084, blank: 94.6916 },
    { angleDeg: 45, setback: 2.4853, allowance: 3.3458, deduction: 1.6248, blank: 98.3752 },
    { angleDeg: 120, setback: 6, allowance: 8.9221, deduction: 3.0779, blank: 96.9221 },
  ])(
    'angle 60 x 40 x $angleDeg degrees in 3 mm sheet',
    ({ angleDeg, setback, allowance, deduction, blank }) => {
      for (const direction of ['up', 'down'] as const) {
        const flat = flatten(angle(60, 40, 80, angleDeg, 3, 3, direction), K042);
        const [bend] = flat.bends;
        expect(flat.heightMm).toBeCloseTo(blank, 4);
        expect(flat.widthMm).toBe(80);
        expect(flat.outline).toHaveLength(4);
        expect([bend?.setbackMm, bend?.allowanceMm, bend?.deductionMm]).toEqual([
          expect.closeTo(setback, 4),
          expect.closeTo(allowance, 4),
          expect.closeTo(deduction, 4),
        ]);
        const line = 60 - setback + allowance / 2;
        expect(bend?.centreLine).toEqual([
          [80, expect.closeTo(line, 3)],
          [0, expect.closeTo(line, 3)],
        ]);
      }
    },
  );

  it('zed of 40, offset 50 and 30 in 2 mm sheet', () => {
    const zed = part(
      [
        panel('a', rectangle(0, 0, 60, 40)),
        panel('web', rectangle(0, 0, 60, 50)),
        panel('b', rectangle(0, 0, 60, 30)),
      ],
      [
        fold('A', { panel: 'a', edge: 2 }, { panel: 'web', edge: 0 }, 90, 'up', 2),
        fold('B', { panel: 'web', edge: 2 }, { panel: 'b', edge: 0 }, 90, 'down', 2),
      ],
      { thicknessMm: 2 },
    );
    const flat = flatten(zed, K042);
    expect(flat.bends.map((b) => b.deductionMm)).toEqual([
      expect.closeTo(3.5389, 4),
      expect.closeTo(3.5389, 4),
    ]);
    expect(flat.heightMm).toBeCloseTo(112.9221, 4);
  });

  it('a frustum 200 x 200 to 100 x 100 over 150: 84.2608 degrees between the normals of neighbouring walls', () => {
    const slope = (Math.atan(50 / 150) * 180) / Math.PI;
    const slant = Math.hypot(50, 150);
    const wall = polygon([0, 0], [200, 0], [150, slant], [50, slant]);
    const pyramid = part(
      [panel('base', rectangle(0, 0, 200, 200)), panel('south', wall), panel('east', wall)],
      [
        fold('S', { panel: 'base', edge: 0 }, { panel: 'south', edge: 0 }, 90 + slope, 'up', 1.5),
        fold('E', { panel: 'base', edge: 1 }, { panel: 'east', edge: 0 }, 90 + slope, 'up', 1.5),
      ],
      { thicknessMm: 1.5 },
    );
    const { poses } = foldUp(pyramid, flatten(pyramid, K042));
    const between = dot3((poses.get('south') as Pose).z, (poses.get('east') as Pose).z);
    expect((Math.acos(between) * 180) / Math.PI).toBeCloseTo(84.2608, 4);
  });
});
