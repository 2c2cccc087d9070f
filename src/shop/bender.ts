import * as fields from '../forms/fields.ts';
import { list, optional, section, unless } from '../forms/sections.ts';
import { SAME_LENGTH_MM } from '../geometry/tolerance.ts';
import type { Bender, TubeFormer } from '../model/bender.ts';

const radius = (about: string) => fields.length({ about, min: 3, max: 6000 });
const straight = (about: string) => unless(fields.length({ about, min: 0, max: 2000 }), 0);

const springback = section('What was measured on bends of this former.', {
  fixed: fields.angle({ about: 'Degrees that every bend springs back by.', min: -5, max: 30 }),
  share: fields.number({
    about: 'Degrees more for each degree that stays.',
    what: 'a share',
    min: 0,
    max: 0.5,
  }),
  effectiveRadius: optional(radius('Centre-line radius that was measured on a bend.')),
});

const former = section('A former.', {
  tube: fields.length({ about: 'Outside diameter of its tube.', min: 3, max: 400 }),
  radius: radius('Its centre-line radius.'),
  springback: optional(springback),
});

/** A tube bender. */
export const bender = section('A tube bender.', {
  name: fields.text({ about: 'Its name.', max: 80 }),
  formers: list('Its formers.', former, { what: 'formers', min: 1, max: 200 }),
  referenceMark: unless(
    fields.length({
      about:
        'How far its mark lies ahead of where a bend begins, towards the clamp; less than 0 behind it.',
      min: -1000,
      max: 1000,
    }),
    0,
  ),
  clamp: straight('Straight tube that its clamp holds.'),
  follower: straight('Straight tube that its follower needs behind a bend.'),
  leastStraight: straight('Straight tube that there has to be between two bends.'),
  mostAngle: unless(
    fields.angle({ about: 'The largest angle of one pull.', min: 5, max: 240 }),
    180,
  ),
  bends: fields.choice({
    about: 'The way in which it bends, seen from above.',
    choices: ['clockwise', 'anticlockwise'],
    default: 'clockwise',
  }),
  height: optional(
    fields.length({
      about: 'Height of the tube in it over the floor, or over what stands under the tube.',
      min: 50,
      max: 3000,
    }),
  ),
});

/** How tube is bought and sawn. */
export const tubeStock = section('How tube is bought and sawn.', {
  lengths: list(
    'Lengths in which it is bought.',
    fields.length({ about: 'A length.', min: 100, max: 20_000 }),
    { what: 'lengths', min: 1, max: 20 },
  ),
  sawKerf: fields.length({ about: "Width of the saw's cut.", min: 0, max: 10, default: 2 }),
});

/** Where a bender and its former stand in the lists of a shop; -1 for what is not there. */
export const formerPlace = (
  benders: readonly Bender[],
  name: string,
  { tube, radius: centreLine }: Pick<TubeFormer, 'tube' | 'radius'>,
): { readonly at: number; readonly of: number } => {
  const at = benders.findIndex((one) => one.name.toLowerCase() === name.toLowerCase());
  const isSame = (a: number, b: number): boolean => Math.abs(a - b) < SAME_LENGTH_MM;
  const formers = benders[at]?.formers ?? [];
  return { at, of: formers.findIndex((f) => isSame(f.tube, tube) && isSame(f.radius, centreLine)) };
};
