import * as z from 'zod';
import { CUTOUTS_INPUT, FIGURE, HOLES_INPUT, NAMED_OUTLINE_INPUT } from '../forms/accepts.ts';

/**
 * A part as it is described by its panels: a base and what is folded on at its edges. Every figure
 * is a number of mm or degrees, or a text: a length with a unit, or a sum that may name other
 * lengths of the part. The descriptions are those of the JSON Schema, by which editors complete a
 * file.
 */

const optionalFigure = (about: string) => FIGURE.optional().describe(about);
const optionalText = (about: string) => z.string().optional().describe(about);

/** A hole of any shape, point by point, with what it is for: `for M8 to rail`. */
const SHAPED_HOLE = z.strictObject({
  outline: NAMED_OUTLINE_INPUT.describe(
    'The hole point by point, in the coordinates of its panel.',
  ),
  use: optionalText('What stands behind the size of other holes: for M8, to rail, drill.'),
});

const PANEL_HOLES = z.union([
  z.string(),
  z.array(z.union([...HOLES_INPUT.options[1].element.options, SHAPED_HOLE])),
]);

const HOLES_ABOUT =
  "Holes with ';' between them, or a list of them: where, and a size. From foot, end, left, right of a flange, x and y or from left and bottom of a base; from another panel, or an edge of one, for a hole that is known by its place on the finished part.";

/** What a base and a flange both may have cut into them. */
const CUTS = {
  cornerRadius: optionalFigure('Radius of its free corners, in place of that of the part.'),
  cornerChamfer: optionalFigure(
    'What is cut off at its free corners, in place of that of the part.',
  ),
  holes: PANEL_HOLES.optional().describe(HOLES_ABOUT),
  cutouts: CUTOUTS_INPUT.optional().describe(
    "Cut-outs of any shape, point by point, with '|' between them. One that reaches over a free edge is a notch, one that reaches over a fold is cut as it lies in the flat.",
  ),
  slits: optionalText(
    "Slits as narrow as the cutter cuts, each by its two ends, with ';' between them: 10,0 10,15.",
  ),
};

const REGULAR = {
  disc: optionalFigure('Diameter of a round base, its middle at 0,0.'),
  ring: z
    .strictObject({
      outer: FIGURE.describe('Outer diameter.'),
      inner: FIGURE.describe('Inner diameter.'),
      from: FIGURE.describe('Where the sector begins, degrees counter-clockwise from the right.'),
      to: FIGURE.describe('Where it ends.'),
    })
    .optional()
    .describe('A sector of a ring about 0,0; its edges are outer, end, inner and start.'),
  polygon: z
    .strictObject({
      sides: FIGURE.describe('How many sides.'),
      across: FIGURE.describe('Diameter of the circle that touches its sides from inside.'),
    })
    .optional()
    .describe(
      'A regular polygon about 0,0; edge 1 is the lowest, the others follow counter-clockwise.',
    ),
};

export const BASE_MAP = z.strictObject({
  name: optionalText('What it is called; base where it is left out.'),
  size: optionalText('Width x depth of a rectangle: 120 x 80. Edges bottom, right, top and left.'),
  width: optionalFigure('Width of a rectangle, from left to right, in place of size.'),
  depth: optionalFigure('Depth of a rectangle, from bottom to top, in place of size.'),
  outline: NAMED_OUTLINE_INPUT.optional().describe(
    'The outside shape, point by point. An edge goes by the number of the point where it begins, or by a name behind that: 120,0 edge rear.',
  ),
  ...REGULAR,
  ...CUTS,
});

