import { DEFAULT_HANDOVER } from '../model/handover.ts';
import type { Basis, Sourced } from '../model/material.ts';
import { ANY_IMPORT, type Cutter, type CutterProcess, type Shop } from '../model/shop.ts';
import { CUTTING } from './cutting.ts';
import { FOLDERS } from './machines.ts';

const SIZE_OF_A_LARGE_SHEET = { length: 3000, width: 1500 };

const rulesOf = (process: CutterProcess) => {
  const { leastHole, leastSlot, leastWeb, leastEdge, warpsUpTo } = CUTTING[process];
  return {
    leastHole: leastHole.value,
    leastSlot: leastSlot.value,
    leastWeb: leastWeb.value,
    leastEdge: leastEdge.value,
    warpsUpTo: warpsUpTo.value,
  };
};

/**
 * Sheet is cut at home by air plasma of 40 to 50 A. Sheet that would warp there, and plate that is
 * too thick for it, are sent out to a laser.
 */
const CUTTERS: readonly Cutter[] = [
  {
    name: 'plasma',
    process: 'plasma',
    thickness: { from: 1.6, to: 12 },
    bed: { length: 2500, width: 1250 },
    kerf: [
      { thickness: 3, kerf: 1.84 },
      { thickness: 3, kerf: 1.97, material: 'stainless' },
      { thickness: 3, kerf: 1.98, material: 'aluminium' },
    ],
    ...rulesOf('plasma'),
    marks: false,
    import: ANY_IMPORT,
  },
  {
    name: 'laser service',
    process: 'laser',
    thickness: { from: 0.5, to: 20 },
    bed: SIZE_OF_A_LARGE_SHEET,
    kerf: [
      { thickness: 1, kerf: 0.1 },
      { thickness: 1.5, kerf: 0.12 },
      { thickness: 2, kerf: 0.13 },
      { thickness: 3, kerf: 0.15 },
      { thickness: 4, kerf: 0.18 },
      { thickness: 6, kerf: 0.22 },
      { thickness: 19, kerf: 0.38 },
    ],
    ...rulesOf('laser'),
    marks: true,
    import: ANY_IMPORT,
  },
];

/**
 * The shop of one person, for users who have no shop file of their own: a plasma table and manual
 * folders. It has no press brake, so a part that is said to fold here can be folded on manual
 * folders.
 */
export const DEFAULT_SHOP: Shop = {
  name: 'a small shop, assumed',
  isAssumed: true,
  machines: FOLDERS,
  cutters: CUTTERS,
  sheets: [
    { length: 2000, width: 1000 },
    { length: 2500, width: 1250 },
    { length: 3000, width: 1500 },
  ],
  remnants: [],
  marking: { folds: 'lines', face: 'inside', drilled: 'crosses' },
  handover: DEFAULT_HANDOVER,
  weldGap: 0.5,
  bends: [],
};

/** Source of a figure that does not carry its own. */
export interface FigureSource {
  readonly basis: Basis;
  readonly source: string;
}

/** Sources by the path of their figure in the shop file: `cutters[0].kerf`. */
export type FigureSources = Readonly<Record<string, FigureSource>>;

const practice = (source: string): FigureSource => ({ basis: 'common practice', source });
const bare = ({ basis, source }: Sourced<unknown>): FigureSource => ({ basis, source });

const cutterSources = (i: number, process: CutterProcess): FigureSources =>
  Object.fromEntries(
    Object.entries(CUTTING[process]).map(([rule, figure]) => [
      `cutters[${i}].${rule}`,
      bare(figure as Sourced<unknown>),
    ]),
  );

/**
 * Sources of the figures of the built-in shop, except its machines, whose figures carry their own.
 */
export const DEFAULT_SHOP_SOURCES: FigureSources = {
  'cutters[0].thickness': practice(
    'common practice for air plasma of 40 to 50 A; thinner sheet warps',
  ),
  'cutters[0].bed': practice('common practice: takes the medium stock sheet'),
  'cutters[0].kerf': {
    basis: 'published',
    source:
      'fabrication course, plasma kerf at 40 to 50 A: middle of 1.65 to 2.03 (stainless 1.78 to 2.16, aluminium 1.78 to 2.16); measure a test cut',
  },
  ...cutterSources(0, 'plasma'),
  'cutters[0].marks': practice('common practice'),
  'cutters[1].thickness': practice(
    'common practice for fibre lasers; ISO 9013 covers laser cuts of 0.5 to 32 mm',
  ),
  'cutters[1].bed': practice('common practice: takes the large stock sheet'),
  'cutters[1].kerf': {
    basis: 'published',
    source:
      'Process Fundamentals of Industrial Laser Welding and Cutting, 4.2.1: 0.1 thin, 0.15 at 3 mm, 0.38 at 19 mm, on a line between; measure a test cut',
  },
  ...cutterSources(1, 'laser'),
  'cutters[1].marks': practice('common practice'),
  sheets: {
    basis: 'published',
    source:
      'usual European formats: 1 x 2, 1.25 x 2.5 and 1.5 x 3 m (encyclopaedia entry and lexicon entry on sheet metal)',
  },
  marking: practice('common practice'),
  handover: practice('common practice; tolerance is the class of ISO 2768-1 that is asked for'),
  weldGap: practice('common practice'),
};
