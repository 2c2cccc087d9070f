import type { Extents } from '../../geometry/extents.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { centroidOf } from '../../measure/centroid.ts';
import type { FlatCutout } from '../../model/flat.ts';
import { pictureSvg } from '../../paper/write/picture-svg.ts';
import { marksOf } from '../../paper/sheet/sheet-findings.ts';
import type { MadePart } from '../../use/made-part.ts';
import { type ScreenSize, sizedFlat } from '../../use/show/part-pictures.ts';
import { flatSize, type Screen } from './screen-sizes.ts';
import type { DrawnHole, PictureAnswer, SpotAnswer } from './drawn-questions.ts';

/** A box of a picture with y up, as it lies in its SVG. */
export const inSvg = (of: string, box: Extents, heightMm: number): SpotAnswer => ({
  of,
  x: box.minX,
  y: heightMm - box.maxY,
  width: box.maxX - box.minX,
  height: box.maxY - box.minY,
});

type SizedPart = Parameters<typeof sizedFlat>[0] & {
  readonly result: Pick<MadePart['result'], 'hand' | 'piece'>;
};

/** Draws flat pictures for a screen. */
export type FlatPictures = (one: SizedPart) => PictureAnswer | null;

/**
 * Draws flat pictures, none twice: what is drawn when the shape is known is there already when the
 * checks are done, unless they have something to mark in it.
 */
export const flatPictures = (): ((screen: Screen) => FlatPictures) => {
  const known = new WeakMap<object, Map<string, PictureAnswer | null>>();
  return (screen) => (one) => {
    const size = flatSize(screen);
    if (one.flat === undefined) return null;
    const drawn = known.get(one.flat) ?? new Map<string, PictureAnswer | null>();
    known.set(one.flat, drawn);
    const key = JSON.stringify([size, marksOf(one.result.findings)]);
    const picture = drawn.get(key) ?? flatAnswer(one, size);
    drawn.set(key, picture);
    return picture;
  };
};

/** The blank with its sizes, where each of them stands, and its holes. */
export const flatAnswer = (one: SizedPart, size: ScreenSize): PictureAnswer | null => {
  const sized = sizedFlat(one, size);
  if (sized === undefined) return null;
  const { picture, spots, at, scale } = sized;
  const { hand, piece } = one.result;
  return {
    svg: pictureSvg(picture, `flat-${hand}-${piece ?? ''}`),
    widthMm: picture.widthMm,
    heightMm: picture.heightMm,
    spots: spots.map(({ of, box }) => inSvg(of, box, picture.heightMm)),
    holes: (one.flat?.cutouts ?? []).flatMap((hole) =>
      drawnHole(hole, at, scale, picture.heightMm),
    ),
  };
};

/** A hole that an input gave, and which entry of it: `holesA 2`, `holesA 2.3` of a pattern. */
const drawnHole = (
  hole: FlatCutout,
  at: (p: Vec2) => Vec2,
  scale: number,
  heightMm: number,
): DrawnHole[] => {
  const [, input, entry] = /^([A-Za-z]\w*) (\d+)(?:\.\d+)?$/.exec(hole.from) ?? [];
  if (input === undefined || entry === undefined) return [];
  const [x, y] = at(middleOf(hole));
  return [{ input, entry: Number(entry) - 1, x, y: heightMm - y, radius: radiusOf(hole) * scale }];
};

export const middleOf = (hole: FlatCutout): Vec2 =>
  hole.kind === 'round' ? hole.centre : centroidOf(hole.loop);

/** How far a hole reaches from its middle, mm. */
const radiusOf = (hole: FlatCutout): number => {
  if (hole.kind === 'round') return hole.diameterMm / 2;
  const [x, y] = middleOf(hole);
  return Math.max(...hole.loop.map((v) => Math.hypot(v.x - x, v.y - y)));
};
