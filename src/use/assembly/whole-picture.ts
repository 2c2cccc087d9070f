import { cameraFor, explodedView } from '../../paper/draw/exploded-view.ts';
import { pictureSvg } from '../../paper/write/picture-svg.ts';
import type { MadeSet } from './assembled.ts';
import { shownPieces } from './shown-pieces.ts';

const BOX = { widthMm: 80, heightMm: 50 } as const;
/** Of faces of arcs in a small picture, as a share of the size of the whole. */
const VIEW_SHARE = 1 / 400;

/**
 * What several pieces are welded to, its pieces moved apart, in small as an SVG of its own; nothing
 * where one of them cannot be folded up.
 */
export const wholePicture = ({ assembly }: MadeSet): string | undefined => {
  const sizes = assembly.pieces.flatMap(({ flat }) => [flat.widthMm, flat.heightMm]);
  const shown = shownPieces(assembly.pieces, Math.max(...sizes) * VIEW_SHARE);
  if (shown === undefined) return undefined;
  const view = { ...BOX, marks: [], isApart: true, isBare: true, camera: cameraFor(shown) };
  return pictureSvg(explodedView(shown, view), 'whole');
};
