import {
  fields,
  optionalSpacePoints,
  optionalTestBends,
  optionalTubeLegs,
  tubeGrade,
} from '../../src/template.ts';

const OF_BENDER = 'that of the bender in the shop file';

/** Inputs of a bent tube. Its centre line is given by points, by legs, or as a hoop. */
export const inputs = {
  ...fields.group('Centre line', {
    points: optionalSpacePoints({
      about:
        'Corners of the centre line where the lines of its legs meet, and its two ends, in their order from the leading end.',
      otherwise: 'legs or span say where it runs',
    }),
    legs: optionalTubeLegs({
      about:
        'Legs of the centre line from corner to corner, with angles and rotations: the first along x, the first bend towards y.',
      otherwise: 'points or span say where it runs',
    }),
    span: fields.optionalLength({
      about: 'Of a hoop: between the middles of its two feet.',
      min: 20,
      max: 10_000,
      example: 1000,
      otherwise: 'points or legs say where it runs',
    }),
    height: fields.optionalLength({
      about: 'Of a hoop: from its feet to the top of the tube, outside.',
      min: 20,
      max: 10_000,
      example: 900,
      otherwise: 'as long as the span',
      when: { span: 'given' },
    }),
    lean: fields.angle({
      about: 'Of a hoop: how far each leg leans inwards from upright.',
      min: -45,
      max: 60,
      default: 0,
      when: { span: 'given' },
    }),
  }),
  ...fields.group('Ends', {
    leadFace: faceAngle('leading end'),
    tailFace: faceAngle('other end'),
    leadTrim: trim('leading end'),
    tailTrim: trim('other end'),
  }),
  ...fields.group('Tube', {
    material: tubeGrade({ default: 'e235' }),
    diameter: fields.length({ about: 'Outside diameter.', min: 3, max: 400, example: 25 }),
    wall: fields.length({ about: 'Thickness of its wall.', min: 0.3, max: 25, example: 2 }),
  }),
  ...fields.group('Bender', {
    radius: fields.optionalLength({
      about: 'Centre-line radius of the former.',
      min: 3,
      max: 5000,
      example: 75,
      otherwise: 'that of the first former in the shop file for this tube, else three diameters',
    }),
    bender: fields.optionalText({
      about: 'The bender, by its name in the shop file.',
      max: 80,
      example: 'bench bender',
      otherwise: 'the first that has a former for this tube',
    }),
    springbackFixed: fields.angle({
      about: 'Springback: degrees at every bend, to be given with springbackShare.',
      min: 0,
      max: 30,
      default: 0,
    }),
    springbackShare: optionalShare(),
    testBends: optionalTestBends({
      about: 'Springback by test bends: what the bender was pulled to, and what stayed.',
      otherwise: 'springbackFixed and springbackShare say it, or the shop file, else it is guessed',
    }),
    effectiveRadius: fields.optionalLength({
      about: 'Centre-line radius that was measured on a bend.',
      min: 3,
      max: 6000,
      example: 78,
      otherwise: 'worked out of the springback where that was measured, else radius',
    }),
    reference: fields.optionalLength({
      about:
        "How far the bender's mark lies ahead of where the bend begins, towards the clamp; less than 0 behind it.",
      min: -1000,
      max: 1000,
      example: 12,
      otherwise: `${OF_BENDER}, else 0`,
    }),
    clamp: fields.optionalLength({
      about: 'Straight tube that the clamp has to hold.',
      min: 0,
      max: 2000,
      example: 75,
      otherwise: `${OF_BENDER}, else 0`,
    }),
    follower: fields.optionalLength({
      about: 'Straight tube that the follower needs behind a bend.',
      min: 0,
      max: 2000,
      example: 120,
      otherwise: `${OF_BENDER}, else 0`,
    }),
  }),
  ...fields.group('How closely it is bent', {
    angleWithin: fields.angle({
      about: 'How far the angle of a bend may be off, to tell what that does at the far end.',
      min: 0,
      max: 10,
      default: 0.5,
    }),
    turnWithin: fields.angle({
      about: 'The same of the turn between two bends.',
      min: 0,
      max: 20,
      default: 1,
    }),
    markWithin: fields.length({
      about: 'The same of the place of a mark.',
      min: 0,
      max: 50,
      default: 1,
    }),
  }),
} as const;

function faceAngle(end: string) {
  return fields.angle({
    about: `Angle between the tube and the normal of the face that its ${end} is to be trimmed to; 0 where it meets it squarely.`,
    min: 0,
    max: 75,
    default: 0,
  });
}

function trim(end: string) {
  return fields.length({
    about: `Tube left on at the ${end}, to be trimmed when it is fitted.`,
    min: 0,
    max: 2000,
    default: 0,
  });
}

function optionalShare() {
  return fields.optionalNumber({
    about: 'Springback: degrees more for each degree that stays; 0.05 are 4.5 in 90.',
    what: 'a share',
    min: 0,
    max: 0.5,
    example: 0.03,
    otherwise: 'the shop file says it, else it is guessed',
  });
}
