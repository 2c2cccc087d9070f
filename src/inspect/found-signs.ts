import { boxRing, line } from '../paper/draw/strokes.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { Severity } from '../model/finding.ts';
import type { PictureItem } from '../model/picture.ts';

/** The words that findings are told by, in the order of how much they matter. */
export const SEVERITY_WORDS: Readonly<Record<Severity, string>> = {
  stop: 'STOP',
  warn: 'WARNING',
  note: 'NOTE',
};

/** Half of a sign's size, mm. */
const HALF_MM = 2.4;

/**
 * The sign at a place where something was found, told apart by its form from a hole and from the
 * others: a heavy cross in a square for what stops, a triangle for a warning, a small square for a
 * note. All of them leave the place itself to be seen.
 */
export const foundSign = ([x, y]: Vec2, severity: Severity): PictureItem[] => {
  switch (severity) {
    case 'stop':
      return [
        frame([x, y], HALF_MM, 0.8),
        ...[1, -1].flatMap((way) =>
          [1, -1].map((side) =>
            line(
              [x + side * HALF_MM, y + side * way * HALF_MM],
              [x + side * 0.8, y + side * way * 0.8],
              { widthMm: 0.8 },
            ),
          ),
        ),
      ];
    case 'warn':
      return [triangle([x, y])];
    case 'note':
      return [frame([x, y], HALF_MM * 0.6, 0.3)];
  }
};

const frame = ([x, y]: Vec2, half: number, widthMm: number): PictureItem => ({
  kind: 'area',
  rims: [boxRing({ minX: x - half, minY: y - half, maxX: x + half, maxY: y + half })],
  stroke: { widthMm },
});

const triangle = ([x, y]: Vec2): PictureItem => {
  const corners = [90, 210, 330].map((deg): Vec2 => {
    const turn = (deg * Math.PI) / 180;
    return [x + 1.4 * HALF_MM * Math.cos(turn), y + 1.4 * HALF_MM * Math.sin(turn)];
  });
  return {
    kind: 'area',
    rims: [corners.map((from, i) => ({ from, to: corners[(i + 1) % 3] as Vec2, bulge: 0 }))],
    stroke: { widthMm: 0.5 },
  };
};
