import { IMPOSSIBLE, type Rule } from '../rule.ts';
import { BOATS } from './phrases.ts';

const NO_FLAT = 'No flat metal is left to fold it by.';
const BETWEEN_BENDS = 'the size against what the bends at its ends take';

/** Rules about tanks. */
export const TANK_RULES = {
  'tank-too-small': {
    ...IMPOSSIBLE,
    title: 'A size of the tank leaves nothing inside it.',
    reason: 'Walls, gaps and bends take all there is.',
    measured: 'the size against thickness and gaps of both sides',
    mend: 'Give the tank more of that size.',
  },
  'floor-too-steep': {
    ...IMPOSSIBLE,
    title: 'The floor of a tank is steeper than 60 degrees.',
    reason: 'It leaves an end that no weld reaches into.',
    measured: 'the slope of the floor',
    mend: 'Give a deeper shallow end, or a longer tank.',
    source: 'a limit of this program',
  },
  'end-all-bend': {
    ...IMPOSSIBLE,
    title: 'An end of a tank is no higher than its bend takes up.',
    reason: NO_FLAT,
    measured: BETWEEN_BENDS,
    mend: 'Give a smaller radius, or a higher end.',
  },
  'floor-all-bend': {
    ...IMPOSSIBLE,
    title: 'The floor of a tank is no longer than its bends take up.',
    reason: NO_FLAT,
    measured: BETWEEN_BENDS,
    mend: 'Give a smaller radius, or a longer tank.',
  },
  'top-falls-in': {
    ...IMPOSSIBLE,
    title: 'The top sheet lies inside the walls.',
    reason: 'It falls into the tank while it is tacked.',
    measured: 'topSetback against the thickness of the walls',
    mend: 'Give half a thickness or less.',
  },
  'top-corner-open': {
    ...IMPOSSIBLE,
    title: 'Rounded or chamfered corners of the top leave the corners of the tank open.',
    reason: 'There is nothing to weld to.',
    measured: 'how far the corner of the top stays inside that of the walls',
    mend: 'Give a smaller corner, or a smaller topSetback.',
  },
  'link-missing': {
    ...IMPOSSIBLE,
    title: 'A pair of tanks shares its level, and has no hole low down for the pipe.',
    reason: 'One tank runs dry while the other is full.',
    measured: 'link and linkOn',
    mend: 'Give link, in a wall or an end.',
  },
  'fitting-on-other-panel': {
    ...IMPOSSIBLE,
    title: 'A fitting is measured from edges that its panel does not have.',
    reason: 'It would land somewhere else.',
    measured: 'what its figures are measured from, against its panel',
    mend: 'Measure it from the edges of that panel, or choose another panel.',
  },
  'hole-meets-wall': {
    ...IMPOSSIBLE,
    title: 'A hole reaches over a wall of the tank.',
    reason: 'The fitting stands on the weld and the hole opens the wall.',
    measured: 'the edge of the hole against the inside of the walls',
    mend: 'Move it in.',
  },
  'hole-on-baffle': {
    severities: ['warn'],
    title: 'A hole lies on a baffle.',
    reason: 'Pipe or fitting runs into the baffle.',
    measured: 'the hole against where the baffles stand',
    mend: 'Move it before or behind the baffle, or give another longestBay.',
    source: 'plain geometry',
  },
  'over-full': {
    severities: ['warn'],
    title: 'The tank is filled so far that fuel has too little room to expand.',
    reason: 'Warm fuel is pressed out of the breather.',
    measured: 'fillLimit against 95 %',
    mend: 'Give a fillLimit of 95 or less.',
    source: '49 CFR 393.67 (fuel tanks of road vehicles, after a summary of it)',
  },
  'thin-tank-wall': {
    severities: ['note'],
    title: 'The walls of a fuel tank are thinner than usual.',
    reason: 'Thin walls crack at welds and rub through.',
    measured: 'the thickness against the least of the material',
    mend: 'Take thicker sheet, and follow local rules.',
    source: BOATS,
  },
  'no-breather': {
    severities: ['note'],
    title: 'A fuel tank has no breather.',
    reason: 'A tank that cannot breathe is sucked flat, and the engine starves.',
    measured: 'whether breather was given',
    mend: 'Give breather, unless the filler has it.',
    source: 'common practice',
  },
  'one-of-a-pair': {
    severities: ['note'],
    title: 'A pair was asked for, and these are the blanks of one.',
    reason: 'The second tank is missing.',
    measured: 'hand and quantity',
    mend: 'Ask for hand both, or quantity 2.',
    source: 'how the family is built',
  },
} satisfies Record<string, Rule>;
