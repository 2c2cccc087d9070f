import { joinedBody } from '../../assembly/joined-body.ts';
import { weldsOf } from '../../assembly/weld-seams.ts';
import type { Picture } from '../../model/picture.ts';
import { cameraAt } from '../../paper/draw/camera.ts';
import { cameraFor, type ExplodedOptions, explodedView } from '../../paper/draw/exploded-view.ts';
import { pictureSvg } from '../../paper/write/picture-svg.ts';
import type { ScreenSize } from '../show/part-pictures.ts';
import type { MadeSet } from './assembled.ts';
import { marksOfWelds, shownPieces } from './shown-pieces.ts';

const BOX = { widthMm: 80, heightMm: 50 } as const;
/** Of faces of arcs in a small picture, as a share of the size of the whole. */
const VIEW_SHARE = 1 / 400;

/**
 * What several pieces are welded to, its pieces moved apart, in small as an SVG of its own; nothing
 * where one of them cannot be folded up.
 */
export const wholePicture = (set: MadeSet): string | undefined => {
  const view = viewOf(set, { ...BOX, marks: [], isApart: true, isBare: true });
  return view && pictureSvg(view, 'whole');
};

/** How a whole is looked at. */
export interface WholeLook {
  readonly isApart: boolean;
  /** Degrees counter-clockwise from the x axis and up; from where most is seen when `null`. */
  readonly from: readonly [sideDeg: number, riseDeg: number] | null;
}

/** What several pieces are welded to, for a screen, with the letters of its seams. */
export const wholeOnScreen = (
  set: MadeSet,
  size: ScreenSize,
  { isApart, from }: WholeLook,
): Picture | undefined => {
  const joined = joinedBody(set.assembly);
  const marks = marksOfWelds(joined, weldsOf(set.assembly, joined));
  return viewOf(set, {
    ...size,
    marks,
    isApart,
    ...(from !== null && { camera: cameraAt(...from) }),
  });
};

const viewOf = (
  { assembly }: MadeSet,
  { camera, ...options }: Omit<ExplodedOptions, 'camera'> & Partial<ExplodedOptions>,
): Picture | undefined => {
  const sizes = assembly.pieces.flatMap(({ flat }) => [flat.widthMm, flat.heightMm]);
  const shown = shownPieces(assembly.pieces, Math.max(...sizes) * VIEW_SHARE);
  return shown && explodedView(shown, { ...options, camera: camera ?? cameraFor(shown) });
};
