import { fields, opening, optionalPoints, optionalSpacePoints } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';
import { sheetSize } from '../duct-box/sheet-size.ts';

const FARTHEST_MM = 5000;

/** A lap narrower than this, mm, is none. */
export const LEAST_LAP_MM = 3;

/** Where the far opening is, or how it is turned, in figures. */
const place = (about: string, what: string) =>
  fields.length({
    about,
    min: -FARTHEST_MM,
    max: FARTHEST_MM,
    default: 0,
    anchor: { kind: 'beside', what },
  });
const turn = (about: string, most: number, what: string) =>
  fields.angle({ about, min: -most, max: most, default: 0, anchor: { kind: 'beside', what } });

const MIDDLES = 'the line between the middles of both openings';

const ends = {
  ...fields.group('Openings', {
    near: opening({
      about:
        'The near opening, seen from the side on which the duct goes away from it: a stated shape about its middle, or an outline.',
      example: '240 x 160 r20',
    }),
    nearPoints: optionalPoints({
      about: 'Points measured round the near opening, to which near may go by name.',
      example: 'A-B: 240; A-C: 281; B-C: 150; C-D: 220; A-D: 146; B-D: 270',
      otherwise: 'near gives coordinates or a shape',
    }),
    far: opening({
      about:
        'The far opening, seen from the same side: from beyond it, looking back to the near one.',
      example: 'round 4in',
    }),
    farPoints: optionalPoints({
      about: 'Points measured round the far opening, to which far may go by name.',
      example: 'A-B: 120; A-C: 150; B-C: 90',
      otherwise: 'far gives coordinates or a shape',
    }),
  }),
  ...fields.group('Where the far opening is', {
    length: fields.optionalLength({
      about:
        'How far the middle of the far opening, or the 0,0 of its outline, lies out of the plane of the near one.',
      min: 0,
      max: FARTHEST_MM,
      example: 200,
      otherwise: 'farAt gives the place of the far opening',
      anchor: { kind: 'beside', what: MIDDLES },
    }),
    offsetRight: place(
      'How far it lies to the right of the middle of the near opening, or of the 0,0 of its outline; less than 0 to the left.',
      MIDDLES,
    ),
    offsetUp: place('How far it lies above that; less than 0 below.', MIDDLES),
    faceRight: turn(
      'How far the far opening is turned to face to the right, 90 square to the near one; less than 0 to the left.',
      170,
      'the far opening',
    ),
    faceUp: turn(
      'How far it is then tipped to face up; less than 0 down. Its own level line stays level.',
      170,
      'the far opening',
    ),
    farTurn: turn(
      'How far its shape is then turned in its own plane, counter-clockwise seen from beyond it.',
      360,
      'the far opening',
    ),
    farAt: optionalSpacePoints({
      about:
        'Three measured points of the plane of the far opening, in place of all that: its middle or the 0,0 of its outline, a point straight to the right of that, and one on the upper side. Right, up and out from the near opening, whose own middle or 0,0 is 0,0,0 unless nearAt says otherwise.',
      otherwise: 'length, offsets and turns give its place',
    }),
    nearAt: optionalSpacePoints({
      about:
        'The same three points of the near opening, where farAt was measured from somewhere else.',
      otherwise: 'farAt is measured from the near opening',
      when: { farAt: 'given' },
    }),
  }),
};

/** Where either opening has a lip. */
const LIPPED = [{ nearLip: 'more than 0' }, { farLip: 'more than 0' }] as const;

