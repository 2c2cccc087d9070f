import type { ValueOf } from './field.ts';
import { group, optionalLength } from './fields.ts';
import { foldNames } from './fold-names.ts';
import { type Sheet, usualClearance } from './tab-clearance.ts';

/** What takes the place of bends, of any family. */
export const JOINT_INPUTS = group('In place of bends', {
  weldAt: foldNames(
    'Folds that are not bent but welded: the part is made in pieces that meet there with cornerGap between their inner edges.',
    'A, C',
  ),
  slitAt: foldNames('Folds that are cut as a row of slots, bent by hand and welded up.', 'B'),
  lapAt: foldNames(
    'Folds that are not bent: the part is made in pieces, and one of the two panels is folded up inside the other, on which that flange lies flat, to be welded or riveted. A on front folds the flange on front; without, on the panel that the fold comes from.',
    'A, C on front',
  ),
  lapWidth: optionalLength({
    about: 'Flat width of the overlap of such a flange.',
    min: 3,
    max: 200,
    example: 15,
    when: { lapAt: 'given' },
    otherwise: '15 mm, or five thicknesses where that is more',
    anchor: { kind: 'bends' },
  }),
  tabAt: foldNames(
    'Folds that are not bent: the part is made in pieces, and one of the two panels stands on the other with tabs in slots in the edge of that, which hold them square for tacking. A on front puts the tabs on front; without, they are on the panel that the fold leads to.',
    'A, C on front',
  ),
  tabClearance: optionalLength({
    about: 'Clearance of such tabs in their slots, on each side.',
    min: 0,
    max: 5,
    example: 0.2,
    when: { tabAt: 'given' },
    otherwise: 'half of what the sheet may be thicker and a tenth of the kerf',
    anchor: { kind: 'bends' },
  }),
  hemAt: foldNames(
    'Folds right over, such as the top of a stop that is folded double, that are to be a hem: the sheet ends behind the fold, and the rest of it is a piece of its own, welded to the edge of the hem.',
    'C',
  ),
  hemDepth: optionalLength({
    about: 'Depth of such a hem, from the outside of its bend.',
    min: 3,
    max: 200,
    example: 12,
    when: { hemAt: 'given' },
    otherwise: '12 mm, or six thicknesses where that is more',
    anchor: { kind: 'bends' },
  }),
});

/** The same, fully resolved. */
export interface JointValues {
  /** Folds that are weld seams between two pieces instead, by their names. */
  readonly weldAt: readonly string[];
  /** Folds that are cut as a row of slots, bent by hand and welded up. */
  readonly slitAt: readonly string[];
  /** Folds that are laps of a flange between two pieces instead: `A`, or `A on front`. */
  readonly lapAt: readonly string[];
  /** Flat width over which such a flange lies on the other piece, mm. */
  readonly lapWidthMm: number;
  /** Folds that are seams between two pieces held by tabs in slots instead: `A`, or `A on front`. */
  readonly tabAt: readonly string[];
  /** Clearance of such tabs on each side, mm. */
  readonly tabClearanceMm: number;
  /** Folds right over that are hems, with the rest of their further panel welded on. */
  readonly hemAt: readonly string[];
  /** Depth of such a hem, mm. */
  readonly hemDepthMm: number;
}

type JointsParsed = {
  readonly [K in keyof typeof JOINT_INPUTS]?: ValueOf<(typeof JOINT_INPUTS)[K]>;
};

/**
 * What takes the place of bends. A lap of 15 mm leaves room to clamp and to weld or rivet on both its
 * edges, and five thicknesses are the least that codes for welded laps ask (AWS D1.1, from memory;
 * the 15 mm are common practice).
 */
export const jointsOf = (
  {
    weldAt = [],
    slitAt = [],
    lapAt = [],
    tabAt = [],
    hemAt = [],
    lapWidth,
    tabClearance,
    hemDepth,
  }: JointsParsed,
  sheet: Sheet,
): JointValues => ({
  weldAt,
  slitAt,
  lapAt,
  lapWidthMm: lapWidth ?? Math.max(LAP_MM, LAP_THICKNESSES * sheet.thicknessMm),
  tabAt,
  tabClearanceMm: tabClearance ?? usualClearance(sheet).mm,
  hemAt,
  hemDepthMm: hemDepth ?? Math.max(HEM_MM, HEM_THICKNESSES * sheet.thicknessMm),
});

const LAP_MM = 15;
const LAP_THICKNESSES = 5;

/** A hem that a folder still takes hold of and closes (common practice). */
const HEM_MM = 12;
const HEM_THICKNESSES = 6;
