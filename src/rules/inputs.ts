import { type Rule, UNUSED } from './rule.ts';

/** Rules about inputs, whatever the family. */
export const INPUT_RULES = {
  'input-unused': {
    ...UNUSED,
    title: 'An input is given that has no meaning beside what the others are.',
    measured: 'what the other inputs are, against what they have to be for it to have a meaning',
    mend: 'Leave it out, or give the other inputs what the message names.',
    source: 'the conditions of its inputs that each family states: blankwright describe FAMILY',
  },
} satisfies Record<string, Rule>;
