import { IMPOSSIBLE, type Rule } from '../rule.ts';

/** Rules about bends of mitred tube. */
export const TUBE_MITRE_RULES = {
  'mitre-tight': {
    ...IMPOSSIBLE,
    title: 'The bend is tighter than its tube is thick.',
    reason: 'Within the bend nothing is left of the pieces.',
    measured: 'radius against half the diameter',
    mend: 'Give a larger radius.',
  },
  'mitre-steep': {
    ...IMPOSSIBLE,
    title: 'The pieces are too few for the turn.',
    reason:
      'A cut of more than 45 degrees is longer than the tube is thick, and no saw is set to it.',
    measured: 'half of the turn at a joint',
    mend: 'Take more pieces.',
  },
  'mitre-short-inside': {
    severities: ['warn'],
    title: 'Within the bend the pieces are too short for their welds.',
    reason:
      'The welds at both ends run into each other there, and the heat of one spoils the other.',
    measured: 'length of a piece within the bend against six walls',
    mend: 'Give a larger radius, or fewer pieces.',
    source: 'common practice, from memory',
  },
} satisfies Record<string, Rule>;
