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
  /** It is not cut: its centre is marked, and it is drilled. */
  readonly isDrilled?: true;
}

/** A countersink of 90 degrees. */
export interface Countersink {
  /** Diameter on the face it is cut from, mm. */
  readonly diameterMm: number;
  /** The face it is cut from; `up` is the face that the drawing shows. */
  readonly face: Direction;
}
