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
  'datum-not-there': {
    severities: ['warn'],
    title: 'The datum that was asked for is not on the blank.',
    reason: 'Sizes are measured from an edge that a tape hooks on, or from hole to hole.',
    measured: 'the names given for datum against the straight edges and holes of the blank',
    mend: 'Name two edges at right angles, an edge and a hole, or two holes of those it has.',
    source: 'plain geometry',
  },
  'card-of-no-piece': {
    severities: ['warn'],
    title: 'A card was asked for of a piece that is not there.',
    reason: 'Of a misspelt name no card comes out, and nobody notices until it is missed.',
    measured: 'the names of cardOf against those of the pieces and parts',
    mend: 'Name pieces as the result names them.',
    source: 'plain reading',
  },
  'card-of-many-pages': {
    severities: ['note'],
    title: 'A card takes many pages.',
    reason: 'Each page is laid to its neighbours by hand, and no page may be lost.',
    measured: 'the size of the blank against that of the paper',
    mend: 'Take larger paper, a roll, or a plotter, which puts it on one page.',
    source: 'plain geometry',
  },
} satisfies Record<string, Rule>;
