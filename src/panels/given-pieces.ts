import * as z from 'zod';
import { FIGURE } from '../forms/accepts.ts';
import type { CommonValues } from '../forms/common.ts';
import { BASE, CORNERS, FLANGES, type GivenCornerMap, type GivenFlangeMap } from './given.ts';
import type { GivenBaseMap } from './given.ts';

/** Several blanks of one part, how one takes its size from another, and how tabs locate them. */

const OTHER =
  'another piece, by its name; its size is that of the finished piece, with its lips and folds';

export const FITS_MAP = z.strictObject({
  over: z.string().optional().describe(`The piece that its base and skirts go over: ${OTHER}.`),
  into: z.string().optional().describe(`The piece that it goes into: ${OTHER}.`),
  closes: z
    .string()
    .optional()
    .describe(
      'The edge at which it closes the open side of a piece, standing between its panels: box left, box wall right.',
    ),
  covers: z
    .string()
    .optional()
    .describe(
      'The edge at which it closes the open side of a piece, lying against the edges of its panels, flush with their outsides.',
    ),
  gap: FIGURE.optional().describe(
    'Gap between the two on every side; 0 where left out. Of covers it is how far the piece is set in, and below 0 how far it stands out.',
  ),
  inset: FIGURE.optional().describe(
    'Of closes: how far in from the edges the outside of the piece stands; 0, flush, where left out.',
  ),
});

export const TAB_MAP = z.strictObject({
  on: z
    .string()
    .describe(
      'The free straight edge that has the teeth: rib end, or with the name of a piece, cheek rib end.',
    ),
  into: z
    .string()
    .describe('The panel that has the slots: base, or with the name of a piece, box base.'),
  count: FIGURE.optional().describe('How many teeth; 2 where left out.'),
  width: FIGURE.optional().describe(
    'How wide a tooth is along its edge; five thicknesses, and at least 10, where left out.',
  ),
  clearance: FIGURE.optional().describe(
    'Clearance all round a tooth in its slot; where left out, half of what the sheet may be thicker than ordered and a tenth of the kerf.',
  ),
  from: FIGURE.optional().describe(
    'Where the middle of the first tooth is along the edge, which counts from its left or lower end.',
  ),
  pitch: FIGURE.optional().describe(
    'From the middle of a tooth to that of the next; evenly spaced where left out.',
  ),
});

export const FITS = z.union([z.string(), FITS_MAP]);
export const TABS = z
  .union([z.string(), z.array(z.union([z.string(), TAB_MAP]))])
  .describe(
    'Teeth on an edge and slots where they meet a panel: rib end into base count 2 width 15.',
  );

export const PIECE_MAP = z.strictObject({
  name: z.string().describe('What it is called, in small letters with hyphens: end-left.'),
  quantity: FIGURE.optional().describe('How many of it one part takes; 1 where left out.'),
  base: BASE.optional().describe(
    'Its base; without a shape where fits says what size it is, and left out where it has no cuts.',
  ),
  flanges: FLANGES.optional(),
  corners: CORNERS.optional(),
  order: z
    .array(z.string())
    .optional()
    .describe('All panels in the order in which they are counted, where that is another.'),
  measure: z
    .enum(['outside', 'inside'])
    .optional()
    .describe('Whether its lengths are outside or inside dimensions, where that is another way.'),
  fits: FITS.optional().describe(
    'How its base takes its size from another piece: over box gap 1, into box gap 1, closes box left gap 0.5, covers box left.',
  ),
  tabs: TABS.optional(),
});

export const PIECES = z
  .union([z.string(), z.array(PIECE_MAP)])
  .describe(
    'Blanks of their own, each with its name, base and flanges. Figures of another piece have its name in front: box.base.width.',
  );

/**
 * A part panel by panel, as a file gives it to the family `panels`: a base with flanges, or pieces;
 * beside these the inputs that every family has, such as `thickness`.
 */
export const PANELS_SPEC = z.looseObject({
  base: BASE.optional(),
  flanges: FLANGES.optional(),
  corners: CORNERS.optional(),
  order: z.array(z.string()).optional(),
  tabs: TABS.optional(),
  pieces: PIECES.optional(),
});

export type PanelsSpec = z.infer<typeof PANELS_SPEC>;
export type GivenFitsMap = z.infer<typeof FITS_MAP>;
export type GivenTabMap = z.infer<typeof TAB_MAP>;
export type GivenPieceMap = z.infer<typeof PIECE_MAP>;

/** A piece as it is described, its lines taken apart. */
export interface PieceMap {
  readonly name: string;
  readonly quantity: number | string | undefined;
  readonly base: GivenBaseMap;
  readonly flanges: readonly GivenFlangeMap[];
  readonly corners: readonly GivenCornerMap[];
  readonly order: readonly string[] | undefined;
  readonly measure: CommonValues['measure'] | undefined;
  readonly fits: GivenFitsMap | undefined;
  readonly tabs: readonly GivenTabMap[];
}
