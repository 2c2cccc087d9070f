import { fields, FROM_FOLD } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

const ACROSS = { from: 'left', at: 'the left edge', to: 'right' } as const;

export const inputs = {
  ...fields.group('Wedge', {
    floorAngle: fields.angle({
      about:
        'Slope of the floor from level, more than 0 where it rises forward and less where it falls.',
      min: -60,
      max: 60,
      example: -18,
    }),
    treadAngle: fields.angle({
      about:
        'Slope the heel is to stand on, from level, more than 0 where it rises forward; 0 is level.',
      min: -60,
      max: 60,
      default: 0,
    }),
    width: fields.length({
      about: 'Width across the slope, over the cheeks.',
      min: 10,
      max: 2000,
      example: 160,
    }),
    treadDepth: fields.length({
      about:
        'Depth of the tread along its slope, between the outside corners of the bends at its two ends, or to its edge where there is none.',
      min: 10,
      max: 1500,
      example: 110,
    }),
    riserAngle: fields.angle({
      about:
        'Angle between floor and riser inside the wedge; less than 90 leans the top edge in over the wedge, more leans it out.',
      min: 45,
      max: 135,
      default: 90,
    }),
    lift: fields.length({
      about:
        'Height of the upper face of the tread over the floor at its low end, which then has a riser too; 0 lets the tread run down to the floor.',
      min: 0,
      max: 500,
      default: 0,
      anchor: { kind: 'panel', panel: 'tread' },
    }),
  }),
  ...fields.group('Stop', {
    lipHeight: fields.length({
      about:
        'Height of the stop for the heel over the upper face of the tread, along the stop, whatever measure says; 0 for none.',
      min: 0,
      max: 200,
      default: 25,
    }),
    lipPlace: fields.choice({
      about:
        'The end at which the stop stands. low is the end the heel slides to: where the tread falls to; on a level tread, where the floor falls to; the rear where both are level.',
      choices: ['low', 'front', 'rear'],
      default: 'low',
      when: { lipHeight: 'more than 0' },
    }),
    lipFold: fields.choice({
      about:
        'Single folds the stop up from an edge that has neither riser nor flange; double takes the sheet up, right over and down into them; auto is single where that can be, and where no machine of the shop folds that, the other.',
      choices: ['auto', 'single', 'double'],
      default: 'auto',
      isMaking: true,
      when: { lipHeight: 'more than 0' },
    }),
    hem: fields.length({
      about:
        'Depth of a hem along the top of a single stop, folded away from the heel; 0 for none.',
      min: 0,
      max: 100,
      default: 0,
      when: { lipHeight: 'more than 0', lipFold: ['auto', 'single'] },
    }),
    hemRadius: fields.optionalLength({
      about: 'Inside radius of the hem, and of the top of a stop folded double; 0 is closed hard.',
      min: 0,
      max: 50,
      example: 1,
      otherwise:
        'the least the material takes when folded right over, or the radius of the other bends if that is larger',
      when: [
        { lipHeight: 'more than 0', hem: 'more than 0' },
        { lipHeight: 'more than 0', lipFold: ['auto', 'double'] },
      ],
      anchor: { kind: 'panel', panel: 'stop' },
    }),
    hemShape: fields.choice({
      about:
        'How the hem ends where it has a radius: flat, parallel to the stop with a gap of twice the radius; teardrop, with a loop of that radius and its edge pressed down on the stop.',
      choices: ['flat', 'teardrop'],
      default: 'flat',
      when: { lipHeight: 'more than 0', hem: 'more than 0' },
    }),
  }),
  ...fields.group('Floor flanges', {
    flangeFront: fields.length({
      about:
        'Depth of the floor flange at the front, turned outwards, from its free edge to the outside corner of its fold; 0 for none.',
      min: 0,
      max: 300,
      default: 25,
    }),
    flangeRear: fields.length({
      about: 'Depth of the floor flange at the rear, measured like the front one; 0 for none.',
      min: 0,
      max: 300,
      default: 25,
    }),
  }),
  ...fields.group('Cheeks', {
    cheeks: fields.choice({
      about:
        'Sides on which cheeks are folded down from the tread to the floor; their corners are left open by cornerGap to be welded.',
      choices: ['none', 'left', 'right', 'both'],
      default: 'both',
    }),
    cheekFlange: fields.length({
      about: 'Depth of floor flanges along the cheeks, turned outwards; 0 for none.',
      min: 0,
      max: 300,
      default: 0,
      when: { cheeks: ['left', 'right', 'both'] },
    }),
  }),
  ...fields.group('Grip', {
    grip: fields.choice({
      about:
        'A pattern cut into the tread against slipping: holes in staggered rows, or slots across it.',
      choices: ['none', 'holes', 'slots'],
      default: 'none',
    }),
    gripSize: fields.length({
      about: 'Diameter of the grip holes, or width of the slots.',
      min: 1,
      max: 100,
      default: 8,
      when: { grip: ['holes', 'slots'] },
      anchor: { kind: 'panel', panel: 'tread' },
    }),
    gripLength: fields.length({
      about: 'Overall length of the grip slots.',
      min: 2,
      max: 500,
      default: 30,
      when: { grip: ['slots'] },
      anchor: { kind: 'as', input: 'gripSize' },
    }),
    gripPitch: fields.length({
      about: 'Distance between the middles of neighbouring grip holes, or of rows of slots.',
      min: 2,
      max: 200,
      default: 20,
      when: { grip: ['holes', 'slots'] },
      anchor: { kind: 'as', input: 'gripSize' },
    }),
    gripMargin: fields.length({
      about:
        'Metal between the grip pattern and the edges and bends of the tread; never less than two thicknesses.',
      min: 0,
      max: 200,
      default: 8,
      when: { grip: ['holes', 'slots'] },
      anchor: { kind: 'as', input: 'gripSize' },
    }),
  }),
  ...fields.group('Holes', {
    holesTread: fields.holes({
      about: 'Holes in the tread, for which the grip pattern leaves room',
      axes: [{ from: 'rear', at: 'its rear end', to: 'front' }, ACROSS],
    }),
    holesRiser: fields.holes({
      about: 'Holes in the higher riser',
      axes: [{ from: 'foot', at: 'its foot', to: 'tread' }, ACROSS],
    }),
    holesFront: fields.holes({
      about: 'Fixing holes in the front flange',
      axes: [FROM_FOLD, ACROSS],
      when: { flangeFront: 'more than 0' },
    }),
    holesRear: fields.holes({
      about: 'Fixing holes in the rear flange',
      axes: [FROM_FOLD, ACROSS],
      when: { flangeRear: 'more than 0' },
    }),
  }),
};

/** Inputs of a heel rest, in mm and degrees. */
export type HeelRest = TemplateValues<typeof inputs>;
