import { IMPOSSIBLE, type Rule } from '../rule.ts';

/** Rules about clips for tubes. */
export const SADDLE_RULES = {
  'clip-gap-too-wide': {
    ...IMPOSSIBLE,
    title: 'The gap of a clip is wider than its tube allows.',
    reason: 'Ears that stand so far apart leave nothing to hug the tube with.',
    measured: 'gap against the radius of the tube with its rubber',
    mend: 'Give a smaller gap.',
  },
  'clip-too-low': {
    ...IMPOSSIBLE,
    title: 'A saddle is too low for the bends of its ears.',
    reason: 'The hug would run straight into a bend the other way.',
    measured: 'seat against what hug, bends and gap take',
    mend: 'Give a higher seat, a smaller radius or gap, or go less far round.',
  },
  'clip-neck-closed': {
    ...IMPOSSIBLE,
    title: 'The ears of an omega meet under the tube.',
    reason: 'They cannot be bent out any more.',
    measured: 'where the bends of the ears end, from the middle',
    mend: 'Go less far round.',
  },
  'clip-bolt-in-bend': {
    ...IMPOSSIBLE,
    title: 'The hole of a clip lies in the bend of its ear.',
    reason: 'The bolt would not sit flat, and the hole is drawn out of round.',
    measured: 'boltFrom against where the ear is flat, half a hole and a thickness',
    mend: 'Give more boltFrom, or a smaller bolt.',
  },
  'clip-ear-too-short': {
    ...IMPOSSIBLE,
    title: 'The ear of a clip has no metal beyond its hole.',
    reason: 'The bolt pulls out of the end.',
    measured: 'beyond against half the hole and a thickness',
    mend: 'Give more beyond.',
  },
  'clip-too-narrow': {
    ...IMPOSSIBLE,
    title: 'A clip has no metal beside its holes.',
    reason: 'The ear tears off at the bolt.',
    measured: 'width against boltHole and a thickness on either side',
    mend: 'Give more width, or smaller bolts.',
  },
  'clip-hug': {
    severities: ['note'],
    title: 'The hug of a clip is formed in one go round a pipe or bar.',
    reason: 'It is no fold: a leaf would press a corner into it. What is formed springs open.',
    measured: 'the radius of the hug, and the springback of the sheet',
    mend: 'Form it round the diameter that is told.',
    source: 'springback of the sheet, as bend tells it',
  },
  'clip-slid-on': {
    severities: ['note'],
    title: 'A clip goes farther round its tube than half of it.',
    reason: 'The tube does not go into it from the side.',
    measured: 'how far it goes round',
    mend: 'Slide it on from an end of the tube, or take two halves.',
    source: 'plain geometry',
  },
  'clip-loose': {
    severities: ['warn'],
    title: 'A clip without rubber has hardly any gap to be drawn together by.',
    reason: 'A tube a little under size stays loose when the ears are shut.',
    measured: 'gap against 0.5 % of the way round',
    mend: 'Give more gap, or rubber.',
    source: 'common practice',
  },
} satisfies Record<string, Rule>;
