import { arcsThrough, type Loop, type Vertex } from '../../src/template.ts';
import type { ConeSizes, FlatPiece } from './sizes.ts';

/**
 * The outline of a piece: round the large end, up its right edge, back round the small end, down its
 * left one. The ends of a right cone are true arcs about its apex; those of an oblique one are arcs
 * through points of the development.
 */
export const outlineOf = (s: ConeSizes, { flat, large, small }: FlatPiece): Loop => {
  const corner = (deg: number, share: number, edge: string): Vertex => {
    const [x, y] = flat.at(deg, share);
    return { x, y, bulge: 0, edge };
  };
  return [
    ...arcsThrough((deg) => flat.at(deg, 1), large, 'large'),
    corner(large[1], 1, 'right'),
    ...arcsThrough((deg) => flat.at(deg, s.smallShare), [small[1], small[0]], 'small'),
    corner(small[0], s.smallShare, 'left'),
  ];
};
