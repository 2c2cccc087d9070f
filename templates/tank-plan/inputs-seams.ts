import { fields } from '../../src/template.ts';

const WAYS =
  'edge, a flat sheet over their edges; flanged, between them, its own edges folded away from the tank along them and level with theirs; lapped, its edges folded over the outside of them';

/** How floor and top meet the sides. */
export const SEAMS = ['edge', 'flanged', 'lapped'] as const;

/** How floor and top are joined to the sides, and what holds them square for that. */
export const seamInputs = {
  floorSeam: fields.choice({
    about: `How the floor meets the sides: ${WAYS}.`,
    choices: SEAMS,
    default: 'edge',
    when: { blanks: ['auto', 'wrap', 'halves', 'plates'] },
  }),
  topSeam: fields.choice({
    about: `How the top meets the sides: ${WAYS}.`,
    choices: SEAMS,
    default: 'edge',
  }),
  seamFlange: fields.length({
    about:
      'Width of the flanges of a flanged or lapped floor or top, outside; with measure inside, inside.',
    min: 5,
    max: 100,
    default: 20,
    when: [{ floorSeam: ['flanged', 'lapped'] }, { topSeam: ['flanged', 'lapped'] }],
  }),
  tabs: fields.count({
    about:
      'Tabs on every edge of the sides at a floor or top that lies over these edges, each in a slot that holds both square for tacking; 0 for none.',
    min: 0,
    max: 20,
    default: 0,
    when: [{ floorSeam: ['edge'] }, { topSeam: ['edge'] }],
  }),
  tabWidth: fields.length({
    about: 'Width of the tabs.',
    min: 3,
    max: 200,
    default: 20,
    when: { tabs: 'more than 0' },
    anchor: { kind: 'beside', what: 'the tabs' },
  }),
};
