import type { Vec3 } from '../../geometry/vec3.ts';

/**
 * A length of a folded part, to be drawn in a view that shows it in true size. Points as in its
 * mesh, mm.
 */
export interface SpaceDimension {
  readonly name: string;
  readonly valueMm: number;
  /** Unit vector along which it is measured. */
  readonly along: Vec3;
  /** A point, or the two ends of a line square to `along`. */
  readonly from: readonly Vec3[];
  readonly to: readonly Vec3[];
  /**
   * Legs are read where their lines are seen as points, holes where the panel is seen square on.
   */
  readonly best: 'profile' | 'face';
}
