import { IMPOSSIBLE, type Rule } from '../rule.ts';
import { ALL_BEND, SETBACK } from './phrases.ts';

/** Rules about trays. */
export const TRAY_RULES = {
  'tray-too-small': {
    ...IMPOSSIBLE,
    title: 'The base of a tray has nothing left between its bends.',
    reason: ALL_BEND,
    measured: SETBACK,
    mend: 'Give a larger tray, or a smaller radius.',
  },
  'tray-too-low': {
    ...IMPOSSIBLE,
    title: 'A side of a tray has no flat between its bends.',
    reason: ALL_BEND,
    measured: SETBACK,
    mend: 'Give more height, or a smaller radius.',
  },
  'hem-too-deep': {
    ...IMPOSSIBLE,
    title: 'A hem reaches down to the bend of the base.',
    reason: 'It cannot be closed.',
    measured: 'lipDepth against height and bends',
    mend: 'Give less lipDepth, or more height.',
  },
  'lip-too-narrow': {
    ...IMPOSSIBLE,
    title: 'A top edge is all bend.',
    reason: ALL_BEND,
    measured: SETBACK,
    mend: 'Give more lipDepth, or a smaller radius.',
  },
  'lips-meet': {
    ...IMPOSSIBLE,
    title: 'Two top edges meet across the tray.',
    reason: 'Nothing is left open between them.',
    measured: 'both edges against the size of the tray',
    mend: 'Give less lipDepth, or a larger tray.',
  },
  'lap-does-not-fit': {
    ...IMPOSSIBLE,
    title: 'The lap of a corner is all bend, or longer than the side it lies on.',
    reason: 'There is nothing to rivet or weld to.',
    measured: 'lap against bends and depth',
    mend: 'Give the lap that the message names.',
  },
  'no-height-for-tab': {
    ...IMPOSSIBLE,
    title: 'A side is too low for the tab of a lapped corner.',
    reason: 'The tab is all bend.',
    measured: 'what the bends leave of the height',
    mend: 'Give more height, or corner butt.',
  },
  'cable-through-lip': {
    ...IMPOSSIBLE,
    title: 'A cable cut-out runs through a folded top edge.',
    reason: 'The edge would be cut in two where it is to stiffen.',
    measured: 'cableSide against the top edges',
    mend: 'Leave that edge without a lip, or cut a slot by holes.',
  },
  'cable-depth': {
    ...IMPOSSIBLE,
    title: 'A cable cut-out is too shallow for its width, or reaches the base.',
    reason: 'It is no cut-out with a round end, or opens the tray.',
    measured: 'cableDepth against cableWidth and height',
    mend: 'Give the cableDepth that the message names.',
  },
  'cable-off-side': {
    ...IMPOSSIBLE,
    title: 'A cable cut-out leaves no metal at the end of its side.',
    reason: 'The end of the side bends away or tears.',
    measured: 'cableAt and cableWidth against the ends of the side',
    mend: 'Move it in, or make it narrower.',
  },
} satisfies Record<string, Rule>;
