import { IMPOSSIBLE, type Rule } from '../rule.ts';

/** Rules about patches for the holes of tubes. */
export const TUBE_HOLE_RULES = {
  'tube-hole-punches-meet': {
    ...IMPOSSIBLE,
    title: 'The small holes of a patch run into each other.',
    reason: 'Nothing is left between them to guide the punch.',
    measured: 'the distance of neighbours on the line of the hole, and from its middle',
    mend: 'Give fewer punches or a smaller punchHole.',
  },
  'tube-hole-way': {
    severities: ['note'],
    title: 'How the patch of a hole is laid on its panel.',
    reason: 'A hole that leans the wrong way lets no tube through.',
    measured: 'lean and panelThickness',
    mend: 'Nothing: try it on the tube before it is cut.',
    source: 'plain geometry',
  },
} satisfies Record<string, Rule>;
