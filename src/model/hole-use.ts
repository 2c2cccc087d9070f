import type { Direction } from './part.ts';

/** What a hole is for and what is done to it besides cutting, as far as that was stated. */
export interface HoleUse {
  /**
   * The screw that goes through it or into it: `M8`. A hole without one takes no bolt, whatever its
   * size.
   */
  readonly screw?: string;
  /**
   * The other part that it is bolted to, in the user's words: holes with the same word meet the
   * same part.
   */
  readonly meets?: string;
  /** The thread that is cut in it, or the nut that is set in it. */
  readonly thread?:
    { readonly kind: 'tapped'; readonly pitchMm: number } | { readonly kind: 'rivet nut' };
  readonly countersink?: Countersink;
  /** The tube that passes through it. */
  readonly tube?: TubePassage;
  /** It is not cut: its centre is marked, and it is drilled. */
  readonly isDrilled?: true;
}

/** A tube as it passes through a sheet, mm. */
export interface TubePassage {
  readonly diameterMm: number;
  /** Between the tube and the normal of the sheet, degrees. */
  readonly leanDeg: number;
  /** Room that is left all round the tube, square to it. */
  readonly clearMm?: number;
  /** Rubber that is set on the edge of the hole, in the plane of the sheet. */
  readonly grommetMm?: number;
}

/** A countersink of 90 degrees. */
export interface Countersink {
  /** Diameter on the face it is cut from, mm. */
  readonly diameterMm: number;
  /** The face it is cut from; `up` is the face that the drawing shows. */
  readonly face: Direction;
}
