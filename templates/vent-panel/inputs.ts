import { fields } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

const WAYS = ['none', 'up', 'down'] as const;
const FOLDED = ['up', 'down'] as const;
const foldOn = (side: string) =>
  fields.choice({
    about: `Flange along the ${side} edge, folded square towards whoever looks at the drawing (up), or away (down).`,
    choices: WAYS,
    default: 'none',
  });
const HAS_LOUVRES = { louvres: 'more than 0' } as const;
const HAS_BEADS = { beads: 'more than 0' } as const;
const ON_FACE = { kind: 'panel', panel: 'face' } as const;
const LANCE = { kind: 'cut-out', panel: 'face', from: 'louvres 1' } as const;

const louvreInputs = fields.group('Louvres', {
  louvres: fields.count({
    about: 'Number of louvres in a row, one behind the other; 0 for none.',
    min: 0,
    max: 60,
    default: 0,
    example: 8,
  }),
  louvreRows: fields.count({
    about: 'Number of rows, beside each other end to end.',
    min: 1,
    max: 10,
    default: 1,
    when: HAS_LOUVRES,
  }),
  louvreOpens: fields.choice({
    about:
      'The side to which the louvres open, where they are lanced. Those that open left or right stand upright in a level row; those that open up or down lie level, one over the other.',
    choices: ['right', 'left', 'up', 'down'],
    default: 'down',
    when: HAS_LOUVRES,
  }),
  louvreSide: fields.choice({
    about:
      'The face on which they stand proud: that of whoever looks at the drawing, or the other.',
    choices: FOLDED,
    default: 'up',
    when: HAS_LOUVRES,
  }),
  louvreLength: fields.length({
    about: 'Length of a lance, between the middles of the stop holes at its ends.',
    min: 10,
    max: 1000,
    default: 75,
    when: HAS_LOUVRES,
    anchor: LANCE,
  }),
  louvreDepth: fields.length({
    about: 'From the lance of a louvre to the line from which it rises, in the flat.',
    min: 3,
    max: 100,
    default: 16,
    when: HAS_LOUVRES,
    anchor: ON_FACE,
  }),
  louvreHeight: fields.length({
    about: 'How far a louvre stands proud of the face of the sheet, over its outside.',
    min: 1,
    max: 60,
    default: 8,
    when: HAS_LOUVRES,
    anchor: ON_FACE,
  }),
  louvreRamp: fields.optionalLength({
    about: 'Length of the slope at each end of a louvre, measured along the lance.',
    min: 1,
    max: 200,
    example: 12,
    otherwise:
      'the shortest that stretches the lanced edge no more than the elongation of the sheet, in whole millimetres',
    when: HAS_LOUVRES,
    anchor: ON_FACE,
  }),
  louvrePitch: fields.length({
    about: 'From lance to lance in a row.',
    min: 4,
    max: 500,
    default: 26,
    when: HAS_LOUVRES,
  }),
  louvreRowPitch: fields.length({
    about: 'From row to row, middle to middle.',
    min: 10,
    max: 1500,
    default: 95,
    when: HAS_LOUVRES,
  }),
  louvresAcross: fields.optionalLength({
    about:
      'From the left edge of the panel to the middle of the first lance, the one farthest left and lowest.',
    min: 0,
    max: 3000,
    example: 60,
    otherwise: 'the louvres stand in the middle of the panel',
    when: HAS_LOUVRES,
  }),
  louvresUp: fields.optionalLength({
    about: 'From the bottom edge of the panel to the middle of the first lance.',
    min: 0,
    max: 3000,
    example: 60,
    otherwise: 'the louvres stand in the middle of the panel',
    when: HAS_LOUVRES,
  }),
  slit: fields.optionalLength({
    about: 'Width of the slot that is cut as the lance.',
    min: 0.1,
    max: 20,
    example: 1.5,
    otherwise: 'leastSlot',
    when: HAS_LOUVRES,
    anchor: LANCE,
  }),
  stopHole: fields.optionalLength({
    about:
      'Diameter of the round end of a lance, which keeps it from tearing on; it is never less than the slit.',
    min: 0.1,
    max: 30,
    example: 4,
    otherwise: 'twice the larger of thickness and slit',
    when: HAS_LOUVRES,
    anchor: LANCE,
  }),
  louvreOrder: fields.choice({
    about: 'Whether the louvres are formed before the edges are folded, or after.',
    choices: ['before folding', 'after folding'],
    default: 'before folding',
    when: HAS_LOUVRES,
  }),
});

