import type { Relief } from '../model/part.ts';

/** A relief notch beside the end of a fold. */
export interface NotchSize {
  readonly shape: Relief['shape'];
  readonly widthMm: number;
  /** How far it reaches past the tangent line. */
  readonly depthMm: number;
  /**
   * A tab left between two notches, or between a notch and a corner, narrower than this is cut
   * away.
   */
  readonly leastTabMm: number;
}

/**
 * The notch for a bend. It reaches at least inside radius and thickness past the tangent line, so
 * that the bend zone ends in air (common practice), and is never narrower than the cutter cuts. A
 * slit has exactly that width.
 */
export const notchFor = (
  relief: Relief,
  thicknessMm: number,
  insideRadiusMm: number,
): NotchSize => {
  const widthMm =
    relief.shape === 'slit' ? relief.leastSlotMm : Math.max(relief.widthMm, relief.leastSlotMm);
  return {
    shape: relief.shape,
    widthMm,
    depthMm: Math.max(insideRadiusMm + thicknessMm, relief.shape === 'round' ? widthMm / 2 : 0),
    leastTabMm: thicknessMm,
  };
};

/**
 * The way from the metal's edge round the bottom of the notch, in the frame of the fold's end:
 * `out` leads away from the fold along the mould line, `into` leads into the panel. Each point has
 * the bulge of the piece that follows; the last piece runs out to the tangent line. Without a tab
 * there is no far side, and the way comes in along the bottom.
 */
export const notchPath = (
  notch: NotchSize,
  depthMm: number,
  hasTab: boolean,
): readonly { readonly out: number; readonly into: number; readonly bulge: number }[] => {
  const { widthMm: w } = notch;
  if (!hasTab) return [{ out: 0, into: depthMm, bulge: 0 }];
  if (notch.shape === 'round') {
    return [
      { out: w, into: depthMm - w / 2, bulge: -1 },
      { out: 0, into: depthMm - w / 2, bulge: 0 },
    ];
  }
  return [
    { out: w, into: depthMm, bulge: 0 },
    { out: 0, into: depthMm, bulge: 0 },
  ];
};
