import { IMPOSSIBLE, type Rule } from '../rule.ts';

/** Rules about walls that are rolled or bumped. */
export const ROLLED_RULES = {
  'rolled-too-tight': {
    ...IMPOSSIBLE,
    title: 'The sheet cannot be rolled as tight.',
    reason: 'Nothing is left inside, and its outside would be stretched by a third.',
    measured: 'the inside radius against the thickness',
    mend: 'Give a larger diameter, or thinner sheet.',
  },
  'below-rolls': {
    severities: ['warn'],
    title: 'The rolls of the shop do not roll as tight.',
    reason: 'The sheet does not go round the top roll, and comes out too wide.',
    measured: 'the inside diameter against rollsTake',
    mend: 'Give a larger diameter, bump it, or have it rolled elsewhere.',
    source: 'what the user states of the rolls',
  },
  'flange-over-round': {
    ...IMPOSSIBLE,
    title: 'The bends of the flanges take all of the round.',
    reason: 'No wall is left between them to be rolled.',
    measured: 'the setback of the bends against the inside radius',
    mend: 'Give a larger diameter, a smaller radius, or no flange.',
  },
  'lap-without-seam': {
    ...IMPOSSIBLE,
    title: 'A lap is asked for where two edges do not lie over each other.',
    reason: 'A part of a cylinder ends in two edges, and flanges meet face to face.',
    measured: 'seam against arc and flange',
    mend: 'Give seam butt.',
  },
  'lap-too-long': {
    ...IMPOSSIBLE,
    title: 'A lap goes more than a quarter round.',
    reason: 'It would be a second wall, which does not lie down when it is rolled with the first.',
    measured: 'lap against the length round one piece',
    mend: 'Give a shorter lap.',
  },
  'wall-over-sheet': {
    ...IMPOSSIBLE,
    title: 'A blank is longer than the sheet that is allowed for it.',
    reason: 'It cannot be cut in one piece.',
    measured: 'the length of the blank against sheetLength',
    mend: 'Make it of more pieces, or take a longer sheet.',
  },
  'hole-over-round': {
    ...IMPOSSIBLE,
    title: 'A hole is as wide as what it is in.',
    reason: 'A tube as wide as the shell cuts it through.',
    measured: 'the size of the hole against the inside diameter',
    mend: 'Give a smaller hole.',
  },
  'hole-over-seam': {
    ...IMPOSSIBLE,
    title: 'A hole reaches over a seam or an edge of a rolled wall.',
    reason: 'Half of it would lie on one end of the sheet and half on the other.',
    measured: 'the edges of the hole round the wall against the ends of its piece',
    mend: 'Move the hole, or turn the whole so that the seam lies elsewhere.',
  },
  'roll-wall': {
    severities: ['note'],
    title: 'How a wall is rolled.',
    reason: 'It is no fold of a machine, and nothing on the blank shows how round it is to become.',
    measured: 'the radius and the face that comes to lie inside',
    mend: 'Nothing; roll it so.',
    source: 'plain geometry; common practice',
  },
} satisfies Record<string, Rule>;
