import type { Direction } from './part.ts';

/** What a hole is for and what is done to it beside cutting, as far as that was said. */
export interface HoleUse {
  /**
   * The screw that goes through it or into it: `M8`. A hole without one takes no bolt, whatever its
   * size.
   */
  readonly screw?: string;
  /**
   * The other part that it is bolted to, in the words of whoever asked: holes with the same word
   * meet one part.
   */
  readonly meets?: string;
  /** The thread that is cut or the nut that is set in it. */
  readonly thread?:
    { readonly kind: 'tapped'; readonly pitchMm: number } | { readonly kind: 'rivet nut' };
  readonly countersink?: Countersink;
  /** It is not cut: its middle is marked, and it is drilled. */
  readonly isDrilled?: true;
}

/** A countersink of 90 degrees. */
export interface Countersink {
  /** On the face it is cut from, mm. */
  readonly diameterMm: number;
  /** `up`: from the face that whoever looks at the drawing sees. */
  readonly face: Direction;
}
