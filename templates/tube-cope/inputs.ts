import { fields, tubeGrade } from '../../src/template.ts';

const ON_TUBE = { on: ['header', 'bend'] as const };
const ON_HEADER = { on: ['header'] as const };
const ON_BEND = { on: ['bend'] as const };
const COPED_AT_BOTH = { other: ['header', 'plate'] as const };

/** Flatter copes are more than five times as long as the branch is thick. */
const ANGLE = { min: 10, max: 90, default: 90 } as const;

/** Inputs of a coped tube. */
export const inputs = {
  ...fields.group('Branch', {
    material: tubeGrade({ default: 'e235' }),
    diameter: fields.length({ about: 'Outside diameter.', min: 3, max: 400, example: 38.1 }),
    wall: fields.length({ about: 'Thickness of its wall.', min: 0.3, max: 25, example: 2 }),
  }),
  ...fields.group('What it sits on', {
    on: fields.choice({
      about: 'A straight header, a plate, or the bend of a tube.',
      choices: ['header', 'plate', 'bend'],
      default: 'header',
    }),
    header: fields.optionalLength({
      about: 'Outside diameter of the header, or of the tube that is bent.',
      min: 3,
      max: 2000,
      example: 48.3,
      otherwise: 'as thick as the branch',
      when: ON_TUBE,
    }),
    angle: fields.angle({
      about:
        'Between the axes, or between the axis and the plate; on a bend, to the tangent where the branch leaves.',
      ...ANGLE,
    }),
    offset: fields.length({
      about:
        "How far the branch's axis passes beside the header's, towards its generator at 90 degrees; less than 0 to the other side.",
      min: -1000,
      max: 1000,
      default: 0,
      when: ON_HEADER,
    }),
    bendRadius: fields.optionalLength({
      about: 'Centre-line radius of the bend that it sits on.',
      min: 3,
      max: 5000,
      example: 135,
      otherwise: 'three diameters of the header',
      when: ON_BEND,
    }),
    bendSide: fields.angle({
      about: 'Where it leaves the bend: 0 on its outside, 90 beside it, 180 within.',
      min: -180,
      max: 180,
      default: 0,
      when: ON_BEND,
    }),
    bendBefore: fields.angle({
      about: 'How far the bend goes on from there on the obtuse side; then the tube is straight.',
      min: 0,
      max: 180,
      default: 45,
      when: ON_BEND,
    }),
    bendBehind: fields.angle({
      about: 'The same on the acute side.',
      min: 0,
      max: 180,
      default: 45,
      when: ON_BEND,
    }),
  }),
  ...fields.group('Another branch at the node', {
    beside: fields.optionalLength({
      about:
        'Outside diameter of a branch that is on the header already, on which this one ends too.',
      min: 3,
      max: 400,
      example: 38.1,
      otherwise: 'there is none',
      when: ON_HEADER,
    }),
    besideAngle: fields.angle({
      about:
        "Between its axis and the header's, on the side where this branch has its acute angle: over 90 where it leans away.",
      min: 10,
      max: 170,
      default: 120,
      when: { beside: 'given' },
    }),
    besideTurn: fields.angle({
      about:
        'How far it is turned about the header from this branch, right-handed towards the acute side.',
      min: -180,
      max: 180,
      default: 0,
      when: { beside: 'given' },
    }),
    besideApart: fields.length({
      about: 'How far its node lies from this one along the header, towards the acute side.',
      min: -1000,
      max: 1000,
      default: 0,
      when: { beside: 'given' },
    }),
  }),
  ...fields.group('Length and other end', {
    length: fields.optionalLength({
      about: 'From the node along the axis to the other node, or to the square end.',
      min: 1,
      max: 20_000,
      example: 400,
      otherwise: '100 mm of tube stay between the cuts',
    }),
    other: fields.choice({
      about: 'What the other end sits on; square: it is cut square.',
      choices: ['square', 'header', 'plate'],
      default: 'square',
    }),
    otherHeader: fields.optionalLength({
      about: 'Outside diameter of the header at the other end.',
      min: 3,
      max: 2000,
      example: 48.3,
      otherwise: 'as the first header',
      when: { other: ['header'] },
    }),
    otherAngle: fields.angle({
      about: 'Angle at the other end.',
      ...ANGLE,
      when: COPED_AT_BOTH,
    }),
    otherOffset: fields.length({
      about: 'Offset at the other end, as seen from its own node.',
      min: -1000,
      max: 1000,
      default: 0,
      when: { other: ['header'] },
    }),
    clocking: fields.angle({
      about:
        'Where the other end has its acute side: degrees round the tube from that of the first end, clockwise for whoever looks from the first node to the other.',
      min: -360,
      max: 360,
      default: 0,
      when: COPED_AT_BOTH,
    }),
  }),
  ...fields.group('Pattern', {
    knife: fields.flag({
      about: 'Whether the line for a wall that is ground to a knife edge is drawn as well.',
      default: false,
    }),
    headerHole: fields.flag({
      about: "Whether the hole that opens the header to the branch's bore is drawn as well.",
      default: false,
      when: ON_HEADER,
    }),
    paper: fields.length({
      about: 'Thickness of the paper that is wrapped round the tube.',
      min: 0,
      max: 2,
      default: 0.1,
    }),
  }),
} as const;
