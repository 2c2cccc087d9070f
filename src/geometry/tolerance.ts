/**
 * Two things that differ by no more than these count as the same. Each tolerance answers another
 * question, and none may stand in for another, though some have the same value. A figure that
 * belongs to one algorithm alone (where its search ends, what its own numbers make of rounding)
 * stands beside that algorithm, named and with its reason.
 */

// Rounding of the arithmetic. Numbers of some metres carry an error of some 1e-12 mm, and each step
// of turning, crossing and posing adds to it.

/** Two results of the same steps, mm: copies of one point, and lengths that cancel out. */
export const EXACT_MM = 1e-9;

/** Two computed lengths closer than this, mm, differ by rounding of the arithmetic alone. */
export const NOISE_MM = 1e-7;

/**
 * Two points that were found by different calculations are one when they lie this near, mm: a
 * corner that is found from both its sides, or a point that is laid onto a line by a motion over
 * metres.
 */
export const SAME_POINT_MM = 1e-6;

/**
 * Two lengths that were given or summed up in different ways are one when they differ by this
 * little, mm: a sheet in gauge and in millimetres, the widths of fingers in a row. It is ten
 * thousand times less than anybody measures.
 */
export const SAME_LENGTH_MM = 1e-6;

/**
 * A length below this, mm, counts as no size: such a line cuts nothing, and nothing is scaled up
 * from it.
 */
export const NO_SIZE_MM = 1e-6;

/** Two areas that differ by less, mm2, do so by rounding alone. */
export const NOISE_MM2 = 1e-6;

/**
 * Places on a piece, as shares of its length, and other numbers of about 1 differ by rounding alone
 * when they differ by less.
 */
export const NOISE_SHARE = 1e-12;

/** Areas of two panels that differ by less than this share of them are equal. */
export const SAME_AREA_SHARE = 1e-6;

/** A vector shorter than this, beside ones of length 1, has no direction. */
export const NO_DIRECTION = 1e-12;

/** Two angles that differ by less, radians, are one. Over ten metres the difference is 1e-5 mm. */
export const SAME_ANGLE_RAD = 1e-9;

/**
 * Angles in degrees that went through arcs and arc tangents differ by less than this through
 * rounding.
 */
export const NOISE_DEG = 1e-6;

/** Rounding in a sum of the turns of a loop's corners, radians, each of which is rounded. */
export const SAME_TURN_RAD = 1e-6;

/** Directions with a smaller sine between them are parallel: both were made of the same figures. */
export const PARALLEL_SINE = 1e-9;

/**
 * Directions with a smaller sine between them are parallel even though they went through poses,
 * meshes or a drawing's scale, each of which costs digits.
 */
export const NEARLY_PARALLEL_SINE = 1e-6;

/**
 * Two unit vectors whose product falls short of 1 by less than this point the same way (0.003
 * degrees).
 */
export const SAME_WAY_COSINE = 1e-9;

/**
 * Directions whose components differ by less are described as one direction, in words or by one
 * view: 0.06 degrees, which no angle finder shows.
 */
export const SAME_DIRECTION = 1e-3;

/** An arc whose bulge is this near to 1 is half a circle. */
export const HALF_CIRCLE_BULGE = 1e-6;

/** An arc of a smaller bulge is straight, to a tenth of a micron in a metre. */
export const STRAIGHT_BULGE = 1e-7;

/** A quotient of lengths that is this near to a whole number is that number. */
const NOISE_COUNT = 1e-9;

/** A count rounded up, but for noise: 3.0000000001 pitches are 3. */
export const wholeUp = (count: number): number => Math.ceil(count - NOISE_COUNT);

/** A count rounded down, but for noise: 2.9999999999 pitches are 3. */
export const wholeDown = (count: number): number => Math.floor(count + NOISE_COUNT);

// Files.

/**
 * Coordinates are written to files with this step, mm: finer than any cutter, coarser than the
 * noise.
 */
export const FILE_STEP_MM = 1e-4;

/** A width below a step of the file, mm, does not show in it. */
export const NO_WIDTH_MM = FILE_STEP_MM;

/**
 * Points of two files, or of a file and of what it was made from, are the same when they are no
 * farther apart, mm.
 */
export const SAME_IN_FILE_MM = 10 * FILE_STEP_MM;

/** How far a written file may differ from what was asked for, mm, before it is refused. */
export const PROOF_MM = 0.01;

/** Arcs that are cut in place of another curve stay this near to it, mm: half of what a proof allows. */
export const CURVE_ARC_MM = PROOF_MM / 2;

// Metal.

/** Flat metal narrower than this, mm, does not count: nobody meant it, and nothing holds by it. */
export const NO_FLAT_MM = 1e-3;

/**
 * How far two bodies may reach into each other before they count as in contact, mm. A body that
 * lies or rests on another does not collide with it, and sheet gives way by this much (common
 * practice; this much was left between bodies when the worked cases were calculated). A finished
 * part and every stroke towards it are judged by the same figure.
 */
export const CONTACT_GAP_MM = 0.3;

/**
 * Chords of a panel's arcs stay this close to the arcs, mm, in the search for panels that come near
 * each other: a third of the gap that counts as contact.
 */
export const PANEL_CHORD_MM = 0.1;

/** A length that is found by trial is settled when it is known to within this, mm. */
export const SETTLED_MM = 1e-3;
