import {
  besideLine,
  coneThrough,
  type FlatCone,
  flatCone,
  type ObliqueCone,
} from '../../src/template.ts';
import type { Cone } from './inputs.ts';

/** A cone on the middle of its sheet; mm and degrees. */
export interface ConeSizes {
  readonly surface: ObliqueCone;
  readonly largeRadiusMm: number;
  readonly smallRadiusMm: number;
  /** Of a right cone of the same ends: between its axis and its wall. */
  readonly leanDeg: number;
  /** Share of each line of the cone, from the apex, at which the small end is. */
  readonly smallShare: number;
}

/**
 * The middle of the sheet where both ends are cut square to it: a diameter that is measured on a
 * face lies t cos(a) off it, a being the lean of the wall, and the slant is the same (plane geometry).
 * An oblique cone leans differently all round; its mean lean is taken.
 */
export const coneSizes = (v: Cone): ConeSizes => {
  const lean = Math.atan2((v.largeDiameter - v.smallDiameter) / 2, v.height);
  const more = { inside: 1, outside: -1, middle: 0 }[v.diameterOf] * v.thicknessMm * Math.cos(lean);
  const [large, small] = [(v.largeDiameter + more) / 2, (v.smallDiameter + more) / 2];
  return {
    surface: coneThrough(large, small, v.height, v.offset),
    largeRadiusMm: large,
    smallRadiusMm: small,
    leanDeg: (lean * 180) / Math.PI,
    smallShare: small / large,
  };
};

/** One piece of a cone in the flat, and where its two edges meet the curves of its ends. */
export interface FlatPiece {
  readonly flat: FlatCone;
  /** Degrees round the cone at which its seams are. */
  readonly from: number;
  readonly to: number;
  /** The same of its edges, at the large and the small end: half the gap within, or a lap beyond. */
  readonly large: readonly [number, number];
  readonly small: readonly [number, number];
}

export const flatPiece = (v: Cone, s: ConeSizes, piece: number): FlatPiece => {
  const from = (v.offset === 0 ? 0 : v.seamAt) + (360 * piece) / v.pieces;
  const to = from + 360 / v.pieces;
  const flat = flatCone(s.surface, from, to);
  const [first, last] = v.seam === 'lap' ? [0, v.lap] : [v.cornerGapMm / 2, -v.cornerGapMm / 2];
  const edges = (share: number): readonly [number, number] => [
    besideLine(flat, from, share, first),
    besideLine(flat, to, share, last),
  ];
  return { flat, from, to, large: edges(1), small: edges(s.smallShare) };
};

/** How many different pieces there are: those of a right cone are all one. */
export const kindsOf = (v: Cone): number => (v.offset === 0 ? 1 : v.pieces);
