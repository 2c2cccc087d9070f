import type { Loop } from '../../geometry/loop.ts';
import { type Piece, piecesOf } from '../../geometry/piece.ts';
import { circle } from '../../geometry/shapes.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { FlatPattern } from '../../model/flat.ts';
import type { Picture } from '../../model/picture.ts';
import { FOLDS } from './line-types.ts';
import { line } from './strokes.ts';

/** Lines as wide as on the drawings, so that they are seen in a small picture, mm. */
const RIM_MM = 0.6;
const FOLD_MM = 0.4;

/** A blank in small, by which it is known again: its metal grey, its fold lines full for UP, broken for DOWN. */
export const smallBlank = (
  flat: FlatPattern,
  box: { readonly widthMm: number; readonly heightMm: number },
): Picture => {
  const scale = Math.min(
    (box.widthMm - 2 * RIM_MM) / flat.widthMm,
    (box.heightMm - 2 * RIM_MM) / flat.heightMm,
  );
  const at = ([x, y]: Vec2): Vec2 => [RIM_MM + scale * x, RIM_MM + scale * y];
  const rim = (loop: Loop): Piece[] =>
    piecesOf(loop).map(({ from, to, bulge }) => ({ from: at(from), to: at(to), bulge }));
  const holes = flat.cutouts.map((hole) =>
    rim(hole.kind === 'round' ? circle(hole.centre, hole.diameterMm / 2) : hole.loop),
  );
  return {
    widthMm: scale * flat.widthMm + 2 * RIM_MM,
    heightMm: scale * flat.heightMm + 2 * RIM_MM,
    items: [
      {
        kind: 'area',
        rims: [rim(flat.outline), ...holes],
        fill: 0.88,
        stroke: { widthMm: RIM_MM },
      },
      ...flat.bends.map(({ centreLine: [from, to], direction }) =>
        line(at(from), at(to), { ...FOLDS[direction], widthMm: FOLD_MM }),
      ),
    ],
  };
};
