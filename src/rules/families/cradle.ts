import { IMPOSSIBLE, type Rule } from '../rule.ts';

/** Rules about cradles of straps and a rail. */
export const CRADLE_RULES = {
  'cradle-no-depth': {
    ...IMPOSSIBLE,
    title: 'The floor of a tank meets its top.',
    reason: 'A floor that falls so much from where the depth was measured leaves none at a corner.',
    measured: 'the depth at all four corners, against 1 mm',
    mend: 'Give more depth or less slope, and look at which end the depth was measured.',
  },
  'cradle-strap-off-tank': {
    ...IMPOSSIBLE,
    title: 'A strap hangs over the end of its tank.',
    reason: 'It slides off.',
    measured: 'leftStrap and rightStrap, against half a strapWidth',
    mend: 'Stand it farther from the end.',
  },
  'cradle-straps-meet': {
    ...IMPOSSIBLE,
    title: 'The straps of a cradle run into each other.',
    reason: 'Each is measured from its own end of the tank.',
    measured: 'what leftStrap and rightStrap leave of length, against strapWidth',
    mend: 'Stand them nearer to their ends.',
  },
  'cradle-too-shallow': {
    ...IMPOSSIBLE,
    title: 'A tank is too shallow for the bends of its straps.',
    reason: 'Between foot and crown nothing lies flat.',
    measured: 'depth and drop, against what the bends take',
    mend: 'Give more depth, more drop, a smaller radius, or less pullUp.',
  },
  'cradle-rail-hole': {
    ...IMPOSSIBLE,
    title: 'A hole for the chassis leaves the rail no metal at its edge.',
    reason: 'The bolt pulls out of it.',
    measured: 'half of chassisHole and a thickness, against the flange and railBeyond',
    mend: 'Give a smaller hole, or more railBeyond and beyond.',
  },
  'cradle-lip-covers-bolts': {
    ...IMPOSSIBLE,
    title: 'The lower flange of a channel lies under its bolts.',
    reason: 'No spanner reaches them.',
    measured: 'railLip, against the room from the web to the bolts less the width of their holes',
    mend: 'Give less railLip, more beyond, or an angle.',
    source: 'common practice',
  },
  'cradle-load': {
    severities: ['note'],
    title: 'What a cradle carries.',
    reason: 'Whoever is to judge its strength needs to know.',
    measured: 'the volume of the tank by its outside, and the density of what is in it',
    mend: 'Nothing: leave strength to licensed practice and local rules.',
    source: 'plain geometry; the densities have theirs beside them',
  },
  'cradle-tips': {
    severities: ['warn'],
    title: 'The middle of a tank does not hang between its straps.',
    reason: 'It tips out of them.',
    measured: 'the middle of the volume, against the places of the straps',
    mend: 'Stand the straps on either side of it.',
    source: 'plain geometry',
  },
  'cradle-bolt-covered': {
    severities: ['warn'],
    title: 'A bolt of the chassis lies under a foot of a strap.',
    reason: 'Its head keeps the foot off the rail, and no spanner reaches it.',
    measured: 'the distance of their middles, against half a strapWidth and a chassisHole',
    mend: 'Move the one or the other along the rail.',
    source: 'common practice: the head of a screw is about twice as wide as its hole',
  },
} satisfies Record<string, Rule>;
