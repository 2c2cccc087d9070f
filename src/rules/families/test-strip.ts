import { IMPOSSIBLE, type Rule } from '../rule.ts';
import { ALL_BEND } from './phrases.ts';

/** Rules about test strips. */
export const TEST_STRIP_RULES = {
  'strip-too-short': {
    ...IMPOSSIBLE,
    title: 'A test strip has no leg beside its bend.',
    reason: ALL_BEND,
    measured: 'flatLength against the allowance of the bend',
    mend: 'Give more flatLength, or a smaller radius.',
  },
  'nick-too-deep': {
    ...IMPOSSIBLE,
    title: 'A nick finds no room on a test strip.',
    reason: 'It runs into the bend or off the strip.',
    measured: 'nick against legs and width',
    mend: 'Give a smaller nick, or a larger strip.',
  },
  'mark-off-leg': {
    ...IMPOSSIBLE,
    title: 'The mark of a test strip does not lie on its leg.',
    reason: 'There is nothing to measure from.',
    measured: 'markDistance against the flat of the leg',
    mend: 'Give the markDistance that the message names.',
  },
  'coupon-figures': {
    severities: ['note'],
    title: 'How a test strip is measured, and what the bend rule expects.',
    reason: 'A strip measured otherwise gives a wrong deduction.',
    measured: 'flat length and rule',
    mend: 'Measure as it says, and give the readings to calibrate.',
    source: 'deduction = leg A + leg B - flat, by definition',
  },
} satisfies Record<string, Rule>;
