type Triple = readonly [x: number, y: number, z: number];

/** A bent tube in `make --json`: what it is bent by. Lengths in mm, angles in degrees. */
export interface TubeResult {
  /** Length that is cut off the bar. */
  readonly cutLengthMm: number;
  readonly diameterMm: number;
  readonly wallMm: number;
  /** In their order along the tube, from its leading end. */
  readonly bends: readonly {
    /** How far the tube is turned. */
    readonly angleDeg: number;
    /** From the plane of the bend before, about the direction of the tube by the right hand. */
    readonly rotateDeg: number;
    /** Where it begins, from the leading end of the tube as it is cut off. */
    readonly startMm: number;
    /** What the bender is pulled to. */
    readonly pullToDeg: number;
    /** Centre-line radius of the finished bend. */
    readonly radiusMm: number;
  }[];
  /** The ends of its centre line. */
  readonly endsMm: readonly [Triple, Triple];
}

/** The cope of an end of a tube: lengths in mm along its axis from the node, away from it. */
export interface CopeResult {
  /**
   * Where it is cut, by a cut square to its wall: degrees round the tube, 0 on the acute side and
   * counter-clockwise for whoever looks down the branch at the joint, and the length from the node.
   */
  readonly curve: readonly (readonly [roundDeg: number, alongMm: number])[];
  /** How far the straight edge of its pattern lies from the node. */
  readonly node: number;
  /** Length of the pattern, which goes once round the tube. */
  readonly wrapMm: number;
}

/** What else is told of a bent tube. */
export interface BendSheetResult {
  /** Straight tube between the bends and at the ends, one more than there are bends. */
  readonly straightsMm: readonly number[];
  /** End to end of the finished tube, laid straight. */
  readonly finishedMm: number;
  /** Left on at the ends, and cut off when it is bent. */
  readonly wasteMm: { readonly lead: number; readonly tail: number };
  readonly massKg: number;
  /** The bends in the order in which they are made. */
  readonly steps: readonly {
    /** Which bend along the tube, counted from 1. */
    readonly bend: number;
    /** The end of the tube that is nearer to the clamp. */
    readonly clampAt: 'lead' | 'tail';
    /** Whether the tube is turned end for end before it. */
    readonly endForEnd: boolean;
    /** Place of the mark that is laid on the bender's own, from the leading end. */
    readonly markMm: number;
    /**
     * Turn about itself from the bend before; more than 0 is clockwise as seen from the end that is
     * not clamped, looking towards the clamp.
     */
    readonly turnDeg: number;
    /** From the middle of one end to the middle of the other, straight across, once it is made. */
    readonly checkMm: number;
  }[];
  /** Name of the bender; `null` where the shop has none for this tube. */
  readonly bender: string | null;
  readonly springback: 'measured' | 'guessed';
  /** How far the corners lie from what was asked, when the sheet is bent figure by figure. */
  readonly proofMm: number;
  /** How far the end is likely to be off by errors of angles, rotations and marks. */
  readonly endLikelyOffMm: number;
}
