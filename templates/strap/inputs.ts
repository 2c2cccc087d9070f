import { between, fields, FROM_LEFT } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

/** Axes of a side: up from the surface on which its foot lies. */
const SIDE_AXES = [{ from: 'foot', at: 'the underside of its foot' }, FROM_LEFT] as const;

/** A crown steeper than this is no crown any more: a limit of this program. */
export const STEEPEST_DEG = 45;

export const inputs = {
  ...fields.group('What it holds', {
    over: fields.choice({
      about: 'What the strap goes over.',
      choices: ['box', 'round'],
      default: 'box',
    }),
    across: fields.length({
      about: 'Width of the box or diameter of the round, without rubber.',
      min: 1,
      max: 3000,
      example: 150,
    }),
    height: fields.length({
      about:
        'Height from the surface the feet are bolted to up to the top of the box or round, without rubber; at side A, in the middle of the strap, where a box slopes.',
      min: 1,
      max: 3000,
      example: 100,
    }),
    rubber: fields.length({
      about: 'Thickness of the rubber between the strap and what it holds.',
      min: 0,
      max: 50,
      default: 3,
    }),
  }),
  ...fields.group('Slope', {
    slopeAcross: fields.angle({
      about:
        'How much the top of the box rises from side A to side B, by the angle finder; of a tank that hangs in the strap its floor is the top.',
      min: -STEEPEST_DEG,
      max: STEEPEST_DEG,
      default: 0,
      when: { over: ['box'] },
    }),
    slopeAlong: fields.angle({
      about:
        'How much it rises along the folds, from the left edge of the strap as drawn to the right one.',
      min: -STEEPEST_DEG,
      max: STEEPEST_DEG,
      default: 0,
      when: { over: ['box'] },
    }),
    heightB: fields.optionalLength({
      about:
        'Height at side B, from the surface that foot B is bolted to, in place of slopeAcross.',
      min: 1,
      max: 3000,
      example: 120,
      otherwise: 'what height and slopeAcross make',
      when: { over: ['box'] },
    }),
    stepB: fields.length({
      about: 'How much higher the surface under foot B lies than the one under foot A.',
      min: -2000,
      max: 2000,
      default: 0,
    }),
  }),
  ...fields.group('Strap', {
    width: fields.length({
      about: 'Width of the strap, along the folds.',
      min: 1,
      max: 1000,
      default: 30,
    }),
  }),
  ...fields.group('Bolts', {
    boltCentres: fields.length({
      about: 'Distance between the centres of the two bolts.',
      min: 1,
      max: 6000,
      example: 220,
    }),
    boltHole: fields.length({
      about: 'Width of the slots for the bolts.',
      min: 1,
      max: 60,
      default: 9,
    }),
    beyond: fields.length({
      about: 'Metal from the centre of a bolt to the free edge of its foot.',
      min: 1,
      max: 500,
      default: 18,
    }),
    pullUp: fields.length({
      about:
        'How far the feet stand over their mounting before the bolts pull them down; the slots are longer than wide by as much.',
      min: 0,
      max: 50,
      default: 3,
    }),
  }),
  ...fields.group('Holes', {
    holesCrown: fields.holes({
      about: 'Holes in the crown over a box',
      axes: [between('side A', 'side B'), FROM_LEFT],
      when: { over: ['box'] },
    }),
    holesA: fields.holes({ about: 'Holes in side A', axes: SIDE_AXES }),
    holesB: fields.holes({ about: 'Holes in side B', axes: SIDE_AXES }),
  }),
};

export type Strap = TemplateValues<typeof inputs>;
