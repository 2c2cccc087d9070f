import { IMPOSSIBLE, type Rule } from '../rule.ts';

const NO_METAL = 'There is no metal where the part is to hold.';

/** Rules about rings. */
export const RING_RULES = {
  'inner-too-big': {
    ...IMPOSSIBLE,
    title: 'The hole in the middle leaves no rim.',
    reason: NO_METAL,
    measured: 'the hole against the outside, less a web on either side',
    mend: 'Give a smaller hole, or a larger plate.',
  },
  'round-height': {
    ...IMPOSSIBLE,
    title: 'A height is given for a plate that is round.',
    reason: 'A round plate is as high as it is wide.',
    measured: 'outerHeight against shape',
    mend: 'Leave out outerHeight, or give shape square.',
  },
  'bolt-circle-too-small': {
    ...IMPOSSIBLE,
    title: 'The bolts run into the hole in the middle.',
    reason: NO_METAL,
    measured: 'boltCircle less boltHole against the hole, with a web between them',
    mend: 'Give a larger bolt circle, or a smaller hole.',
  },
  'bolt-circle-too-big': {
    ...IMPOSSIBLE,
    title: 'The bolts run off the plate.',
    reason: NO_METAL,
    measured: 'boltCircle and boltHole against the outside, with a web beside them',
    mend: 'Give a smaller bolt circle, or a larger plate.',
  },
  'metal-beside-bolts': {
    severities: ['note'],
    title: 'How much metal there is beside the bolt holes.',
    reason: 'Thin rims pull out; whoever bolts it should know.',
    measured: 'from the edge of the holes to the edges of the plate',
    mend: 'Nothing, or another bolt circle.',
    source: 'plain geometry',
  },
} satisfies Record<string, Rule>;
