import { cosDeg, tanDeg } from '../geometry/degrees.ts';
import type { HoleShape } from './hole-shape.ts';
import { acrossOf } from './tube-hole.ts';

/** Least width of a hole: the circle that fits in it, mm. */
export const widthOf = (shape: HoleShape): number => {
  if (shape.kind === 'round') return shape.diameterMm;
  return shape.kind === 'tube' ? acrossOf(shape) : shape.widthMm;
};

/** Half of what a hole takes up at most in a sheet of a thickness, from its middle, mm. */
export const reachOf = (shape: HoleShape, thicknessMm: number): number => {
  switch (shape.kind) {
    case 'round':
      return shape.diameterMm / 2;
    case 'slot':
      return shape.lengthMm / 2;
    case 'square':
      return shape.widthMm / Math.SQRT2;
    case 'hex':
      return shape.widthMm / Math.sqrt(3);
    case 'tube':
      return (
        (shape.tubeMm / 2 + shape.clearMm) / cosDeg(shape.leanDeg) +
        (thicknessMm / 2) * tanDeg(shape.leanDeg) +
        shape.grommetMm
      );
  }
};
