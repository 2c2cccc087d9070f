/**
 * No part has a length beyond this, mm. A larger figure is a slip, and would take digits of
 * accuracy from the others.
 */
export const LARGEST_MM = 100_000;

/** Whether a figure is a coordinate of a part, mm. */
export const isPlace = (value: number): boolean => Math.abs(value) <= LARGEST_MM;

/** Whether a figure is a length of a part, mm. */
export const isLength = (value: number): boolean => isPlace(value) && value >= 0;
