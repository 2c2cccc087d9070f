import { IMPOSSIBLE, type Rule } from '../rule.ts';

/** Of parts that are described panel by panel. */
export const PANEL_RULES = {
  'flange-off-edge': {
    ...IMPOSSIBLE,
    title: 'A flange grows where its edge was cut away.',
    reason: 'There is no metal to fold.',
    measured: 'the stretch of the flange against what notches and corners leave of its edge',
    mend: 'Give from and to within what is left, a flange for each stretch.',
  },
  'panel-cut-apart': {
    ...IMPOSSIBLE,
    title: 'A cut-out parts a panel in two, or leaves nothing of it.',
    reason: 'Half of the part falls off.',
    measured: 'the cut-out against the outline of its panel',
    mend: 'Make it smaller, or describe what is cut off as a piece of its own.',
  },
  'hole-place-open': {
    ...IMPOSSIBLE,
    title: 'Two figures on the finished part do not say where a hole is.',
    reason: 'Both are measured in the same direction, or along the hole.',
    measured: 'the two planes that the figures are from against the panel of the hole',
    mend: 'Measure one of the two from something that runs across the other.',
  },
} satisfies Record<string, Rule>;
