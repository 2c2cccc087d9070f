import { fields, optionalConsumption } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

const FROM_DEEP = { from: 'deep', at: 'the outside of the deep end' } as const;
const FROM_SIDE = { from: 'left', at: 'the left outside' } as const;
const FROM_FLOOR = { from: 'floor', at: 'the outside of the floor there' } as const;
/** Axes of top and floor. */
const LEVEL = [FROM_DEEP, FROM_SIDE] as const;
/** Axes of both ends. */
const UPRIGHT = [FROM_FLOOR, FROM_SIDE] as const;
/** Axes of the plates at the sides: up from the floor at the deep end. */
const PLATE = [
  { from: 'floor', at: 'the outside of the floor at the deep end' },
  FROM_DEEP,
] as const;
/** Axes of a fitting, whichever panel it is in. */
const PLACES = [LEVEL, UPRIGHT, PLATE] as const;
/**
 * Panels that may have holes: the top sheet, the floor and both ends of the wrap, and the plates
 * that close its sides.
 */
export const TANK_PANELS = ['top', 'floor', 'deep', 'shallow', 'left', 'right'] as const;
const CUT = 'the larger of 25 mm and what the bends ask for';

export const inputs = {
  ...fields.group('Sizes', {
    length: fields.length({
      about: 'Length from the deep to the shallow end, over the walls.',
      min: 60,
      max: 4000,
      example: 604,
    }),
    width: fields.length({
      about:
        'Width over the edges of the wrap; with measure inside between the plates at the sides.',
      min: 60,
      max: 4000,
      example: 404,
    }),
    height: fields.length({
      about:
        'Height at the deep end, from the top of the top sheet to the outside corner of the floor; with measure inside from the underside of the top to the inside corner.',
      min: 40,
      max: 3000,
      example: 304,
    }),
    heightShallow: fields.optionalLength({
      about:
        'Height at the shallow end, measured like height, where the floor rises towards it; the roof stays level.',
      min: 20,
      max: 3000,
      example: 180,
      otherwise: 'that of the deep end, a box',
      anchor: { kind: 'panel', panel: 'shallow' },
    }),
  }),
  ...fields.group('Sides and top', {
    wrap: fields.choice({
      about:
        'The wrap of floor and both ends in one blank, or with the deep end, or both ends, welded to the floor as sheets of their own; auto takes one blank, and where no machine of the shop folds that, what one does.',
      choices: ['auto', 'whole', 'deep-off', 'ends-off'],
      isMaking: true,
      default: 'auto',
    }),
    ends: fields.choice({
      about:
        'The plates at the sides: flush, flat and level with the edges of the wrap; or flanged, with weld flanges that point outwards and end at those edges.',
      choices: ['flush', 'flanged'],
      isMaking: true,
      default: 'flush',
    }),
    endFlange: fields.length({
      about:
        'Width of those weld flanges, from their free edge to the outside of the plate; with measure inside, to its inside.',
      min: 3,
      max: 100,
      default: 15,
      when: { ends: ['flanged'] },
    }),
    topSetback: fields.optionalLength({
      about:
        'How far the edges of the top sheet stand back from the outside of the walls, less than 0 over them.',
      min: -50,
      max: 25,
      example: 0,
      otherwise: 'half the thickness, which leaves an open corner to weld into',
      anchor: { kind: 'panel', panel: 'top' },
    }),
  }),
  ...fields.group('Baffles', {
    longestBay: fields.length({
      about:
        'The longest bay wanted between two baffles, or a baffle and an end; common practice is 300 to 450 mm. As long as the tank for no baffles.',
      min: 50,
      max: 5000,
      default: 400,
      anchor: { kind: 'beside', what: 'the bays between the baffles' },
    }),
    clearance: fields.length({
      about: 'Clearance of the baffles to floor, sides and roof.',
      min: 0,
      max: 10,
      default: 1,
    }),
    flange: fields.length({
      about: 'Width of the flanges of the baffles, measured like endFlange.',
      min: 5,
      max: 100,
      default: 20,
    }),
    limber: fields.optionalLength({
      about:
        'Limber notches of the baffles: how far their corners at the floor are cut along both edges; 0 for none.',
      min: 0,
      max: 300,
      example: 30,
      otherwise: CUT,
      anchor: { kind: 'panel', panel: 'baffle' },
    }),
    vent: fields.optionalLength({
      about:
        'Vent notches of the baffles: how far their corners at the roof are cut along both edges; 0 for none.',
      min: 0,
      max: 300,
      example: 25,
      otherwise: CUT,
      anchor: { kind: 'panel', panel: 'baffle' },
    }),
    holeDiameter: fields.length({
      about: 'Diameter of the flow holes in the baffles.',
      min: 3,
      max: 1000,
      default: 40,
    }),
    openPercent: fields.count({
      about:
        'Share of the section of the tank, in percent, that flow holes and cut corners of a baffle leave open together. 0 for no flow holes.',
      min: 0,
      max: 80,
      default: 12,
      when: { holeCount: [0] },
    }),
    holeCount: fields.count({
      about:
        'Number of flow holes in each baffle, instead of openPercent; 0 leaves it to openPercent.',
      min: 0,
      max: 500,
      default: 0,
    }),
    holeGap: fields.optionalLength({
      about: 'Least metal round a flow hole.',
      min: 1,
      max: 500,
      example: 25,
      otherwise: 'the larger of 2 thicknesses and half the diameter of the holes',
      anchor: { kind: 'as', input: 'holeDiameter' },
    }),
  }),
  ...fields.group('Fittings', {
    filler: fields.holes({ about: 'Hole of the filler neck', axes: PLACES, example: '80,200,60' }),
    fillerOn: fields.choice({
      about: 'The panel the filler is in.',
      choices: TANK_PANELS,
      default: 'top',
      when: { filler: 'given' },
    }),
    outlet: fields.holes({
      about: 'Hole of the outlet; drawing stops at its lower edge',
      axes: PLACES,
      example: '30,200,22',
    }),
    outletOn: fields.choice({
      about: 'The panel the outlet is in.',
      choices: TANK_PANELS,
      default: 'deep',
      when: { outlet: 'given' },
    }),
    pickup: fields.optionalLength({
      about:
        'Height at which the pipe of an outlet in the top ends, over the inside corner of the floor at the deep end.',
      min: 0,
      max: 3000,
      example: 15,
      otherwise: 'nothing is said of what stays below it',
      when: { outlet: 'given', outletOn: ['top'] },
      anchor: { kind: 'beside', what: 'the pipe of the outlet' },
    }),
    return: fields.holes({ about: 'Hole of the return pipe', axes: PLACES, example: '150,60,14' }),
    returnOn: fields.choice({
      about: 'The panel the return pipe is in.',
      choices: TANK_PANELS,
      default: 'top',
      when: { return: 'given' },
    }),
    sender: fields.holes({
      about: 'Hole of the sender, and those of its screws',
      axes: PLACES,
      example: '300,200,54',
    }),
    senderOn: fields.choice({
      about: 'The panel the sender is in.',
      choices: TANK_PANELS,
      default: 'top',
      when: { sender: 'given' },
    }),
    breather: fields.holes({ about: 'Hole of the breather', axes: PLACES, example: '60,60,10' }),
    breatherOn: fields.choice({
      about: 'The panel the breather is in.',
      choices: TANK_PANELS,
      default: 'top',
      when: { breather: 'given' },
    }),
    link: fields.holes({
      about: 'Hole of the pipe that links a pair',
      axes: PLACES,
      example: '40,120,35',
    }),
    linkOn: fields.choice({
      about: 'The panel the link pipe is in.',
      choices: TANK_PANELS,
      default: 'right',
      when: { link: 'given' },
    }),
    pair: fields.flag({
      about:
        'Whether there are two equal tanks that share their level through the link pipe; in a mirror image left and right change places.',
      default: false,
    }),
  }),
  ...fields.group('Other holes', {
    holesTop: fields.holes({ about: 'Other holes in the top', axes: LEVEL }),
    holesFloor: fields.holes({ about: 'Other holes in the floor', axes: LEVEL }),
    holesDeep: fields.holes({ about: 'Other holes in the deep end', axes: UPRIGHT }),
    holesShallow: fields.holes({ about: 'Other holes in the shallow end', axes: UPRIGHT }),
    holesLeft: fields.holes({ about: 'Other holes in the left plate', axes: PLATE }),
    holesRight: fields.holes({ about: 'Other holes in the right plate', axes: PLATE }),
  }),
  ...fields.group('Fluid', {
    fluid: fields.choice({
      about: 'What the tank is for.',
      choices: ['diesel', 'petrol', 'water'],
      default: 'diesel',
    }),
    fillLimit: fields.count({
      about: 'Percent of the gross volume that may be filled in.',
      min: 50,
      max: 100,
      default: 95,
    }),
    dipStep: fields.length({
      about: 'Step of the dip tables.',
      min: 1,
      max: 500,
      default: 20,
      anchor: { kind: 'beside', what: 'the dip stick' },
    }),
    consumption: optionalConsumption({
      about: 'Consumption, for the range: litres for 100 km, or with l/h for an hour.',
      otherwise: 'no range is given',
    }),
  }),
};

/** Inputs of a tank, mm. */
export type Tank = TemplateValues<typeof inputs>;