const beadInputs = fields.group('Beads', {
  beads: fields.count({
    about: 'Number of stiffening beads; 0 for none.',
    min: 0,
    max: 20,
    default: 0,
    example: 2,
  }),
  beadRun: fields.choice({
    about: 'Whether the beads run level across the panel, or upright.',
    choices: ['level', 'upright'],
    default: 'level',
    when: HAS_BEADS,
  }),
  beadSide: fields.choice({
    about: 'The face on which they stand proud.',
    choices: FOLDED,
    default: 'up',
    when: HAS_BEADS,
  }),
  beadWidth: fields.length({
    about: 'Width of a bead over its edges: that of the rolls or of the hammer form.',
    min: 2,
    max: 100,
    default: 12.7,
    when: HAS_BEADS,
    anchor: ON_FACE,
  }),
  beadDepth: fields.length({
    about: 'How far a bead stands proud of the sheet.',
    min: 0.5,
    max: 40,
    default: 3,
    when: HAS_BEADS,
    anchor: ON_FACE,
  }),
  beadPitch: fields.length({
    about: 'From the middle of a bead to that of the next.',
    min: 4,
    max: 1500,
    default: 100,
    when: HAS_BEADS,
    anchor: ON_FACE,
  }),
  beadsAt: fields.optionalLength({
    about:
      'From the bottom edge of the panel (from the left one where beads run upright) to the middle of the first bead.',
    min: 0,
    max: 3000,
    example: 50,
    otherwise: 'the beads stand about the middle of the panel',
    when: HAS_BEADS,
    anchor: ON_FACE,
  }),
  beadClear: fields.length({
    about: 'How far the ends of the beads stay away from the edges of the panel.',
    min: 0,
    max: 1000,
    default: 30,
    when: HAS_BEADS,
    anchor: ON_FACE,
  }),
  trim: fields.optionalLength({
    about:
      'Margin that is cut on at either edge that the beads draw in, to be trimmed off after beading and before folding.',
    min: 0,
    max: 60,
    example: 4,
    otherwise: 'half of the most that all beads can draw in, in whole millimetres',
    when: HAS_BEADS,
  }),
});

export const inputs = {
  ...fields.group('Sizes', {
    width: fields.length({
      about: 'Width of the panel, over its flanges; with measure inside between them.',
      min: 20,
      max: 3000,
      example: 400,
    }),
    height: fields.length({
      about: 'Height of the panel, over its flanges; with measure inside between them.',
      min: 20,
      max: 3000,
      example: 300,
    }),
  }),
  ...fields.group('Folded edges', {
    foldBottom: foldOn('bottom'),
    foldRight: foldOn('right'),
    foldTop: foldOn('top'),
    foldLeft: foldOn('left'),
    flange: fields.length({
      about:
        'Width of the flanges, from their free edge to the outside of the panel; with measure inside to its inside.',
      min: 2,
      max: 500,
      default: 15,
      when: [
        { foldBottom: FOLDED },
        { foldRight: FOLDED },
        { foldTop: FOLDED },
        { foldLeft: FOLDED },
      ],
    }),
  }),
  ...louvreInputs,
  ...beadInputs,
  ...fields.group('Holes', {
    holes: fields.holes({
      about: 'Holes in the panel',
      axes: [
        { from: 'bottom', at: 'the bottom edge of the panel', to: 'top' },
        { from: 'left', at: 'the left edge of the panel', to: 'right' },
      ],
    }),
  }),
};

/** Inputs of a panel with louvres and beads, in mm. */
export type Vent = TemplateValues<typeof inputs>;
