import {
  fields,
  heights,
  optionalConsumption,
  optionalFloorSteps,
  optionalOutline,
  optionalPoints,
  optionalSideAngles,
  outline,
} from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';
import { insideInputs } from './inputs-inside.ts';
import { seamInputs } from './inputs-seams.ts';
import { senderInputs } from './inputs-sender.ts';

/** Sides, floor and top may lean and fall by so much, degrees; a limit of this program. */
export const STEEPEST_DEG = 30;

export const inputs = {
  ...fields.group('Plan', {
    outline: outline({
      about:
        'The outline of the tank in plan, straight from corner to corner; c40 behind a corner cuts it off.',
      example: '0,0; 600,0; 600,400 c80; 0,380',
    }),
    points: optionalPoints({
      about: 'Points measured on the job to which outline, floor and top may go by name.',
      example: 'A-B: 600; A-C: 721; B-C: 400',
      otherwise: 'outline, floor and top give coordinates',
    }),
    outlineAt: fields.length({
      about: 'The height at which the outline was measured, which matters where a side leans.',
      min: -5000,
      max: 5000,
      default: 0,
      anchor: { kind: 'beside', what: 'the sides, at the level of the outline' },
    }),
    floor: heights({
      about:
        'Height of the floor over one level for all heights: one figure, or at three places and more.',
      example: '1: 0; 2: 12; 4: 20',
    }),
    floorStep: optionalFloorSteps({
      about:
        'Steps straight across the floor, plumb, as for a cross member: where along x or y of the plan, and how much the floor is up or down beyond.',
      example: 'x 300 up 40; x 420 down 40',
      otherwise: 'the floor has no step',
    }),
    top: heights({
      about: 'Height of the top over that level: one figure, or at three places and more.',
      example: '300',
    }),
    lean: optionalSideAngles({
      about:
        'Sides that are not plumb, each by its number and how far it leans outwards on its way up.',
      example: '2: 5; 4: -3',
      mostDeg: STEEPEST_DEG,
      otherwise: 'sides are plumb, or lean from outline to outlineOver',
    }),
    outlineOver: optionalOutline({
      about:
        'The outline measured a second time at another height, with as many corners from the same one on: each side leans as it goes from the one to the other.',
      example: '0,0; 610,0; 610,405; 0,385',
      otherwise: 'sides lean as lean says',
    }),
    outlineOverAt: fields.length({
      about: 'The height at which outlineOver was measured.',
      min: -5000,
      max: 5000,
      default: 0,
      when: { outlineOver: 'given' },
      anchor: { kind: 'beside', what: 'the sides, at the level of the second outline' },
    }),
    clearance: fields.length({
      about:
        'Air to be left all round between what was measured and the outside of the tank; with measure inside, its inside.',
      min: 0,
      max: 200,
      default: 0,
      anchor: { kind: 'panel', panel: 'top' },
    }),
  }),
  ...fields.group('Blanks', {
    blanks: fields.choice({
      about:
        'The sides in one blank that is folded round, in two, or each by itself, or folded up from the floor; auto takes one, and where no machine of the shop folds that, what one does.',
      choices: ['auto', 'wrap', 'halves', 'pan', 'plates'],
      isMaking: true,
      default: 'auto',
    }),
    seam: fields.count({
      about: 'The corner of the plan at which the sides are welded; halves have one opposite too.',
      min: 1,
      max: 99,
      default: 1,
      when: { blanks: ['auto', 'wrap', 'halves'] },
    }),
    floorBlanks: fields.choice({
      about:
        'A stepped floor in one blank that is folded at its steps, or in pieces that are welded there; auto takes one, and where no machine of the shop folds that, pieces.',
      choices: ['auto', 'folded', 'pieces'],
      isMaking: true,
      default: 'auto',
      when: { floorStep: 'given' },
    }),
    setback: fields.optionalLength({
      about:
        'How far the edges of floor and top stand back from the outside of the sides, less than 0 over them.',
      min: -50,
      max: 25,
      example: 0,
      otherwise: 'half the thickness, which leaves an open corner to weld into',
      when: [{ floorSeam: ['edge'] }, { topSeam: ['edge'] }],
      anchor: { kind: 'panel', panel: 'top' },
    }),
    ...seamInputs,
  }),
  ...insideInputs,
  ...senderInputs,
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
    tilt: fields.angle({
      about: 'How far the vehicle may lean, for what the pick-up cannot reach then.',
      min: 0,
      max: 45,
      default: 10,
      when: { pickup: 'given' },
      anchor: { kind: 'beside', what: 'the vehicle' },
    }),
    dipStep: fields.count({
      about: 'Step of the dip tables, litres.',
      min: 1,
      max: 100,
      default: 1,
      when: { filler: 'given' },
    }),
    consumption: optionalConsumption({
      about: 'Consumption, for the range: litres for 100 km, or with l/h for an hour.',
      otherwise: 'no range is given',
    }),
  }),
};

/** Inputs of a tank by its measured plan, mm. */
export type TankPlan = TemplateValues<typeof inputs>;
