import type { Rule } from './rule.ts';

/** What the plan of a part says of its folds. */
export const FOLD_PLAN_RULES = {
  'no-fold-order': {
    severities: ['stop', 'warn'],
    title: 'The part cannot be folded on the machine in any order.',
    reason: 'Whatever the order, some fold is blocked by metal that stands in the machine.',
    measured: 'every order of folds, stroke by stroke, against the section of the machine',
    mend: 'Change what the message names, fold it elsewhere, or make it of two pieces.',
    source: 'section and limits of the machine in the shop file; plain geometry',
  },
  'fold-order-open': {
    severities: ['note'],
    title: 'Whether the part can be folded on the machine was not decided.',
    reason: 'It may turn out half way that a fold cannot be made.',
    measured: 'as many orders of folds as there was time for',
    mend: 'Let blankwright plan look longer, make the part in pieces, or try it with a card copy.',
    source: 'section and limits of the machine in the shop file; plain geometry',
  },
  'fold-in-two': {
    severities: ['note'],
    title: 'A fold is made in two strokes, in part first and finished later.',
    reason: 'Made at one stroke, it stands in the way of another.',
    measured: 'every order of folds made at one stroke, none of which works',
    mend: 'Follow the steps on the job sheet.',
    source: 'section and limits of the machine in the shop file; plain geometry',
  },
  'fold-by-hand': {
    severities: ['note'],
    title: 'The machine alone does not fold it; hands do the rest, or set it up otherwise.',
    reason:
      'Something stands in the way of the machine as it stands, as it does in every shop: tabs are tapped over a block, low lips hang beside packers, standing flanges hang off the end.',
    measured: 'every order of folds by the machine alone, none of which works',
    mend: 'Follow the steps on the job sheet, or plan without (--by-machine-only).',
    source: 'limits of what is done by hand: common practice',
  },
  'folds-by-eye': {
    severities: ['note'],
    title: 'Slight folds of a transition are made by eye, not by a stop.',
    reason:
      'Their lines run together in the corners of the openings, where no flat strip lies under a clamp, and each turns little.',
    measured:
      'folds on the middle of the sheet of 30 degrees or less, light enough to be made over a bar in the vice',
    mend: 'Follow the steps on the job sheet, from the outside in, with a template of either opening.',
    source: 'common practice for transitions; limits of what is folded over a bar: common practice',
  },
  'leaf-bar-off': {
    severities: ['note'],
    title: 'The bar is taken off the leaf for it.',
    reason:
      'What stands close beside the fold lies in the way of the bar; without it the leaf is thinner, and weaker.',
    measured:
      'every order of folds with the bar on, by the machine alone and with hands, none of which works',
    mend: 'Take the bar off before the first step, and put it back for thick sheet.',
    source: 'section of the leaf with and without its bar in the shop file; plain geometry',
  },
} satisfies Record<string, Rule>;
