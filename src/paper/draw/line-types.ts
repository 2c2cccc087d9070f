import type { FlatBend } from '../../model/flat.ts';
import type { Stroke } from '../../model/picture.ts';

/*
 * The lines of all papers, by the numbers that ISO 128-2 gives to line types, in two widths of a line
 * group, 2 to 1: group 0.5 (both from memory).
 */

/** The least width of any line on paper: the narrow one of the next finer group, for frames and tables. */
export const LEAST_LINE_MM = 0.18;
const WIDE_MM = 0.5;
const NARROW_MM = 0.25;

/** 01.2: edges that are cut, and edges that are seen. */
export const EDGE: Stroke = { widthMm: WIDE_MM };
/** The rim of a hole, between both, so that a small one is not filled by its own line. */
export const HOLE: Stroke = { widthMm: 0.35 };
/** 01.1: dimension and extension lines, leaders. */
export const NARROW: Stroke = { widthMm: NARROW_MM };
/** 04.1, long-dashed dotted: centre lines and pitch circles. */
export const CENTRE: Stroke = { widthMm: NARROW_MM, dashMm: [4, 0.9, 0.5, 0.9] };
/** 05.1, long-dashed double-dotted: lines for the rolls, where nothing is cut or folded. */
export const ROLL: Stroke = { widthMm: NARROW_MM, dashMm: [4, 0.9, 0.5, 0.9, 0.5, 0.9] };
/** 02.1, dashed: edges that are hidden. */
export const HIDDEN: Stroke = { widthMm: NARROW_MM, dashMm: [3, 1] };

/**
 * Fold lines: 01.1, bending lines on blanks, for those towards whoever looks at the drawing; 02.1,
 * lines that are hidden, for those away from there.
 */
export const FOLDS: Readonly<Record<FlatBend['direction'], Stroke>> = {
  up: NARROW,
  down: HIDDEN,
};

/** The fold of a stroke on a step card: the same line, heavy, for it is what is looked for. */
export const strokeFold = (direction: FlatBend['direction']): Stroke => ({
  ...FOLDS[direction],
  widthMm: 0.9,
});

/** The code in words, for the key of a paper. */
export const FOLD_KEY =
  'Fold lines are the middles of the bends: UP, a full thin line, comes towards you; DOWN, a broken one, goes away from you.';

/** What figures of a chain are measured from, for the key of a paper. */
export const CHAIN_KEY =
  'A figure between two lines is from one to the other, 0 to ... from the datum to that line.';

/** What the figure beside a fold is, for the key of a paper. */
export const ANGLE_KEY =
  'Angles are turned from flat; in brackets what a square or an angle finder reads inside the bend.';
