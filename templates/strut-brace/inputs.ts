import {
  boltHoleSize,
  fields,
  namedHoles,
  optionalLine,
  optionalOutline,
  optionalPlace,
  optionalSide,
  points,
  XY_AXES,
} from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

export const inputs = {
  ...fields.group('Points', {
    points: points({
      about:
        'Middles of all holes, and any mark measured from, by x,y or by tape distances between them; as they lie on a card bent over the crease and laid flat.',
      example: 'A: 0,0; B: 110,0; C: 55,90; P: 60,-70',
    }),
    boltHole: boltHoleSize({
      about: 'Size of the bolt holes at every point that pickups does not name.',
      default: 'M8',
      example: 'M10',
    }),
    pickups: namedHoles({
      about:
        'Pick-up holes, and any others of another size, by name; none for a point that is only measured from.',
      example: 'P: M12; D: none',
      otherwise: 'all points are bolt holes',
    }),
  }),
  ...fields.group('Outline', {
    edge: fields.length({
      about: 'Metal between the edge of every hole and the edge of the plate.',
      min: 1,
      max: 500,
      default: 15,
      anchor: { kind: 'panel', panel: 'panel' },
    }),
    outline: optionalOutline({
      about:
        'An outline of your own, in the coordinates of the points; tape distances put the first point at 0,0 and the second to its right.',
      example: '-20,-90; 130,-90; 130,110 r20; -20,110',
      otherwise:
        'the tightest smooth shape round all holes with edge mm of metal, of straight lines and arcs',
    }),
  }),
  ...fields.group('Holes', {
    holes: fields.holes({
      about:
        'More holes, such as for lightness; they do not widen the outline, and the length of a slot runs upward',
      axes: XY_AXES,
    }),
  }),
  ...fields.group('Crease', {
    crease: optionalLine({
      about:
        'The line of a crease across the plate, by two places on it; it runs from edge to edge.',
      example: '0,-30 100,-30',
      otherwise: 'no crease',
    }),
    creaseAngle: fields.angle({
      about: 'How far the plate is turned at the crease.',
      min: 0.5,
      max: 90,
      default: 10,
      when: { crease: 'given' },
    }),
    creaseDirection: fields.choice({
      about: 'Whether the crease turns the plate up, towards whoever looks at it, or down.',
      choices: ['up', 'down'],
      default: 'up',
      when: { crease: 'given' },
    }),
    creaseStyle: fields.choice({
      about:
        'How the crease is made: folded as it is; or slit with a row of slots on the line, bent by hand and welded up, for plate too thick for the folder.',
      choices: ['folded', 'slit'],
      isMaking: true,
      default: 'folded',
      when: { crease: 'given' },
    }),
    slotLength: fields.length({
      about: 'The longest slot of a slit crease.',
      min: 5,
      max: 500,
      default: 50,
      when: { crease: 'given', creaseStyle: ['slit'] },
      anchor: { kind: 'bends' },
    }),
    slotLand: fields.optionalLength({
      about: 'Metal left between the slots of a slit crease and at its ends.',
      min: 0.5,
      max: 200,
      example: 12,
      otherwise: 'twice the thickness',
      when: { crease: 'given', creaseStyle: ['slit'] },
      anchor: { kind: 'bends' },
    }),
  }),
  ...fields.group('Return edge', {
    return: optionalSide({
      about: 'The straight side along which a return edge is folded square.',
      example: 'A-B',
      otherwise: 'no return edge',
    }),
    returnHeight: fields.length({
      about: 'Height of the return edge, from its free edge to the outside of the plate.',
      min: 2,
      max: 300,
      default: 20,
      when: { return: 'given' },
    }),
    returnDirection: fields.choice({
      about: 'Whether the return edge is turned up, towards whoever looks at the plate, or down.',
      choices: ['up', 'down'],
      default: 'up',
      mayTurn: true,
      when: { return: 'given' },
    }),
    returnInset: fields.optionalLength({
      about:
        'How far the return edge stops before the ends of its side, where its reliefs are cut; 0 runs it from end to end without any.',
      min: 0,
      max: 2000,
      example: 20,
      otherwise: 'so far that the reliefs keep two thicknesses of metal to every hole',
      when: { return: 'given' },
      anchor: { kind: 'panel', panel: 'return' },
    }),
  }),
  ...fields.group('Notch', {
    notch: optionalPlace({
      about:
        'The middle of the thing that a notch is to clear, which is the middle of its round bottom; the notch opens to the nearest edge.',
      example: '0,-40',
      otherwise: 'no notch',
    }),
    notchWidth: fields.length({
      about: 'Width of the notch.',
      min: 2,
      max: 500,
      default: 30,
      when: { notch: 'given' },
      anchor: { kind: 'panel', panel: 'panel' },
    }),
  }),
  ...fields.group('Tube', {
    tube: fields.length({
      about: 'Diameter of a tube across to the other plate, 0 for none.',
      min: 0,
      max: 200,
      default: 0,
      example: 38,
      anchor: { kind: 'beside', what: 'the tube' },
    }),
    tubeSpan: fields.optionalLength({
      about: 'Distance from the middle of the left saddle to the middle of the right one.',
      min: 50,
      max: 4000,
      example: 900,
      otherwise: 'it must be given where there is a tube',
      when: { tube: 'more than 0' },
      anchor: { kind: 'beside', what: 'the tube' },
    }),
    tubeRise: fields.length({
      about: 'How much higher the middle of the tube runs than its ends, 0 for a straight tube.',
      min: 0,
      max: 1000,
      default: 0,
      example: 60,
      when: { tube: 'more than 0' },
      anchor: { kind: 'beside', what: 'the tube' },
    }),
    tubeMiddle: fields.optionalLength({
      about:
        'Length of the level middle of the tube, to where the lines of the legs meet its line.',
      min: 1,
      max: 4000,
      example: 400,
      otherwise: 'half of tubeSpan',
      when: { tube: 'more than 0', tubeRise: 'more than 0' },
      anchor: { kind: 'beside', what: 'the tube' },
    }),
    tubeBend: fields.optionalLength({
      about: 'Radius of the centre line in the bends of the tube.',
      min: 1,
      max: 2000,
      example: 114,
      otherwise: 'three diameters of the tube',
      when: { tube: 'more than 0', tubeRise: 'more than 0' },
      anchor: { kind: 'beside', what: 'the tube' },
    }),
    tubeBeyond: fields.length({
      about: 'How far the tube runs on past the middle of each saddle.',
      min: 0,
      max: 500,
      default: 25,
      when: { tube: 'more than 0' },
      anchor: { kind: 'beside', what: 'the tube' },
    }),
  }),
  ...fields.group('Saddle', {
    saddle: optionalPlace({
      about:
        'The middle of the saddle that holds the tube: its bolt holes are cut, with edge mm of metal round them.',
      example: '55,40',
      otherwise: 'no saddle holes',
    }),
    saddleHole: boltHoleSize({
      about: 'Size of the bolt holes of the saddle.',
      default: 'M8',
      example: 'M6',
      when: { saddle: 'given' },
    }),
    saddleAcross: fields.optionalLength({
      about: 'Distance of the saddle bolts across the tube, middle to middle.',
      min: 5,
      max: 500,
      example: 62,
      otherwise: 'the tube and 2.5 hole diameters, so that washers clear it',
      when: { saddle: 'given' },
      anchor: { kind: 'as', input: 'saddle' },
    }),
    saddleAlong: fields.length({
      about: 'Distance of the two pairs of saddle bolts along the tube, 0 for one pair.',
      min: 0,
      max: 500,
      default: 30,
      when: { saddle: 'given' },
      anchor: { kind: 'as', input: 'saddle' },
    }),
    saddleTurn: fields.angle({
      about: 'The way the tube runs over the plate, counter-clockwise from the right.',
      min: -180,
      max: 180,
      default: 0,
      when: { saddle: 'given' },
      anchor: { kind: 'as', input: 'saddle' },
    }),
  }),
};

/** Inputs of a strut brace, in mm and degrees. */
export type StrutBrace = TemplateValues<typeof inputs>;
