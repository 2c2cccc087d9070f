/**
 * The three tolerances of the whole project. Each answers another question; none may stand in for
 * another.
 */

/** Two computed lengths closer than this, mm, differ by rounding of the arithmetic alone. */
export const NOISE_MM = 1e-7;

/**
 * Coordinates are written to files with this step, mm: finer than any cutter, coarser than the
 * noise.
 */
export const FILE_STEP_MM = 1e-4;

/** What a written file may differ from what was asked, mm, before it is refused. */
export const PROOF_MM = 0.01;
