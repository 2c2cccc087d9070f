import type { Loop, Vertex } from '../geometry/loop.ts';
import type { Vec2 } from '../geometry/vec2.ts';

/**
 * A slot for a tooth, counter-clockwise: a rectangle with a half round at each end of its long
 * sides, as wide as the narrowest slot of the cutter. No corner of a slot is cut sharp, and the
 * square corners of a tooth would stand on what is left in it; so the corner lies where the half
 * round begins, in line with the short side (common practice). One that is open at its low or its high
 * side has none there.
 */
export const slotLoop = (
  at: (along: number, across: number) => Vec2,
  [x0, x1]: readonly [number, number],
  [y0, y1]: readonly [number, number],
  reliefMm: number,
  open?: 'low' | 'high',
): Loop => {
  const vertex = (x: number, y: number, bulge: number): Vertex => {
    const [px, py] = at(x, y);
    return { x: px, y: py, bulge };
  };
  const side = (from: number, to: number, y: number, isOpen: boolean): Vertex[] => {
    const relief = Math.sign(to - from) * reliefMm;
    return isOpen
      ? [vertex(from, y, 0), vertex(to, y, 0)]
      : [
          vertex(from, y, 1),
          vertex(from + relief, y, 0),
          vertex(to - relief, y, 1),
          vertex(to, y, 0),
        ];
  };
  return [...side(x0, x1, y0, open === 'low'), ...side(x1, x0, y1, open === 'high')];
};
