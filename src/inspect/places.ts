import { figure } from '../text/figures.ts';
import type { Vec2 } from '../geometry/vec2.ts';

/** A place of the drawing as the file has it, such as `(12.5, 40)`. */
export type Places = (at: Vec2) => string;

/** Places in the file's own coordinates; `origin` are those of the point that is 0 here. */
export const placesFrom =
  ([x, y]: Vec2): Places =>
  (at) =>
    `(${figure(at[0] + x)}, ${figure(at[1] + y)})`;
