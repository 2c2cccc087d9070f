import { fields, optionalDipTable, optionalLines, XY_AXES } from '../../src/template.ts';

/** Axes of the holes in a side: along it on the level, and by height. */
const SIDE_AXES = [
  { from: 'corner', at: 'the first corner of the side, on the level' },
  { from: 'zero', at: 'the level from which floor and top are measured' },
] as const;

const SENDER = { sender: 'given' } as const;

/** What is inside a tank and in its holes: baffles, fittings, sender. */
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
  ...fields.group('Sender', {
    sender: fields.holes({
      about: 'Hole of the sender in the top, and those of its screws',
      axes: XY_AXES,
      example: '300,200,54',
    }),
    senderAt: fields.choice({
      about:
        'Whether the sender stands where sender says, or moves to the nearest place that leaves the reserve, clear of walls, baffles and other fittings.',
      choices: ['given', 'reserve'],
      default: 'given',
      when: { sender: 'given', reserve: 'more than 0' },
    }),
    senderLength: fields.optionalLength({
      about: 'Length of the sender below the underside of the top.',
      min: 20,
      max: 3000,
      example: 250,
      otherwise: 'the longest in steps of senderStep that stays senderFoot over the floor',
      when: SENDER,
      anchor: { kind: 'beside', what: 'the sender' },
    }),
    senderStep: fields.length({
      about: 'Step of the lengths in which the sender is sold.',
      min: 1,
      max: 200,
      default: 10,
      when: SENDER,
      anchor: { kind: 'beside', what: 'the sender' },
    }),
    senderFoot: fields.length({
      about: 'Air between the end of the sender and the floor below it.',
      min: 0,
      max: 200,
      default: 10,
      when: SENDER,
      anchor: { kind: 'beside', what: 'the sender' },
    }),
    senderEmpty: fields.length({
      about: 'How far over its end the level stands when it reads empty.',
      min: 0,
      max: 200,
      default: 20,
      when: SENDER,
      anchor: { kind: 'beside', what: 'the sender' },
    }),
    senderFull: fields.length({
      about: 'How far below the underside of the top the level stands when it reads full.',
      min: 0,
      max: 500,
      default: 30,
      when: SENDER,
      anchor: { kind: 'beside', what: 'the sender' },
    }),
    reserve: fields.count({
      about: 'Litres that are to be left when the sender reads empty; 0 for no wish.',
      min: 0,
      max: 1000,
      default: 0,
      // A pair is told where it stands with its reserve, whether or not a sender shows it.
      when: [SENDER, { link: 'given' }],
    }),
  }),
};
