import { IMPOSSIBLE, type Rule } from '../rule.ts';

/** Rules about coped tubes. */
export const TUBE_COPE_RULES = {
  'cope-no-bore': {
    ...IMPOSSIBLE,
    title: 'The wall of the tube leaves no bore.',
    reason: 'That is a bar, which is not coped with a pattern.',
    measured: 'wall against half the diameter',
    mend: 'Give a thinner wall, or a larger diameter.',
  },
  'cope-overhangs': {
    ...IMPOSSIBLE,
    title: 'The branch reaches past the side of the header.',
    reason: 'Beside the header there is nothing that it could sit on, and no single curve closes.',
    measured: "the branch's radius and its offset against the header's radius",
    mend: 'Give a thicker header, a thinner branch, or less offset.',
  },
  'cope-bend-in-tube': {
    ...IMPOSSIBLE,
    title: 'The bend that the branch sits on is tighter than its tube is thick.',
    reason: 'No tube is bent like that.',
    measured: 'bendRadius against half the header',
    mend: 'Give the centre-line radius of the bend.',
  },
  'cope-beside-thinner': {
    ...IMPOSSIBLE,
    title: 'The branch beside is thinner than the one that is to end on it.',
    reason: 'The thicker one would reach round it as a fork does, in a curve with two steps.',
    measured: 'beside against diameter',
    mend: 'Cope the thicker branch onto the header first, and the thinner one onto both.',
  },
  'cope-alongside': {
    ...IMPOSSIBLE,
    title: 'The branch runs nearly along what it sits on.',
    reason: 'The cope would be many times as long as the tube is thick.',
    measured:
      'the angle to the header, to the branch beside, or to the straight tube behind a bend',
    mend: 'Give a steeper angle.',
    source: 'common practice',
  },
  'cope-misses': {
    ...IMPOSSIBLE,
    title: 'Part of the branch runs past what it sits on.',
    reason: 'There it has nothing to be welded to.',
    measured: 'every generator of the branch',
    mend: 'Let it meet the tube more squarely, or give a thicker header.',
  },
  'cope-ends-meet': {
    ...IMPOSSIBLE,
    title: 'The cuts at both ends of the tube overlap.',
    reason: 'Somewhere round the tube nothing is left of it.',
    measured: 'what is left along each generator',
    mend: 'Give a larger length.',
  },
  'cope-acute': {
    severities: ['warn'],
    title: 'The acute side of the joint is too narrow for a torch.',
    reason: 'It stays unwelded, or is welded badly.',
    measured: 'the angle between the axes',
    mend: 'Give a steeper angle, or close the acute side with a gusset.',
    source: 'common practice',
  },
  'cope-square-cut': {
    severities: ['note'],
    title: 'The curve is that of a cut square to the wall.',
    reason:
      'Cut square along the line of the outside alone, the inside of the wall touches first and holds the tube off.',
    measured: 'how far the greatest over the wall lies above the outside',
    mend: 'Cut along the heavy line, or along the thin one and grind the wall to a knife edge.',
    source: 'plain geometry',
  },
  'cope-step-fitted': {
    severities: ['note'],
    title: 'The end of the tube in its STEP file follows what it sits on through the whole wall.',
    reason:
      'Whoever draws on from the file sees no gap at the joint. A square cut leaves one on one face of the wall, which the weld fills.',
    measured: 'how far the square cut lies behind the seat',
    mend: 'Take its GLB or STL, of the paper model, for the tube as a square cut leaves it.',
    source: 'plain geometry',
  },
  'cope-hole-saw': {
    severities: ['note'],
    title: 'A hole saw cuts the cope in one.',
    reason: 'It leaves the shape of the header over the whole wall, quicker than a pattern.',
    measured: "how far a saw of the header's diameter travels through the branch",
    mend: 'Nothing needs to be done.',
    source: 'common practice, from memory: ordinary hole saws cut 38 mm deep',
  },
  'cope-chop-saw': {
    severities: ['note'],
    title: 'Two straight cuts of a chop saw do in place of the curve.',
    reason: 'They need neither pattern nor grinder, and leave a gap that the weld has to fill.',
    measured: 'the curve of the whole wall against two planes that clear it',
    mend: 'Nothing needs to be done.',
    source: 'plain geometry; a gap of 4 mm is filled by a weld, from memory',
  },
} satisfies Record<string, Rule>;
