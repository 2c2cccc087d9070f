/**
 * The longest length that a part may have, mm. A larger figure is a typing error, and calculating
 * with it would cost the other lengths digits of accuracy.
 */
export const LARGEST_MM = 100_000;

/** Whether a figure can be a coordinate of a part, mm. */
export const isPlace = (value: number): boolean => Math.abs(value) <= LARGEST_MM;

/** Whether a figure can be a length of a part, mm. */
export const isLength = (value: number): boolean => isPlace(value) && value >= 0;
