import { IMPOSSIBLE, type Rule } from '../rule.ts';

/** Rules about straps. */
export const STRAP_RULES = {
  'strap-too-low': {
    ...IMPOSSIBLE,
    title: 'A strap is too low for its bends.',
    reason: 'Between foot and crown nothing lies flat.',
    measured: 'height against what the bends take',
    mend: 'Give more height, a smaller radius, or less pullUp.',
  },
  'crown-too-narrow': {
    ...IMPOSSIBLE,
    title: 'The crown of a strap has no straight metal between its bends.',
    reason: 'It does not sit on the box.',
    measured: 'across against what the bends take',
    mend: 'Give more across, or a smaller radius.',
  },
  'foot-too-short': {
    ...IMPOSSIBLE,
    title: 'The foot of a strap has no metal beyond its slot.',
    reason: 'The bolt pulls out of the end.',
    measured: 'beyond against half the slot and a thickness',
    mend: 'Give more beyond.',
  },
  'strap-too-narrow': {
    ...IMPOSSIBLE,
    title: 'A strap has no metal beside its slots.',
    reason: 'The foot tears off at the bolt.',
    measured: 'width against boltHole and a thickness on either side',
    mend: 'Give more width, or smaller bolts.',
  },
  'no-crown': {
    ...IMPOSSIBLE,
    title: 'Holes are given for the crown of a strap that has none.',
    reason: 'A strap over something round has no flat crown.',
    measured: 'holesCrown against over',
    mend: 'Leave out holesCrown, or give over box.',
  },
  'strap-pull-up': {
    severities: ['note'],
    title: 'The feet stand over their mounting until the bolts pull them down.',
    reason: 'A strap that lies down at once does not hold.',
    measured: 'pullUp',
    mend: 'Nothing: it is meant to.',
    source: 'how the family is built',
  },
  'strap-measure': {
    severities: ['note'],
    title: 'measure changes nothing on a strap.',
    reason: 'Its sizes are those of what it holds, whichever way others are measured.',
    measured: 'measure',
    mend: 'Leave it out.',
    source: 'how the family is built',
  },
  'strap-corner': {
    severities: ['warn'],
    title: 'The bend of a strap sits on the corner of the box before it sits on its faces.',
    reason: 'It rocks, and wears the corner.',
    measured: 'how far the bend stands off the corner, against the rubber',
    mend: 'Give a smaller radius or more rubber, or round the corner of the box.',
    source: 'plain geometry',
  },
} satisfies Record<string, Rule>;
