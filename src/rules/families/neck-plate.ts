import { IMPOSSIBLE, type Rule } from '../rule.ts';

/** Rules about plates for filler necks. */
export const NECK_PLATE_RULES = {
  'neck-plate-too-small': {
    ...IMPOSSIBLE,
    title: 'A plate for a neck has no rim round its hole.',
    reason: 'The hole of a neck that leans is longer than the neck is wide.',
    measured: 'outer against the length of the hole and a web on either side',
    mend: 'Give more outer.',
  },
  'neck-bolts-off': {
    ...IMPOSSIBLE,
    title: 'The bolts of a plate for a neck run into its hole or off its edge.',
    reason: 'Nothing is left to hold them.',
    measured: 'the metal between bolt holes, hole and edge, against a web',
    mend: 'Give a larger outer, another boltCircle or smaller bolts.',
  },
  'neck-wall-too-low': {
    ...IMPOSSIBLE,
    title: 'The low wall of a neck housing is all bend.',
    reason: 'Between flange and face nothing lies flat.',
    measured: 'low against what its bends take',
    mend: 'Give more low or a smaller radius.',
  },
  'neck-face-too-small': {
    ...IMPOSSIBLE,
    title: 'The hole of a neck runs into the bends of its face.',
    reason: 'A bend through a hole pulls it out of shape.',
    measured: 'what is flat of the face, against the hole and a web on either side',
    mend: 'Give more base or wide.',
  },
  'neck-flange-too-narrow': {
    ...IMPOSSIBLE,
    title: 'The flange of a neck housing has no room for its bolts.',
    reason: 'They run into the bend.',
    measured: 'flange against boltHole, the bend and a web on either side',
    mend: 'Give more flange or smaller bolts.',
  },
  'neck-through-wall': {
    ...IMPOSSIBLE,
    title: 'The neck passes the panel under the high wall of its housing.',
    reason: 'The hole would lie open beside the housing, or under its flange.',
    measured: 'where the hole in the panel ends, against the inside of the high wall',
    mend: 'Give less low, more base or less lean.',
  },
  'neck-way': {
    severities: ['note'],
    title: 'How plate and patch of a neck lie on the panel.',
    reason: 'A hole that leans the wrong way lets no neck through.',
    measured: 'lean, and both thicknesses',
    mend: 'Nothing: try it on the neck before it is cut.',
    source: 'plain geometry',
  },
} satisfies Record<string, Rule>;
