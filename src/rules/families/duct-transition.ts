import { IMPOSSIBLE, type Rule } from '../rule.ts';

/** Rules about transitions. */
export const DUCT_TRANSITION_RULES = {
  'divisions-by-four': {
    ...IMPOSSIBLE,
    title: 'The divisions do not give each corner a quarter of the circle.',
    reason: 'The four corners would come out different.',
    measured: 'whether divisions can be divided by four',
    mend: 'Give a multiple of four.',
  },
  'few-divisions': {
    severities: ['warn'],
    title: 'The round end is a polygon of few sides.',
    reason: 'No stub fits it without much dressing.',
    measured: 'divisions against 12',
    mend: 'Give 12 divisions or more.',
    source: 'textbooks on sheet-metal pattern drafting (Coey: 12 or more equal parts)',
  },
  'radius-over-round': {
    ...IMPOSSIBLE,
    title: 'The inside radius is larger than that of the round end.',
    reason: 'Bends cannot be rounder than the circle that they make.',
    measured: 'radius against half the clear diameter',
    mend: 'Give a smaller radius.',
  },
  'seam-cuts-through': {
    ...IMPOSSIBLE,
    title: 'The gap of a seam cuts off facets of the transition.',
    reason: 'Pieces would fall out of the blank.',
    measured: 'cornerGap against the narrowest facet at the seam',
    mend: 'Give a smaller cornerGap, or put the seam elsewhere.',
  },
  'folds-on-middle': {
    severities: ['note'],
    title: 'Nothing is taken off for the bends of a transition.',
    reason:
      'Fold lines are where the facets meet on the middle of the sheet: set the tool on them.',
    measured: 'that the part is a transition',
    mend: 'Set the brake on the lines, and try the round end on its stub before closing the seam.',
    source: 'plain geometry: such bends are some hundredths of a millimetre shorter',
  },
  'round-edge-short': {
    severities: ['note'],
    title: 'The round edge is shorter than its circle.',
    reason: 'Its chords are shorter than the arc: the stub fits tightly.',
    measured: 'chords against the circle',
    mend: 'Give more divisions, or roundEdge arcs.',
    source: 'plain geometry',
  },
  'roll-collar': {
    severities: ['note'],
    title: 'A collar is to be rolled and welded onto the round end.',
    reason: 'It is a part of its own beside the transition.',
    measured: 'the diameter of the round end',
    mend: 'Roll it to the size in the message.',
    source: 'plain geometry',
  },
} satisfies Record<string, Rule>;
