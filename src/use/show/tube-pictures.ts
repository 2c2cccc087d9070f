import type { Mesh } from '../../model/mesh.ts';
import type { Picture } from '../../model/picture.ts';
import { cameraAt } from '../../paper/draw/camera.ts';
import { foldedView } from '../../paper/draw/folded-view.ts';
import { tubeView } from '../../paper/tube/bend-sheet.ts';
import { copedView } from '../../paper/tube/cope-sheet.ts';
import { markedTube } from '../../paper/tube/marked-tube.ts';
import { patternPicture } from '../../paper/tube/pattern-picture.ts';
import { printedIn } from '../../text/printed.ts';
import { copedMesh } from '../../tube/cope/coped-mesh.ts';
import { tubeMesh } from '../../tube/tube-mesh.ts';
import type { TubePart } from '../../tube/tube-part.ts';
import type { MadeTube } from '../made-part.ts';
import type { ScreenSize } from './part-pictures.ts';

/** Chords of a tube's round, as a share of its diameter: they look round on any screen. */
const CHORD_SHARE = 1 / 200;

/** A tube as a closed mesh for the screen. */
export const shownTube = (tube: TubePart): Mesh =>
  tube.kind === 'bent'
    ? tubeMesh(tube, 'tube', tube.diameterMm * CHORD_SHARE)
    : copedMesh(tube, 'tube', tube.diameterMm * CHORD_SHARE);

/** What a tube is marked by: the straight tube with its marks, or the patterns that are wrapped round it. */
export const tubeMarks = (
  { tube, result }: MadeTube,
  { print = printedIn(), ...size }: ScreenSize,
): Picture =>
  tube.kind === 'bent'
    ? markedTube(tube, size.widthMm, print)
    : patternPicture(tube.patterns(result.name), size);

/** A tube as it is when it is done; `from` is where it is seen from, as of `foldedPicture`. */
export const tubePicture = (
  { tube }: MadeTube,
  { print = printedIn(), ...size }: ScreenSize,
  {
    from,
    isBare = false,
  }: { readonly from?: readonly [number, number]; readonly isBare?: boolean } = {},
): Picture => {
  if (from !== undefined)
    return foldedView(shownTube(tube), { ...size, camera: cameraAt(...from) });
  return tube.kind === 'bent' ? tubeView(tube, size, print, isBare) : copedView(tube, size);
};
