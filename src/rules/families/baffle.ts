import { IMPOSSIBLE, type Rule } from '../rule.ts';
import { BOATS } from './phrases.ts';

/** Rules about baffles. */
export const BAFFLE_RULES = {
  'tank-radius-too-big': {
    ...IMPOSSIBLE,
    title: 'The rounded corners of a tank do not fit a side of it.',
    reason: 'The baffle cannot follow a tank that cannot be.',
    measured: 'both corner radii against the side between them',
    mend: 'Give smaller corner radii, or a larger tank.',
  },
  'tank-length-missing': {
    ...IMPOSSIBLE,
    title:
      'The depth of a baffle depends on where it stands, and the length of the tank is not known.',
    reason: 'A baffle of a sloping tank fits one place only.',
    measured: 'whether tankLength was given',
    mend: 'Give tankLength, or leave out heightShallow.',
  },
  'floor-meets-roof': {
    ...IMPOSSIBLE,
    title: 'The sloping floor meets the roof of the tank.',
    reason: 'Nothing is left of the baffle on that side.',
    measured: 'what the slopes leave of the height',
    mend: 'Give heightShallow nearer to height, or more heightRight.',
  },
  'too-many-baffles': {
    ...IMPOSSIBLE,
    title: 'Bays of this length take more baffles than anybody welds in.',
    reason: 'A figure was probably misread.',
    measured: 'the number of baffles against 20',
    mend: 'Give longer bays.',
    source: 'a limit of this program',
  },
  'bay-too-short': {
    ...IMPOSSIBLE,
    title: 'Bays are shorter than the flange of a baffle.',
    reason: 'The flange runs into the next baffle.',
    measured: 'the length of a bay against the flange',
    mend: 'Give longer bays, or a shorter flange.',
  },
  'no-baffle-needed': {
    severities: ['warn'],
    title: 'The tank is a single bay and needs no baffle.',
    reason: 'You are making one more than the tank wants.',
    measured: 'tankLength against longestBay',
    mend: 'Leave it, or ask for shorter bays.',
    source: 'bays of 300 to 450 mm: common practice',
  },
  'baffle-too-open': {
    severities: ['warn'],
    title: 'The openings of a baffle are too large a share of the section of the tank.',
    reason: 'The baffle does not hold the liquid back, and the tank surges.',
    measured: 'area of all openings against 30 % of the section',
    mend: 'Give fewer or smaller holes, or smaller corner cuts.',
    source: BOATS,
  },
  'corner-cuts-meet': {
    ...IMPOSSIBLE,
    title: 'Two corner cuts of a baffle meet along a side.',
    reason: 'Nothing of that side is left.',
    measured: 'both cuts and the bends beside them against the side',
    mend: 'Give smaller cuts.',
  },
  'corner-cut-too-short': {
    ...IMPOSSIBLE,
    title: 'A corner cut does not clear the rounded corner of the tank, or the bends beside it.',
    reason: 'The corner of the baffle stands on the round of the tank.',
    measured: 'the cut against the round and the bends',
    mend: 'Give a larger cut.',
  },
  'flange-round-corner': {
    ...IMPOSSIBLE,
    title: 'Without a corner cut a flange would run round a rounded corner.',
    reason: 'Sheet does not fold along an arc.',
    measured: 'whether the corner of the tank is round where two flanges meet',
    mend: 'Give a corner cut.',
  },
  'flow-holes-do-not-fit': {
    ...IMPOSSIBLE,
    title: 'The holes that the baffle is to have do not fit on it.',
    reason: 'The liquid would not flow as was asked.',
    measured: 'how many holes there is room for, with metal between them',
    mend: 'Give other holes, or fewer of them.',
  },
  'no-room-for-swage': {
    ...IMPOSSIBLE,
    title: 'A swage finds no room on the baffle.',
    reason: 'It would run into holes or edges.',
    measured: 'the swage against the plain metal',
    mend: 'Give a narrower swage, or none.',
  },
} satisfies Record<string, Rule>;
