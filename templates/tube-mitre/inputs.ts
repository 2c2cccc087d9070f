import { fields, tubeGrade } from '../../src/template.ts';

/** Inputs of a mitred bend. */
export const inputs = {
  ...fields.group('Tube', {
    material: tubeGrade({ default: 'e235' }),
    diameter: fields.length({ about: 'Outside diameter.', min: 3, max: 1000, example: 76 }),
    wall: fields.length({ about: 'Thickness of its wall.', min: 0.3, max: 25, example: 2 }),
  }),
  ...fields.group('Bend', {
    turn: fields.angle({
      about: 'How far the whole bend turns.',
      min: 1,
      max: 180,
      default: 90,
    }),
    pieces: fields.count({
      about: 'Pieces of tube, with the two at its ends: 2 is a single mitre.',
      min: 2,
      max: 30,
      default: 4,
    }),
    radius: fields.optionalLength({
      about: 'Centre-line radius of the bend, to which the axes of all pieces are tangents.',
      min: 3,
      max: 20_000,
      example: 115,
      otherwise: 'one and a half diameters of the tube',
    }),
    first: fields.length({
      about: 'Straight tube at the first end, before the bend begins.',
      min: 0,
      max: 6000,
      default: 0,
    }),
    last: fields.length({
      about: 'Straight tube at the other end, behind the bend.',
      min: 0,
      max: 6000,
      default: 0,
    }),
  }),
  ...fields.group('Pattern', {
    paper: fields.length({
      about: 'Thickness of the paper that is wrapped round the tube.',
      min: 0,
      max: 2,
      default: 0.1,
    }),
  }),
} as const;
