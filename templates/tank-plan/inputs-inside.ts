import { fields, optionalDipTable, optionalLines, XY_AXES } from '../../src/template.ts';

/** Axes of the holes in a side: along it on the level, and by height. */
const SIDE_AXES = [
  { from: 'corner', at: 'the first corner of the side, on the level' },
  { from: 'zero', at: 'the level from which floor and top are measured' },
] as const;

/** What is inside a tank and in its holes: baffles and fittings. */
export const insideInputs = {
  ...fields.group('Baffles', {
    longestBay: fields.length({
      about:
        'The longest bay wanted between two baffles, or a baffle and a side; common practice is 300 to 450 mm. As long as the tank for no baffles.',
      min: 50,
      max: 5000,
      default: 450,
      anchor: { kind: 'beside', what: 'the bays between the baffles' },
    }),
    bafflesAcross: fields.choice({
      about: 'The way of the plan in which bays are counted; baffles stand across it.',
      choices: ['x', 'y'],
      default: 'x',
    }),
    baffleLines: optionalLines({
      about:
        'Where baffles stand in plan, at any angle, each by two places: the line is that of the face on its left, as one goes from the first place to the second, and the flanges are on its right.',
      example: '150,0 260,400; A C',
      otherwise: 'they stand across bafflesAcross, as many as longestBay asks for',
    }),
    flange: fields.length({
      about: 'Width of the flanges of the baffles, outside; with measure inside, inside.',
      min: 5,
      max: 100,
      default: 20,
      anchor: { kind: 'panel', panel: 'floor flange' },
    }),
    baffleGap: fields.length({
      about: 'Clearance of the baffles to floor, sides and top.',
      min: 0.2,
      max: 10,
      default: 1,
      anchor: { kind: 'panel', panel: 'baffle' },
    }),
    limber: fields.optionalLength({
      about: 'How far the corners of the baffles at the floor are cut along both edges.',
      min: 5,
      max: 300,
      example: 30,
      otherwise: 'the larger of 25 mm and what the bends ask for',
      anchor: { kind: 'panel', panel: 'baffle' },
    }),
    vent: fields.optionalLength({
      about: 'How far the corners of the baffles at the top are cut along both edges.',
      min: 5,
      max: 300,
      example: 25,
      otherwise: 'the larger of 25 mm and what the bends ask for',
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
        'Share of the section, in percent, that flow holes and cut corners of a baffle leave open together; 0 for no flow holes.',
      min: 0,
      max: 80,
      default: 12,
    }),
  }),
  ...fields.group('Fittings', {
    filler: fields.holes({
      about: 'Hole of the filler neck in the top',
      axes: XY_AXES,
      example: '80,200,60',
    }),
    breather: fields.holes({
      about: 'Hole of the breather in the top',
      axes: XY_AXES,
      example: '60,60,10',
    }),
    return: fields.holes({
      about: 'Hole of the return pipe in the top',
      axes: XY_AXES,
      example: '150,60,14',
    }),
    pickup: fields.holes({
      about: 'Hole of the pick-up pipe in the top',
      axes: XY_AXES,
      example: '100,100,14',
    }),
    pickupEnd: fields.length({
      about: 'How far over the floor the pick-up pipe ends, plumb below its hole.',
      min: 0,
      max: 1000,
      default: 10,
      when: { pickup: 'given' },
      anchor: { kind: 'beside', what: 'the pick-up pipe' },
    }),
    drain: fields.holes({
      about: 'Hole of the drain in the floor',
      axes: XY_AXES,
      example: '50,50,20',
    }),
    holesTop: fields.holes({ about: 'Other holes in the top', axes: XY_AXES }),
    link: fields.holes({
      about: 'Hole of the pipe that links a pair',
      axes: SIDE_AXES,
      example: '120,60,35',
    }),
    linkOn: fields.count({
      about: 'The side that the link pipe is in.',
      min: 1,
      max: 99,
      default: 1,
      when: { link: 'given' },
    }),
    pair: fields.flag({
      about:
        'Whether there are two tanks, left and right, that share their level through the link pipe.',
      default: false,
    }),
    other: optionalDipTable({
      about:
        'What the other tank of a pair holds at heights over the same level, from its own report, where it is not the mirror image of this one.',
      example: '-4: 0; 60: 9.5; 180: 31',
      otherwise: 'the other tank of a pair is that of the other hand',
    }),
  }),
};
