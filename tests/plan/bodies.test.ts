import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { CONTACT_GAP_MM } from '../../src/geometry/tolerance.ts';
import type { Section } from '../../src/model/machine.ts';
import { bodiesOf } from '../../src/plan/machines/bodies.ts';
import { folderBodies } from '../../src/plan/machines/folder.ts';
import { fuzzRuns } from '../helpers/extent.ts';

type Point = readonly [number, number];
interface Box {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
}

const sectionOf = ({ x: [l, r], y: [b, t] }: Box): Section => [
  [l, b],
  [r, b],
  [r, t],
  [l, t],
];

/** Whether a point lies within a convex polygon that runs counter-clockwise. */
const isIn = (polygon: Section, [x, y]: Point): boolean =>
  polygon.every((a, i) => {
    const b = polygon[(i + 1) % polygon.length] ?? a;
    return (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]) >= 0;
  });

const inBox = ({ x, y }: Box, [px, py]: Point): boolean =>
  px > x[0] && px < x[1] && py > y[0] && py < y[1];

describe('a body less the contact gap', () => {
  // The leaf is 20 thick above its stiffener. What lies against its face does not reach into it,
  // whatever stands lower down.
  test('the face of a leaf gives way above its stiffener as elsewhere', () => {
    const bodies = bodiesOf(folderBodies(BOX_PAN).leaf);
    const has = (p: Point): boolean => bodies.some((b) => isIn(b.lessGap, p));
    const gap = CONTACT_GAP_MM;
    expect([has([20 - gap + 0.01, -30]), has([20 - gap - 0.01, -30])]).toEqual([false, true]);
    expect([has([60 - gap + 0.01, -100]), has([60 - gap - 0.01, -100])]).toEqual([false, true]);
    // Where leaf and stiffener are one there is no slit.
    for (let x = 1; x < 19; x += 0.5) expect(has([x, -60])).toBe(true);
    for (let y = -199; y < -61; y += 1) expect(has([20, y])).toBe(true);
  });

  const whole = fc.integer({ min: 0, max: 12 });
  const stretch = fc
    .tuple(whole, fc.integer({ min: 2, max: 8 }))
    .map(([a, w]): readonly [number, number] => [a, a + w]);
  const box: fc.Arbitrary<Box> = fc.record({ x: stretch, y: stretch });

  // A point belongs to it when a square of the gap all round lies in the body, and does not when
  // something a gap away along the axes lies outside: boxes have no other edges.
  test('of boxes in any position: the whole less the gap at its own edges alone', () => {
    fc.assert(
      fc.property(fc.array(box, { minLength: 1, maxLength: 4 }), (boxes) => {
        const bodies = bodiesOf(boxes.map(sectionOf));
        const g = CONTACT_GAP_MM;
        const inAny = (p: Point): boolean => boxes.some((b) => inBox(b, p));
        for (let i = 0; i < 200; i++) {
          const p: Point = [((i * 7.13) % 20.37) + 0.0101, ((i * 3.71) % 19.93) + 0.0103];
          const around = [-1, -0.6, -0.2, 0.2, 0.6, 1].flatMap((u) =>
            [-1, -0.6, -0.2, 0.2, 0.6, 1].map((v): Point => [
              p[0] + u * g * 1.05,
              p[1] + v * g * 1.05,
            ]),
          );
          const found = bodies.some((b) => b.lessGap.length > 2 && isIn(b.lessGap, p));
          if (around.every(inAny)) expect(found, `${p.join()}`).toBe(true);
          const beside: Point[] = [
            [p[0] - g * 0.95, p[1]],
            [p[0] + g * 0.95, p[1]],
            [p[0], p[1] - g * 0.95],
            [p[0], p[1] + g * 0.95],
          ];
          if (!beside.every(inAny) || !inAny(p)) expect(found, `${p.join()}`).toBe(false);
        }
      }),
      { numRuns: fuzzRuns(150) },
    );
  });
});
