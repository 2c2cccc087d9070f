/**
 * What differs by no more than these is taken for the same. Each answers another question, and none
 * may stand in for another, though some have the same value. A figure that belongs to one algorithm
 * alone (where its search ends, what its own numbers make of rounding) stands beside it, named and
 * with its reason.
 */

// Rounding of the arithmetic. Numbers of some metres carry some 1e-12 mm; each step of turning,
// crossing and posing loses some more.

/** Two places that the same steps led to, mm: copies of one point, and lengths that cancel out. */
export const EXACT_MM = 1e-9;

/** Two computed lengths closer than this, mm, differ by rounding of the arithmetic alone. */
export const NOISE_MM = 1e-7;

/**
 * Points that different ways of reckoning led to, mm, are one: a corner that is found from both its
 * sides, and a point that is laid onto a line by a motion over metres.
 */
export const SAME_POINT_MM = 1e-6;

/**
 * Lengths that were given or summed up in different ways, mm, are one: a sheet in gauge and in
 * millimetres, the widths of fingers in a row. Ten thousand times less than anybody measures.
 */
export const SAME_LENGTH_MM = 1e-6;

/** What is smaller, mm, has no size: such a line cuts nothing, and nothing is scaled up from it. */
export const NO_SIZE_MM = 1e-6;

/** Two areas that differ by less, mm2, do so by rounding alone. */
export const NOISE_MM2 = 1e-6;

/** Places on a piece, as shares of its length, and other numbers about 1 that rounding moved. */
export const NOISE_SHARE = 1e-12;

/** Areas of two panels that differ by less than this share of them are equal. */
export const SAME_AREA_SHARE = 1e-6;

/** A vector shorter than this, beside ones of length 1, has no direction. */
export const NO_DIRECTION = 1e-12;

/** Two angles that differ by less, radians, are one. Over ten metres it makes 1e-5 mm. */
export const SAME_ANGLE_RAD = 1e-9;

/** Angles in degrees that went through arcs and arc tangents differ by rounding by less. */
export const NOISE_DEG = 1e-6;

/** A sum of the turns of a loop's corners, radians, each of them rounded. */
export const SAME_TURN_RAD = 1e-6;

/** Directions with a smaller sine between them are parallel: both were made of the same figures. */
export const PARALLEL_SINE = 1e-9;

/**
 * Directions with a smaller sine between them are parallel though they went through poses, meshes
 * or a drawing's scale, which each cost digits.
 */
export const NEARLY_PARALLEL_SINE = 1e-6;

/** Unit vectors whose product falls short of 1 by less look the same way (0.003 degrees). */
export const SAME_WAY_COSINE = 1e-9;

/**
 * Directions whose components differ by less are told as one direction, in words or by one view:
 * 0.06 degrees, which no angle finder tells.
 */
export const SAME_DIRECTION = 1e-3;

/** An arc whose bulge is so near to 1 is half a circle. */
export const HALF_CIRCLE_BULGE = 1e-6;

/** An arc of a smaller bulge is straight: to a tenth of a micron in a metre. */
export const STRAIGHT_BULGE = 1e-7;

/** A quotient of lengths that is so near to a whole number is that number. */
const NOISE_COUNT = 1e-9;

/** Rounded up, but for noise: of 3.0000000001 pitches there are 3. */
export const wholeUp = (count: number): number => Math.ceil(count - NOISE_COUNT);

/** Rounded down, but for noise: of 2.9999999999 pitches there are 3. */
export const wholeDown = (count: number): number => Math.floor(count + NOISE_COUNT);

// Files.

/**
 * Coordinates are written to files with this step, mm: finer than any cutter, coarser than the
 * noise.
 */
export const FILE_STEP_MM = 1e-4;

/** What is narrower than a step of the file, mm, has no width in it. */
export const NO_WIDTH_MM = FILE_STEP_MM;

/** Points of two files, or of a file and of what it was made of, that are no farther apart, mm. */
export const SAME_IN_FILE_MM = 10 * FILE_STEP_MM;

/** What a written file may differ from what was asked, mm, before it is refused. */
export const PROOF_MM = 0.01;

// Metal.

/** Flat metal narrower than this, mm, is none: nobody meant it, and nothing holds by it. */
export const NO_FLAT_MM = 1e-3;

/**
 * So far two bodies may reach into each other, mm, before they are in contact: what lies or rests
 * on something does not collide with it, and sheet gives way by that (common practice; it was left
 * between bodies when the worked cases were reckoned). A finished part and every stroke towards it
 * are judged by the same.
 */
export const CONTACT_GAP_MM = 0.3;

/**
 * Chords of a panel's arcs stay this close to them, mm, where it is asked which panels come near
 * each other: a third of the gap that counts as contact.
 */
export const PANEL_CHORD_MM = 0.1;

/** A length that is found by trying is found when it is known to this, mm. */
export const SETTLED_MM = 1e-3;
