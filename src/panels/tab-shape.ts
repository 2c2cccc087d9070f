import type { Loop, Vertex } from '../geometry/loop.ts';
import type { Vec2 } from '../geometry/vec2.ts';

/**
 * A slot for a tooth, counter-clockwise: a rectangle with a half round at each end of its long
 * sides, as wide as the narrowest slot of the cutter. No corner of a slot is cut sharp, and the
 * square corners of a tooth would stand on what is left in it; so the corner lies where the half
 * round begins, in line with the short side (common practice).
 */
export const slotLoop = (
  at: (along: number, across: number) => Vec2,
  [x0, x1]: readonly [number, number],
  [y0, y1]: readonly [number, number],
  reliefMm: number,
): Loop => {
  const vertex = (x: number, y: number, bulge: number): Vertex => {
    const [px, py] = at(x, y);
    return { x: px, y: py, bulge };
  };
  return [
    vertex(x0, y0, 1),
    vertex(x0 + reliefMm, y0, 0),
    vertex(x1 - reliefMm, y0, 1),
    vertex(x1, y0, 0),
    vertex(x1, y1, 1),
    vertex(x1 - reliefMm, y1, 0),
    vertex(x0 + reliefMm, y1, 1),
    vertex(x0, y1, 0),
  ];
};
