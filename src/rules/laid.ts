import type { Rule } from './rule.ts';

/** Rules about parts that are laid on a sheet. */
export const LAID_RULES = {
  'lead-in-room': {
    severities: ['warn'],
    title: 'There is no room for a pierce and its lead-in beside a part.',
    reason: 'The pierce blows a hole into the part beside it, or its dross does.',
    measured:
      'the longest lead-in that finds room outside a corner of the outline, against the one that the way of cutting takes',
    mend: 'Leave a wider gap, or set a shorter lead-in at the cutter and try it on scrap.',
    source: 'from memory: figures of the ways of cutting; no standard gives them',
  },
  'stock-over-bed': {
    severities: ['warn', 'note'],
    title: 'A sheet or remnant is larger than the bed of the cutter.',
    reason:
      'The cutter does not reach all of it: it is sheared first, and no part lies over a shear.',
    measured: 'length and width of the stock against those of the bed, either way round',
    mend: 'Shear it where the layout says, or put pieces as large as the bed into the shop file.',
    source: 'bed of the cutter and stock in the shop file; geometry',
  },
  'long-neighbours': {
    severities: ['note'],
    title: 'Long neighbours are cut one after the other on sheet that warps.',
    reason:
      'The second is cut from metal that the first has warmed, and comes out bent or too small.',
    measured:
      'pieces whose edges run within 30 mm of each other over 150 mm and more, in the order of cutting',
    mend: 'Let the sheet cool between the two.',
    source: 'common practice; the figures from memory',
  },
} as const satisfies Readonly<Record<string, Rule>>;
