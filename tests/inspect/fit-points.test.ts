import { describe, expect, test } from 'vitest';
import { throughFitPoints } from '../../src/dxf/read/fit-points.ts';
import type { Spline } from '../../src/dxf/read/primitive.ts';
import { splinePoint, splineSpans } from '../../src/dxf/read/spline.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import { dxfOf, foundRules, inspected } from '../helpers/drawn-dxf.ts';

const POINTS: readonly Vec2[] = [
  [0, 0],
  [10, 2],
  [14, 9],
  [30, 11],
  [33, 0],
];

/** The point at a share of the whole parameter. */
const pointAt = (spline: Spline, share: number): Vec2 => {
  const t = share * (spline.knots.at(-1) as number);
  const spans = splineSpans(spline);
  const span = spans.findLast((i) => (spline.knots[i] as number) <= t && share < 1);
  return splinePoint(spline, span ?? (spans.at(-1) as number), t).at;
};

const through = (ends: Parameters<typeof throughFitPoints>[1], points = POINTS): Spline => {
  const made = throughFitPoints(points, ends);
  if (made === undefined) throw new Error('no curve');
  return made;
};

/** Points of `fit_points_to_cad_cv` of ezdxf 1.4.4, at eighths of its parameter. */
const OPEN: readonly Vec2[] = [
  [0, 0],
  [6.314705, 0.265647],
  [10.703666, 2.882329],
  [13.334196, 8.06262],
  [18.11807, 11.904425],
  [24.554237, 12.94238],
  [29.96867, 11.027074],
  [32.419466, 6.291166],
  [33, 0],
];
/** The same with the directions 1, 1 and 0, -1 at the ends. */
const DIRECTED: readonly Vec2[] = [
  [0, 0],
  [5.659017, 1.323893],
  [10.809616, 2.709989],
  [13.381666, 7.982839],
  [18.00097, 12.122083],
  [24.447306, 13.169667],
  [29.967674, 11.029616],
  [32.517921, 6.004838],
  [33, 0],
];

describe('a curve by the points that it passes', () => {
  test.each([
    ['straight at its ends', undefined, undefined, OPEN],
    ['in given directions', [Math.SQRT1_2, Math.SQRT1_2], [0, -1], DIRECTED],
  ] as const)('runs as ezdxf has it, %s', (_, start, end, wanted) => {
    const made = through({ start, end, isClosed: false });
    wanted.forEach((at, i) => {
      const [x, y] = pointAt(made, i / 8);
      expect([x, y]).toEqual([expect.closeTo(at[0], 4), expect.closeTo(at[1], 4)]);
    });
  });

  test('is round where its points lie on a circle and it is closed, its last point given or not', () => {
    const points = Array.from({ length: 12 }, (_, k): Vec2 => [
      20 * Math.cos((k * Math.PI) / 6),
      20 * Math.sin((k * Math.PI) / 6),
    ]);
    for (const given of [points, [...points, points[0] as Vec2]]) {
      const made = through({ start: undefined, end: undefined, isClosed: true }, given);
      // Between points a cubic leaves a circle by some h^4 / 384 of its radius, h the step in radians
      // (error of cubic interpolation; from memory): 0.004 here.
      for (let k = 0; k <= 96; k++)
        expect(Math.abs(Math.hypot(...pointAt(made, k / 96)) - 20)).toBeLessThan(0.006);
    }
  });

  test('is read by inspect, which asks to compare it; without points there is none', () => {
    const spline = (groups: string): string => dxfOf(`0\nSPLINE\n8\nCUT\n${groups}`);
    const closed = POINTS.map(([x, y]) => `11\n${x}\n21\n${y}`).join('\n');
    const found = inspected(spline(`70\n9\n${closed}`));
    expect(found.inspection.contours.closed).toBe(1);
    expect(foundRules(found, 'stop')).toEqual([]);
    expect(found.inspection.findings.map((f) => f.message).join(' ')).toContain(
      'given by points that it passes',
    );
    for (const groups of ['70\n8', '70\n8\n11\n1\n21\n1', '70\n9\n11\n1\n21\n1\n11\n1\n21\n1'])
      expect(foundRules(inspected(spline(groups)), 'stop')).toContain('unreadable');
  });
});
