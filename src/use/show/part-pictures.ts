import type { FoldShare } from '../../fold/fold-up.ts';
import type { Picture } from '../../model/picture.ts';
import type { PartResult } from '../../contract/part.ts';
import { type Camera, cameraAt } from '../../paper/draw/camera.ts';
import { type DimensionedBlank, dimensionedBlank } from '../../paper/draw/dimensioned-blank.ts';
import { foldedView } from '../../paper/draw/folded-view.ts';
import { marksOf } from '../../paper/sheet/sheet-findings.ts';
import { foldedMesh } from '../../solid/folded-mesh.ts';
import type { Printed } from '../../text/printed.ts';
import type { MadePart } from '../made-part.ts';

/** Size of a picture for the screen, in the millimetres that its texts and lines are in. */
export interface ScreenSize {
  readonly widthMm: number;
  readonly heightMm: number;
  /** How lengths are written in it; in mm when left out. */
  readonly print?: Printed;
}

/** The blank of a part with its sizes; `undefined` where it did not get as far as a blank. */
export const sizedFlat = (
  {
    flat,
    datum,
    result,
  }: Pick<MadePart, 'flat' | 'datum'> & { readonly result: Pick<PartResult, 'findings'> },
  size: ScreenSize,
): DimensionedBlank | undefined =>
  flat === undefined || datum === undefined || flat.outline.length === 0
    ? undefined
    : dimensionedBlank(flat, datum, size, marksOf(result.findings), size);

/** Chords of the arcs, as a share of the part's size: they look round on any screen. */
const CHORD_SHARE = 1 / 800;
const LEAST_CHORD_MM = 0.02;

/** How far chords may lie from the arcs of a part of this size, mm. */
export const chordFor = (sizeMm: readonly number[]): number =>
  Math.max(LEAST_CHORD_MM, Math.max(...sizeMm) * CHORD_SHARE);

/**
 * The part as it is folded, with the letters of its folds but where it is asked for bare;
 * `undefined` where a finding stops it. `from` is where it is seen from, degrees counter-clockwise
 * from the x axis and up; left out, it is where most is seen.
 */
export const foldedPicture = (
  { part, flat, result, stopped }: MadePart,
  { widthMm, heightMm }: ScreenSize,
  {
    from,
    isBare = false,
    share,
  }: {
    readonly from?: readonly [sideDeg: number, riseDeg: number];
    readonly isBare?: boolean;
    /** How much of its angle each fold is turned by; all of it when left out. */
    readonly share?: FoldShare;
  } = {},
): Picture | undefined => {
  if (stopped || part === undefined || flat === undefined || result.folded === null)
    return undefined;
  const mesh = foldedMesh(part, flat, chordFor(result.folded.sizeMm), share);
  if (mesh === undefined) return undefined;
  const camera: Camera | undefined = from === undefined ? undefined : cameraAt(...from);
  return foldedView(mesh, {
    widthMm,
    heightMm,
    ...(camera !== undefined && { camera }),
    ...(!isBare && labelsOf(result)),
  });
};

/** More names than these hide the part. */
const MOST_NAMED = 12;

const labelsOf = ({ bends }: PartResult): { readonly labels?: ReadonlyMap<string, string> } =>
  bends.length > MOST_NAMED ? {} : { labels: new Map(bends.map(({ id }) => [id, id])) };
