import type { Rule } from './rule.ts';

/** Rules about bend rules, radii and the shop's own measured bends. */
export const BENDING_RULES = {
  'no-bend-figures': {
    severities: ['stop'],
    title: 'The bend rule has no figures for this bend.',
    reason: 'A blank of guessed length does not fold to its dimensions.',
    measured: 'angle, radius and thickness of the bend against what the rule is for',
    mend: 'Take a rule that has figures for it, or measure bends of your own.',
    source: 'the rule itself: blankwright bend --help says what each is for',
  },
  'rule-stretched': {
    severities: ['warn'],
    title: 'A bend is tighter than the bend rule has figures for.',
    reason: 'The formula is carried on beyond its range, and the folded part may come out off.',
    measured: 'inside radius over thickness against the least of the rule',
    mend: 'Take a larger radius, or measure strips of your own.',
    source: 'DIN 6935, which begins at that ratio',
  },
  'hem-allowance': {
    severities: ['note'],
    title: 'A hem has an allowance of its own.',
    reason:
      'Bend rules are not for hems; how far a hem is pressed decides how much length it takes.',
    measured: 'which bends are hems, and whether hems of this sheet were measured',
    mend: 'Measure strips with hems for figures of your own.',
    source: '0.43 thicknesses off a closed hem: common practice',
  },
  'measured-nearby': {
    severities: ['note'],
    title: 'The measured bends are of a similar sheet or tool, not of the same.',
    reason: 'Their figures hold nearly, and the part may come out a little off.',
    measured: 'sheet and tool of the bends in the shop file against those of the part',
    mend: 'Measure strips of this very sheet on this tool.',
    source: 'the bends in the shop file',
  },
  'measured-tool': {
    severities: ['note'],
    title: 'The figures of a fold hold for the tool that it was measured with.',
    reason: 'Another tool gives another radius, and the lengths come out otherwise.',
    measured: 'the bends in the shop file',
    mend: 'Fold with that tool.',
    source: 'the bends in the shop file',
  },
  'radius-not-measured': {
    severities: ['warn'],
    title: 'The inside radius asked for is not that of the measured bends.',
    reason: 'The tool gives its own radius whatever is asked, and the lengths come out off.',
    measured: 'the radius asked for against that of the measured bends, in mm of length',
    mend: 'Leave the radius out, which takes the measured one.',
    source: 'the bends in the shop file; what a calliper shows: common practice',
  },
  'radius-not-given': {
    severities: ['warn'],
    title: 'The machine does not give the inside radius that was asked for.',
    reason: 'The blank is cut for another bend than will be made, and the part comes out off.',
    measured: 'the radius asked for against what the tool gives, in mm of length',
    mend: 'Ask for the radius that the tool gives, or change the tool.',
    source: 'tools of the machine in the shop file; what a calliper shows: common practice',
  },
  'formed-by-hand': {
    severities: ['note'],
    title: 'A bend is no stroke of a machine: it is rolled, bumped, or formed round a pipe or bar.',
    reason: 'A leaf folds about its nose and a punch over its V; neither makes a wide round.',
    measured: 'the radius asked for against what the tool gives',
    mend: 'Have a former of that radius, or ask for a radius that the tool gives.',
    source: 'five thicknesses as the widest bend of a tool, and hits of 5 degrees: common practice',
  },
  'radius-beyond-nose': {
    severities: ['warn'],
    title: 'A bend is asked for at a radius far beyond what the machine gives at one stroke.',
    reason:
      'A leaf folds about its nose and a punch over its V: swung there, it comes out sharp and its legs too long.',
    measured: 'the radius asked for against what the tool gives',
    mend: 'Say how it is formed (wideBends: bumped, rolled, former), or ask for a radius that the tool gives.',
    source: 'five thicknesses as the widest bend of a tool: common practice',
  },
  'bump-doubtful': {
    severities: ['warn'],
    title: 'A bend in hits runs into something, or its hits are too close or too steep.',
    reason:
      'Metal that curls up meets clamp or ram, lines too near run into one another, and steep hits show as flats.',
    measured: 'the hits one after the other on the machine; pitch and angle of a hit',
    mend: 'Give another number of hits, or have it rolled.',
    source:
      'pitch of 1.5 thicknesses, hits of 10 degrees: common practice; half the V: trade texts on step bending',
  },
} satisfies Record<string, Rule>;
