import { IMPOSSIBLE, type Rule } from '../rule.ts';

/** Rules about brackets. */
export const BRACKET_RULES = {
  'gusset-too-deep': {
    ...IMPOSSIBLE,
    title: 'A gusset is deeper than the base.',
    reason: 'It reaches over the end of the base.',
    measured: 'gussetDepth against base',
    mend: 'Give less gussetDepth, or more base.',
  },
  'gusset-too-high': {
    ...IMPOSSIBLE,
    title: 'A gusset is higher than the upright.',
    reason: 'It reaches over the end of the upright.',
    measured: 'gussetHeight against upright',
    mend: 'Give less gussetHeight, or more upright.',
  },
  'gusset-too-low': {
    ...IMPOSSIBLE,
    title: 'A gusset leaves no triangle above the bend.',
    reason: 'It stiffens nothing.',
    measured: 'gussetHeight against what the bend takes',
    mend: 'Give more gussetHeight.',
  },
} satisfies Record<string, Rule>;
