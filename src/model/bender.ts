/** A tube bender as a shop file describes it: rotary draw, by hand or with a ram. Lengths in mm. */
export interface Bender {
  readonly name: string;
  /** Its formers, each for one outside diameter of tube. */
  readonly formers: readonly TubeFormer[];
  /** How far its reference mark lies ahead of where the bend begins, towards the clamp; less than 0 behind it. */
  readonly referenceMark: number;
  /** Straight tube that the clamp holds before a bend. */
  readonly clamp: number;
  /** Straight tube that the follower needs behind a bend. */
  readonly follower: number;
  /** Straight tube that there has to be between two bends, whatever else it needs. */
  readonly leastStraight: number;
  /** The largest angle of one pull, degrees as its scale shows them. */
  readonly mostAngle: number;
  /** The way in which it bends, seen from above. */
  readonly bends: 'clockwise' | 'anticlockwise';
  /** Height of the tube in it over the floor, or over what stands under the tube; unknown where left out. */
  readonly height?: number | undefined;
}

export interface TubeFormer {
  /** Outside diameter of the tube that it takes. */
  readonly tube: number;
  /** Centre-line radius. */
  readonly radius: number;
  /** Springback that was measured with it; unknown where left out. */
  readonly springback?: FormerSpringback | undefined;
}

export interface FormerSpringback {
  /** Degrees at every bend. */
  readonly fixed: number;
  /** Degrees more for each degree that stays. */
  readonly share: number;
  /** Centre-line radius that was measured on a bend. */
  readonly effectiveRadius?: number | undefined;
}

/** How tube is bought and sawn. */
export interface TubeStock {
  /** Lengths of bars, as many of each as it takes. */
  readonly lengths: readonly number[];
  /** Width of the saw's cut. */
  readonly sawKerf: number;
}

/** Of a shop that does not say: bars of 6 m and a band saw (common practice). */
export const USUAL_TUBE_STOCK: TubeStock = { lengths: [6000], sawKerf: 2 };
