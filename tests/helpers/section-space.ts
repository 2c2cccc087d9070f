import fc from 'fast-check';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import type { Vec3 } from '../../src/geometry/vec3.ts';

/** Spaces as a man measures them: sections at stations, by no code of the tool. */

export interface Measured {
  readonly atMm: number;
  readonly corners: readonly Vec2[];
  /** How far it is turned against the one before it. */
  readonly turnedDeg: number;
}

const tenths = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: min * 10, max: max * 10 }).map((n) => n / 10);

/** A box, one with a corner cut off, a triangle, or an L. */
const shapeOf = (kind: string, w: number, h: number, cut: number): Vec2[] => {
  const shapes: Record<string, Vec2[]> = {
    box: [
      [0, 0],
      [w, 0],
      [w, h],
      [0, h - cut / 3],
    ],
    cut: [
      [0, 0],
      [w - cut, 0],
      [w, cut],
      [w, h],
      [0, h],
    ],
    triangle: [
      [0, 0],
      [w, 0],
      [w / 3, h],
    ],
    ell: [
      [0, 0],
      [w, 0],
      [w, h / 2],
      [w / 2, h / 2],
      [w / 2, h],
      [0, h],
    ],
  };
  return shapes[kind] as Vec2[];
};

/** The corners with each side moved inwards by so much. */
const sidesMoved = (corners: readonly Vec2[], by: readonly number[]): Vec2[] =>
  corners.map((b, i) => {
    const n = corners.length;
    const [a, c] = [corners[(i + n - 1) % n] as Vec2, corners[(i + 1) % n] as Vec2];
    const line = (p: Vec2, q: Vec2, mm: number): readonly [number, number, number] => {
      const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
      const [nx, ny] = [-(q[1] - p[1]) / long, (q[0] - p[0]) / long];
      return [nx, ny, nx * p[0] + ny * p[1] + mm];
    };
    const [p, q, r] = line(a, b, by[(i + n - 1) % n] as number);
    const [s, t, u] = line(b, c, by[i] as number);
    return [(r * t - q * u) / (p * t - q * s), (p * u - r * s) / (p * t - q * s)];
  });

const turned = (corners: readonly Vec2[], deg: number, [dx, dy]: Vec2): Vec2[] => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return corners.map(([x, y]) => [c * x - s * y + dx, s * x + c * y + dy]);
};

/**
 * Two or three sections whose sides run alike, so that all walls are flat; turned against each other
 * by so much each they are all warped.
 */
export const anySpace = (turnsDeg: readonly number[]): fc.Arbitrary<readonly Measured[]> =>
  fc
    .record({
      kind: fc.constantFrom('box', 'cut', 'triangle', 'ell'),
      w: tenths(260, 500),
      h: tenths(240, 400),
      cut: tenths(40, 80),
      runs: fc.array(tenths(150, 450), { minLength: 1, maxLength: 2 }),
      by: fc.array(fc.array(tenths(-12, 12), { minLength: 6, maxLength: 6 }), {
        minLength: 2,
        maxLength: 2,
      }),
      shift: fc.tuple(tenths(-25, 25), tenths(-25, 25)),
      turn: fc.constantFrom(...turnsDeg),
      start: tenths(-100, 100),
    })
    .map(({ kind, w, h, cut, runs, by, shift, turn, start }) => {
      const sections: Measured[] = [
        { atMm: start, corners: shapeOf(kind, w, h, cut), turnedDeg: 0 },
      ];
      for (const [k, run] of runs.entries()) {
        const { atMm, corners } = sections.at(-1) as Measured;
        sections.push({
          atMm: atMm + run,
          corners: turned(sidesMoved(corners, by[k] as number[]), turn, shift),
          turnedDeg: turn,
        });
      }
      return sections;
    });

export const textOf = (sections: readonly Measured[]): string =>
  sections
    .map(({ atMm, corners }) => `${atMm}: ${corners.map((c) => c.join(',')).join('; ')}`)
    .join(' | ');

/** The corners of a section in the frame of the tank: x along the stations, z up. */
export const inFrame = ({ atMm, corners }: Measured): Vec3[] =>
  corners.map(([x, y]) => [atMm, x, y]);