export const FLANGE_MAP = z.strictObject({
  name: z.string().describe('What it is called.'),
  on: z.string().describe('The panel and its edge that it grows on: base top, lip end.'),
  height: optionalFigure(
    'From the fold to its end, on the outside, or with measure inside on the inside.',
  ),
  angle: optionalFigure('How far it is turned: 0.5 to 180 degrees, 90 where left out.'),
  direction: z
    .enum(['up', 'down'])
    .optional()
    .describe('Up is towards whoever looks at the drawing, and where it is left out.'),
  from: optionalFigure('Where it begins along the edge, which counts from its left or lower end.'),
  to: optionalFigure('Where it ends along the edge.'),
  width: optionalFigure('How wide it is; the whole edge where nothing is said of that.'),
  align: z
    .enum(['left', 'middle', 'right'])
    .optional()
    .describe('Which part of the edge its width takes; the middle where left out.'),
  radius: optionalFigure('Inside radius of its fold, in place of that of the part.'),
  rule: optionalText('Bend rule of its fold, in place of that of the part.'),
  taper: optionalFigure('By how many degrees both sides lean in.'),
  taperLeft: optionalFigure('By how many degrees its left side leans in.'),
  taperRight: optionalFigure('By how many degrees its right side leans in.'),
  endWidth: optionalFigure('Width at its end, both sides leaning alike.'),
  outline: NAMED_OUTLINE_INPUT.optional().describe(
    'A shape of its own in place of height and taper, point by point: across along its foot, up from it. Its fold is at the edge that foot names, the first where that is left out.',
  ),
  foot: optionalText('Of an outline, the edge that is folded on.'),
  footFrom: optionalFigure('Of an outline, where the fold begins along that edge.'),
  footTo: optionalFigure('Of an outline, where the fold ends along that edge.'),
  ...CUTS,
  hemShape: z
    .enum(['flat', 'teardrop'])
    .optional()
    .describe('Of an angle of 180: parallel to its panel, or a loop with its edge down on it.'),
  joggle: optionalFigure('Sets it off parallel to its panel by that much, with two folds.'),
  slots: z
    .boolean()
    .optional()
    .describe('Its fold is cut as a row of slots, to be folded by hand and welded.'),
  slotLength: optionalFigure('The longest slot; 50 where left out.'),
  slotLand: optionalFigure('Metal between the slots; twice the thickness where left out.'),
  fold: optionalText('What its fold is called; A, B, C in turn where left out.'),
  hugs: z
    .boolean()
    .optional()
    .describe('Its fold hugs what it holds: formed round a bar or in rolls, whatever its radius.'),
  midSurface: z
    .boolean()
    .optional()
    .describe('One of many small bends of a rolled surface, drawn on the middle of the sheet.'),
});

export const CORNER_MAP = z.strictObject({
  between: z.array(z.string()).length(2).describe('The two flanges that meet there.'),
  style: z
    .enum(['open', 'butt', 'lapped'])
    .describe('Both cut back alike; one runs on and the other ends at it; one carries a tab.'),
  through: optionalText('Of butt and lapped: the flange that runs on.'),
  gap: optionalFigure('Gap between the two, in place of cornerGap.'),
  lap: optionalFigure('Of lapped: how long the tab is.'),
});

export const FLANGES = z
  .union([z.string(), z.array(z.union([z.string(), FLANGE_MAP]))])
  .describe('What is folded on, one after the other: lip on base top 20 90 up from 10 to 110.');
export const CORNERS = z
  .union([z.string(), z.array(z.union([z.string(), CORNER_MAP]))])
  .describe('How neighbouring flanges meet: front and right butt through front gap 1.');
export const BASE = z.union([z.string(), BASE_MAP]);

export type GivenBase = z.infer<typeof BASE>;
export type GivenBaseMap = z.infer<typeof BASE_MAP>;
export type GivenFlanges = z.infer<typeof FLANGES>;
export type GivenFlangeMap = z.infer<typeof FLANGE_MAP>;
export type GivenCorners = z.infer<typeof CORNERS>;
export type GivenCornerMap = z.infer<typeof CORNER_MAP>;
export type GivenHoles = z.infer<typeof PANEL_HOLES>;
