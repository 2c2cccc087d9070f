import type { Loop } from '../../geometry/loop.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { FlatCutout, FlatPattern } from '../../model/flat.ts';
import type { Marking } from '../../model/shop.ts';

/** What is cut out of the sheet, as edges of the metal. */
export interface AsCut {
  readonly outline: Loop;
  /** In the order of the flat pattern's: of a hole that is only marked, nothing. */
  readonly holes: readonly (FlatCutout | undefined)[];
  /** Middles of holes that are marked and drilled. */
  readonly marks: readonly Vec2[];
}

/** A hole that a tip finds its place in, mm, as the tool goes round it (common practice). */
export const PIERCE_MM = 1;

/**
 * Half the length of the lines of a cross, mm: long enough to centre a tip on by eye (common
 * practice).
 */
const CROSS_MM = 3;

/**
 * Holes that are drilled are not cut: a small hole is pierced at the middle of each, as wide as the
 * tool makes it, or a cross is marked there. `outline` is the edge as it is cut, nicks and all.
 */
export const asCut = (
  { cutouts }: FlatPattern,
  outline: Loop,
  drilled: Marking['drilled'],
  kerfMm: number,
): AsCut => ({
  outline,
  holes: cutouts.map((hole) => {
    if (!isDrilled(hole)) return hole;
    return drilled === 'pierces' ? { ...hole, diameterMm: PIERCE_MM + kerfMm } : undefined;
  }),
  marks: drilled === 'pierces' ? [] : cutouts.filter(isDrilled).map((hole) => hole.centre),
});

type Round = Extract<FlatCutout, { readonly kind: 'round' }>;

export const isDrilled = (hole: FlatCutout): hole is Round =>
  hole.kind === 'round' && hole.use?.isDrilled === true;

/** The two lines of the cross at the middle of a hole. */
export const crossAt = ([x, y]: Vec2): readonly (readonly [Vec2, Vec2])[] => [
  [
    [x - CROSS_MM, y],
    [x + CROSS_MM, y],
  ],
  [
    [x, y - CROSS_MM],
    [x, y + CROSS_MM],
  ],
];
