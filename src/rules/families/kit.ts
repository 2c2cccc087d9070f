import { IMPOSSIBLE, type Rule, UNUSED } from '../rule.ts';

/*
 * Rules that findings of `src/kit` name, and those that findings of several families name.
 */

/** Rules that tanks and baffles share. */
export const TANK_KIT_RULES = {
  'shallow-end-deeper': {
    ...IMPOSSIBLE,
    title: 'The shallow end of a tank is deeper than its deep end.',
    reason: 'The floor would rise the other way, and outlet and baffles would be at the wrong end.',
    measured: 'heightShallow against height',
    mend: 'Exchange the two, or leave out heightShallow.',
  },
  'baffle-too-small': {
    ...IMPOSSIBLE,
    title: 'A baffle is too small for its corners, its clearance or its bends.',
    reason: 'Nothing is left between the corners to fold or to weld.',
    measured: 'what its sides keep between the corners',
    mend: 'Give a larger tank, smaller corners, or a smaller radius.',
  },
  'flange-too-narrow': {
    ...IMPOSSIBLE,
    title: 'A flange is all bend.',
    reason: 'Nothing of it lies flat, and nothing can be screwed or welded to it.',
    measured: 'the flange against the setback of its bend',
    mend: 'Give a wider flange, or a smaller radius.',
  },
} satisfies Record<string, Rule>;

/** Rules that ducts and transitions share. */
export const DUCT_KIT_RULES = {
  'steep-taper': {
    severities: ['note'],
    title: 'A side of the duct leans more than 24 degrees out of the axis.',
    reason: 'The air leaves the wall, and the duct needs more pressure.',
    measured: 'the lean of the steepest side',
    mend: 'Give more length, where there is room.',
    source: 'length 2.25 times the step: a rule of the trade, common practice',
  },
  'end-too-small': {
    ...IMPOSSIBLE,
    title: 'An end has no opening left, or no room for its bends.',
    reason: 'There is nothing to form the sheet round.',
    measured: 'the size of the end less its walls',
    mend: 'Give a larger end.',
  },
} satisfies Record<string, Rule>;

/** Rules about teardrop hems. */
export const HEM_KIT_RULES = {
  'hem-too-shallow': {
    ...IMPOSSIBLE,
    title: 'The edge of a teardrop hem does not come down on the sheet.',
    reason: 'The loop stays open, and its edge stands out.',
    measured: 'the depth of the hem against the radius of its loop',
    mend: 'Give more depth, or a smaller hemRadius.',
  },
  'no-loop': {
    ...IMPOSSIBLE,
    title: 'A teardrop hem with this radius has no loop.',
    reason: 'It is a flat hem.',
    measured: 'hemRadius against the thickness',
    mend: 'Give hemShape flat, or a larger hemRadius.',
  },
} satisfies Record<string, Rule>;

/** Rules about outlines, free corners, fold lines and bolts. */
export const PLATE_KIT_RULES = {
  'corner-radius-too-big': {
    ...IMPOSSIBLE,
    title: 'A rounded or chamfered corner does not fit its panel.',
    reason: 'The rounds of two corners run into each other, or into a bend.',
    measured: 'the corner against the edges beside it',
    mend: 'Give a smaller corner.',
  },
  'corner-radius-unused': {
    ...UNUSED,
    title: 'Corners are to be rounded or chamfered, and there are none that stand free.',
    mend: 'Leave it out.',
  },
  'outline-wrong': {
    ...IMPOSSIBLE,
    title: 'An outline cannot be drawn through its points.',
    reason: 'It crosses itself, turns back, or is no area.',
    measured: 'the points and roundings of the outline',
    mend: 'Check the points, in the order in which they lie round the part.',
  },
  'unknown-point': {
    ...IMPOSSIBLE,
    title: 'A point is named that was not given.',
    reason: 'Nobody knows where it lies.',
    measured: 'the name against those of points',
    mend: 'Name one of the points, or give it.',
  },
  'fold-line-off-plate': {
    ...IMPOSSIBLE,
    title: 'A fold line does not cross the plate.',
    reason: 'There is nothing to fold.',
    measured: 'where the line cuts the outline',
    mend: 'Give two points of it on the plate.',
  },
  'fold-line-too-short': {
    ...IMPOSSIBLE,
    title: 'A fold line ends within the plate.',
    reason: 'Sheet folds from edge to edge only.',
    measured: 'the ends of the line against the edge',
    mend: 'Bring the edge to it with a notch, or give a line that runs on.',
  },
  'fold-line-on-edge': {
    ...IMPOSSIBLE,
    title: 'A fold line runs along the edge of the plate.',
    reason: 'Nothing is left to fold beside it.',
    measured: 'the line against the outline',
    mend: 'Move it in.',
  },
  'bolts-too-close': {
    ...IMPOSSIBLE,
    title: 'Bolt holes meet each other, or the bend beside them.',
    reason: 'Nothing is left between them, or the heads do not sit flat.',
    measured: 'the distance of the holes against their size and a web',
    mend: 'Give fewer or smaller bolts, or more room for them.',
  },
} satisfies Record<string, Rule>;