const making = {
  ...fields.group('Walls', {
    walls: fields.choice({
      about:
        'How rounds are folded: smooth, with so many parts to the circle as divisions says; or few-folds, with no more folds than keep within chordOff.',
      choices: ['smooth', 'few-folds'],
      default: 'smooth',
    }),
    divisions: fields.count({
      about: 'Parts into which a whole circle is divided; a rounded corner gets its share.',
      min: 4,
      max: 96,
      default: 12,
      when: { walls: ['smooth'] },
    }),
    chordOff: fields.length({
      about: 'How far the flat facets may stand off the rounds of the openings.',
      min: 0.05,
      max: 100,
      default: 4,
      when: { walls: ['few-folds'] },
      anchor: { kind: 'beside', what: 'the rounds of the openings' },
    }),
    roundEdge: fields.choice({
      about:
        'Length of the edge of a round opening: circumference, its chords add up to that of the pipe, so that it goes round it when dressed; chords, its points lie on the circle and it comes out short.',
      choices: ['circumference', 'chords'],
      default: 'circumference',
    }),
  }),
  ...fields.group('Blanks and seams', {
    blanks: fields.choice({
      about:
        'Blanks it is welded together from, or apart, the wall on seamSide a sheet of its own; auto takes as few as fit the sheet, lie flat without running over themselves and can be folded in the shop.',
      choices: ['auto', 'one', 'two', 'three', 'four', 'apart'],
      default: 'auto',
      isMaking: true,
    }),
    seamSide: fields.choice({
      about:
        'The side with the first seam, seen as the near opening is; with blanks apart the wall that is a sheet of its own. cornerGap is the gap of a weld.',
      choices: ['top', 'right', 'bottom', 'left'],
      default: 'bottom',
    }),
    seamPlace: fields.choice({
      about: 'Place of a seam: up the middle of a flat wall, or along a fold.',
      choices: ['flat', 'fold'],
      default: 'flat',
      when: { blanks: ['auto', 'one', 'two', 'three', 'four'] },
    }),
    seam: fields.choice({
      about:
        'How the walls meet at a seam: butt, edge to edge; or lapped, the last wall of a blank lying on the first one of the next.',
      choices: ['butt', 'lapped'],
      default: 'butt',
      when: { blanks: ['auto', 'one', 'two', 'three', 'four'], seamPlace: ['flat'] },
    }),
    lap: fields.length({
      about: 'How far walls lie on each other in a lapped seam.',
      min: LEAST_LAP_MM,
      max: 200,
      default: 15,
      when: { seam: ['lapped'] },
      anchor: { kind: 'beside', what: 'the lapped seams' },
    }),
    lapSide: fields.choice({
      about: 'Whether the wall with the lap lies outside or inside the other one.',
      choices: ['outside', 'inside'],
      default: 'outside',
      when: { seam: ['lapped'] },
    }),
    ...sheetSize,
  }),
};

const fixing = {
  ...fields.group('Lips', {
    nearLip: fields.length({
      about:
        'Width of a flat lip welded on the ends of the walls at the near opening, beyond their outside or within their inside; 0 for none. It adds its thickness to the length.',
      min: 0,
      max: 500,
      default: 0,
      anchor: { kind: 'panel', panel: 'near lip' },
    }),
    farLip: fields.length({
      about: 'Width of such a lip at the far opening.',
      min: 0,
      max: 500,
      default: 0,
      anchor: { kind: 'panel', panel: 'far lip' },
    }),
    lipTo: fields.choice({
      about: 'Whether lips go out from the walls or into the opening.',
      choices: ['out', 'in'],
      default: 'out',
      when: LIPPED,
    }),
    lipSides: fields.choice({
      about:
        'A ring all round, or strips along the straight sides that face these ways, seen as the opening is.',
      choices: ['all', 'top', 'right', 'bottom', 'left', 'top-bottom', 'left-right'],
      default: 'all',
      when: LIPPED,
    }),
    lipHole: fields.optionalLength({
      about: 'Diameter of the fixing holes along the middle of the lips.',
      min: 1,
      max: 50,
      example: 5,
      otherwise: 'no holes',
      when: LIPPED,
    }),
    lipPitch: fields.length({
      about: 'The furthest that fixing holes stand from each other.',
      min: 5,
      max: 1000,
      default: 80,
      when: [
        { nearLip: 'more than 0', lipHole: 'given' },
        { farLip: 'more than 0', lipHole: 'given' },
      ],
      anchor: { kind: 'as', input: 'lipHole' },
    }),
  }),
  ...fields.group('Stubs', {
    nearStub: fields.length({
      about:
        'Length of a round stub on the near opening to slip a pipe or hose on, rolled from a strip of its own; 0 for none. The opening has to be round.',
      min: 0,
      max: 1000,
      default: 0,
      anchor: { kind: 'panel', panel: 'near stub' },
    }),
    farStub: fields.length({
      about: 'Length of such a stub on the far opening.',
      min: 0,
      max: 1000,
      default: 0,
      anchor: { kind: 'panel', panel: 'far stub' },
    }),
  }),
};

const air = {
  ...fields.group('Air', {
    flow: fields.optionalNumber({
      about: 'Air that goes through it, in cubic metres an hour, for its speed.',
      what: 'cubic metres an hour',
      min: 0.1,
      max: 1e6,
      otherwise: 'no speeds are told',
      example: 300,
    }),
    flowFrom: fields.choice({
      about: 'The end at which the air comes in.',
      choices: ['near', 'far'],
      default: 'near',
    }),
  }),
};

export const inputs = { ...ends, ...making, ...fixing, ...air };

/** The inputs of a duct between two openings; lengths in mm. */
export type DuctBetween = TemplateValues<typeof inputs>;
