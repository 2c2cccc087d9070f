import { fields } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

/** A floor steeper than this is no floor any more: a limit of this program. */
export const STEEPEST_DEG = 30;

export const inputs = {
  ...fields.group('Tank', {
    length: fields.length({
      about:
        'Length of the tank, along the rail: from its left end as seen from the side away from the rail.',
      min: 50,
      max: 3000,
      example: 600,
    }),
    width: fields.length({
      about: 'Width of the tank, along the straps, without rubber.',
      min: 30,
      max: 2000,
      example: 350,
    }),
    depth: fields.length({
      about:
        'Depth of the tank from its top to its floor, at its left end on the side away from the rail.',
      min: 10,
      max: 1500,
      example: 250,
    }),
    slopeAcross: fields.angle({
      about: 'How much the floor of the tank falls towards the rail, by the angle finder.',
      min: -STEEPEST_DEG,
      max: STEEPEST_DEG,
      default: 0,
    }),
    slopeAlong: fields.angle({
      about: 'How much the floor of the tank falls from its left end to its right one.',
      min: -STEEPEST_DEG,
      max: STEEPEST_DEG,
      default: 0,
    }),
    drop: fields.length({
      about: 'From the face of the chassis that all is bolted to down to the top of the tank.',
      min: 0,
      max: 500,
      default: 10,
    }),
    fluid: fields.choice({
      about: 'What the tank is for.',
      choices: ['diesel', 'petrol', 'water'],
      default: 'diesel',
    }),
    emptyMass: fields.optionalNumber({
      about: 'Mass of the empty tank, kg.',
      what: 'kilograms',
      min: 0,
      max: 2000,
      example: 18,
      otherwise: 'the mass that is told is that of the fluid alone',
    }),
  }),
  ...fields.group('Straps', {
    leftStrap: fields.length({
      about: 'From the left end of the tank to the middle of the left strap.',
      min: 1,
      max: 3000,
      example: 120,
    }),
    rightStrap: fields.length({
      about: 'From the right end of the tank to the middle of the right strap.',
      min: 1,
      max: 3000,
      example: 120,
    }),
    strapWidth: fields.length({
      about: 'Width of the straps.',
      min: 10,
      max: 300,
      default: 40,
    }),
    rubber: fields.length({
      about: 'Thickness of the rubber between the straps and the tank.',
      min: 0,
      max: 50,
      default: 3,
    }),
    clearance: fields.length({
      about:
        'Room on either side between tank, rubber and strap, and between the feet of the straps and the bend of the rail.',
      min: 0,
      max: 50,
      default: 1,
    }),
  }),
  ...fields.group('Bolts', {
    boltCentres: fields.length({
      about:
        'Across the tank between the tensioning bolts at the two feet of a strap; the one goes into the chassis, the other into the rail.',
      min: 50,
      max: 3000,
      example: 430,
    }),
    boltHole: fields.length({
      about: 'Width of the slots for these bolts, and diameter of their holes in the rail.',
      min: 3,
      max: 60,
      default: 11,
    }),
    beyond: fields.length({
      about: 'Metal from the centre of a bolt to the free edge of its foot.',
      min: 5,
      max: 500,
      default: 22,
    }),
    pullUp: fields.length({
      about:
        'How far the feet stand off until the bolts pull them up; the slots are longer than wide by as much.',
      min: 0,
      max: 50,
      default: 4,
    }),
  }),
  ...fields.group('Rail', {
    rail: fields.choice({
      about: 'The cross rail that one end of both straps is bolted to: an angle or a channel.',
      choices: ['angle', 'channel'],
      default: 'angle',
    }),
    railWeb: fields.length({
      about: 'Height of the web of the rail, from the chassis down.',
      min: 5,
      max: 500,
      default: 50,
    }),
    railLip: fields.length({
      about: 'Width of the lower flange of a channel, which looks towards the tank.',
      min: 2,
      max: 300,
      default: 12,
      when: { rail: ['channel'] },
    }),
    chassisAt: fields.length({
      about:
        'From the left end of the tank to the first bolt of the rail in the chassis, to the right; less than 0 beyond that end.',
      min: -1000,
      max: 3000,
      default: -40,
    }),
    chassisPitch: fields.length({
      about: 'Between the two bolts of the rail in the chassis.',
      min: 30,
      max: 5000,
      example: 680,
    }),
    chassisHole: fields.length({
      about: 'Diameter of the holes for these two.',
      min: 3,
      max: 60,
      default: 13,
    }),
    railBeyond: fields.length({
      about: 'Metal from the outermost holes of the rail to its ends.',
      min: 5,
      max: 500,
      default: 25,
    }),
  }),
};

/** Inputs of a cradle, mm and degrees. */
export type Cradle = TemplateValues<typeof inputs>;
