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
    title: 'A cut-out parts a panel in two, leaves nothing of it, or only touches its edge.',
    reason: 'Half of the part falls off, or hangs on a point.',
    measured: 'the cut-out against the outline of its panel',
    mend: 'Make it smaller, let it reach past the edge, or describe what is cut off as a piece of its own.',
  },
  'hole-place-open': {
    ...IMPOSSIBLE,
    title: 'Two figures on the finished part do not say where a hole is.',
    reason: 'Both are measured in the same direction, or along the hole.',
    measured: 'the two planes that the figures are from against the panel of the hole',
    mend: 'Measure one of the two from something that runs across the other.',
  },
  'tab-without-room': {
    ...IMPOSSIBLE,
    title: 'Tabs have no room on their edge, or their slots none in the other panel.',
    reason:
      'A tooth at a bend or an end breaks off or bends, and a slot that runs out holds nothing.',
    measured:
      'teeth and slots with their reliefs, and a thickness round them, against the flat metal of both panels',
    mend: 'Give a smaller width or count, or move the panel or its tabs.',
    source: 'common practice: a thickness of metal beside a cut',
  },
  'tab-off-panel': {
    ...IMPOSSIBLE,
    title: 'An edge with tabs does not reach the panel that they go into, or reaches into it.',
    reason: 'Nothing lies against the other sheet to be welded, or the two do not go together.',
    measured: 'from the edge to the near face of the panel, on the finished part',
    mend: 'Let the edge end at the face of the panel.',
  },
  'tab-clearance': {
    severities: ['note'],
    title: 'What clearance tabs have in their slots, where none was asked for.',
    reason: 'Tabs that are too tight have to be filed one by one, and slack ones locate nothing.',
    measured: 'nothing: it is told what was taken',
    mend: 'Give clearance, once a trial piece has been cut.',
    source:
      'the thickness tolerance of the sheet by its standard, and common practice on the width of a kerf',
  },
  'fit-to-nothing': {
    ...IMPOSSIBLE,
    title: 'A piece takes its size from one that cannot be made.',
    reason: 'There is nothing to measure.',
    measured: 'whether the other piece can be laid flat and folded up',
    mend: 'Mend the other piece, as its own findings say.',
  },
  'fit-rides-on-bend': {
    severities: ['note'],
    title: 'A piece that is fitted to another lies on the radius of a bend.',
    reason: 'A sharp edge next to a bend meets the radius before it meets the flat.',
    measured: 'the gap beside the edge against the inside radius of the bend',
    mend: 'Give a larger gap or a smaller radius, or leave it where it stands a little proud.',
    source: 'plain geometry',
  },
} satisfies Record<string, Rule>;
