/**
 * Chords in place of the arcs of stock and of what is cut from it leave them by no more than this,
 * mm. Whoever asks for room adds it.
 */
export const STOCK_CHORD_MM = 0.1;
