/** Limits of what is done by hand, and of what is set up by hand at a machine. */

/**
 * How far thin metal is let spring aside, in the plane of its panel, where something passes it or
 * ends at it, mm, beyond the contact gap (common practice: an edge is pressed aside by a thumb, and
 * springs back).
 */
export const SPRING_MM = 0.5;

/** The same through the sheet, as a share of the thickness, so that no panel is left without any. */
export const SPRING_SHARE = 0.25;

/**
 * Share of the clamp's land that still holds a sheet when the clamp is set hard and the sheet is
 * watched (common practice).
 */
export const LEAST_LAND_SHARE = 0.8;

/**
 * The highest packers that a sheet is folded on, mm: an open hem, or a lip as low, hangs under it
 * then. The leaf is let down by as much, and the nose set back by as much, which few folders do by
 * more (common practice).
 */
export const PACKER_MM = 8;

/** Packers come in steps of this, mm. */
export const PACKER_STEP_MM = 0.5;

/** How far a packer reaches back from the front of the bed, mm: a flat bar (common practice). */
export const PACKER_DEPTH_MM = 20;

/**
 * The most plastic moment that is put into a fold over a block in the vice, N mm: that of mild steel
 * 3 mm thick and 50 mm wide, which bends cold under a hammer (common practice). A fold of
 * length L in sheet of thickness t and strength Rm takes Rm t^2 L / 4 (full plastic moment of a
 * rectangle, plain mechanics).
 */
export const BLOCK_MOMENT = 60_000;

/** The thickest sheet that is folded over a block, mm (common practice: 3 mm cold in a vice). */
export const BLOCK_THICKEST_MM = 3;

/** The longest fold over a block, mm: a straight edge that two clamps still hold (common practice). */
export const BLOCK_LONGEST_MM = 450;

/** The steepest fold over a block, degrees: a mallet reaches no further (common practice). */
export const BLOCK_STEEPEST_DEG = 135;

/**
 * How far that which is tapped over may reach from the fold, mm: a mallet drives it beside the fold,
 * and what reaches further whips and pulls the fold out of line (common practice).
 */
export const BLOCK_DEEPEST_MM = 100;

/** Section of the straight edges of a block, one on either face of the sheet, mm. */
export const BLOCK_BAR_MM = 10;

/** Flat sheet that a straight edge needs behind the bend, mm (common practice). */
export const BLOCK_LAND_MM = 5;

/** How much of a fold may stick out beyond the straight edge, at both ends together, mm. */
export const BLOCK_UNCOVERED_MM = 10;

/**
 * The last degrees that are made by hand from where the machine stops: the bend is begun, and goes on
 * where it is (common practice).
 */
export const REST_DEG = 30;

/** The most moment for the last degrees, N mm: twice as much, with the whole flange for a lever. */
export const REST_MOMENT = 2 * BLOCK_MOMENT;

/** Plastic moment of a fold, N mm. */
export const foldMomentNmm = (strengthMpa: number, thicknessMm: number, lengthMm: number): number =>
  (strengthMpa * thicknessMm ** 2 * lengthMm) / 4;

/**
 * The most that a crease of a transition turns, degrees: a quarter turn in three (common practice: a
 * corner of a square to round is broken over three lines or more).
 */
export const MOST_CREASE_DEG = 30;

/** Whether a fold is one of the many slight ones of a transition, whose lines run into its corners. */
export const isCrease = ({
  midSurface,
  angleDeg,
}: {
  readonly midSurface?: true;
  readonly angleDeg: number;
}): boolean => midSurface === true && angleDeg > 0 && angleDeg <= MOST_CREASE_DEG;
