import { NOISE_MM } from '../../src/template.ts';
import type { Vec2 } from '../../src/template.ts';
import type { LaidFacet } from '../duct-transition/develop.ts';

/** Whether a blank runs over itself in the flat: facets are convex, and neighbours only touch. */
export const runsOverItself = (laid: readonly LaidFacet[]): boolean => {
  const shapes = laid.map(({ outline }) => outline.map(({ x, y }): Vec2 => [x, y]));
  return shapes.some((a, i) => shapes.slice(i + 2).some((b) => !isParted(a, b)));
};

/** Whether the line of an edge of either parts two convex polygons (separating axes). */
const isParted = (a: readonly Vec2[], b: readonly Vec2[]): boolean =>
  hasPartingEdge(a, b) || hasPartingEdge(b, a);

const hasPartingEdge = (a: readonly Vec2[], b: readonly Vec2[]): boolean =>
  a.some(([x, y], i) => {
    const [nx, ny] = a[(i + 1) % a.length] as Vec2;
    const [dx, dy] = [nx - x, ny - y];
    const length = Math.hypot(dx, dy);
    return b.every(([px, py]) => (dx * (py - y) - dy * (px - x)) / length < TOUCHING_MM);
  });

/** Facets that share a corner reach over each other's edges by rounding alone. */
const TOUCHING_MM = 10 * NOISE_MM;
