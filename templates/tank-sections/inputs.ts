import { fields, measuredSections, optionalStations } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';
import { inputs as plan } from '../tank-plan/inputs.ts';
import { insideInputs as inside } from '../tank-plan/inputs-inside.ts';

/** Axes of the holes: along the stations, and across as the sections have it. */
const AXES = [
  { from: 'station', at: 'station 0' },
  { from: 'across', at: 'x 0 of the sections' },
] as const;

const hole = (about: string, example: string) => fields.holes({ about, axes: AXES, example });

export const inputs = {
  ...fields.group('Sections', {
    sections: measuredSections({
      about:
        'The sections measured across the space, each at its station along it, as they are seen from the last one: as many corners in each, from the same corner on and the same way round.',
      example: '0: 0,0; 400,0; 400,220; 0,240 | 600: 20,10; 380,10; 380,190; 20,208',
    }),
    clearance: fields.length({
      about:
        'Air to be left all round and at both ends between what was measured and the outside of the tank; with measure inside, its inside.',
      min: 0,
      max: 200,
      default: 0,
      anchor: { kind: 'beside', what: 'the space that was measured' },
    }),
    crease: fields.choice({
      about:
        'Along which diagonal a warped wall is creased: in, so that it stays clear of what stands beside it, or out, so that the tank holds more.',
      choices: ['in', 'out'],
      default: 'in',
    }),
  }),
  ...fields.group('Blanks', {
    blanks: fields.choice({
      about:
        'The walls between two sections in one blank that is folded round, in two, or each by itself; a warped wall always is. auto takes one, and where no machine of the shop folds that, what one does.',
      choices: ['auto', 'wrap', 'halves', 'plates'],
      isMaking: true,
      default: 'auto',
    }),
    seam: fields.count({
      about:
        'The corner of the sections at which the walls are welded; halves have one opposite too.',
      min: 1,
      max: 8,
      default: 1,
      when: { blanks: ['auto', 'wrap', 'halves'] },
    }),
    setback: fields.optionalLength({
      about:
        'How far the edges of both ends stand back from the outside of the walls, less than 0 over them.',
      min: -50,
      max: 25,
      example: 0,
      otherwise: 'half the thickness, which leaves an open corner to weld into',
      anchor: { kind: 'panel', panel: 'first end' },
    }),
  }),
  ...fields.group('Baffles', {
    baffleAt: optionalStations({
      about: 'The stations at which baffles stand: of the face towards the first section.',
      example: '200; 400',
      otherwise: 'they stand evenly, as many as longestBay asks for',
    }),
    longestBay: inside.longestBay,
    baffleGap: fields.length({
      about: 'Clearance of the baffles to the walls.',
      min: 0.2,
      max: 10,
      default: 1,
      anchor: { kind: 'panel', panel: 'baffle' },
    }),
    limber: fields.length({
      about: 'How far the corners of the baffles at the floor are cut along both edges.',
      min: 5,
      max: 300,
      default: 25,
      anchor: { kind: 'panel', panel: 'baffle' },
    }),
    vent: fields.length({
      about: 'How far the corners of the baffles at the top are cut along both edges.',
      min: 5,
      max: 300,
      default: 25,
      anchor: { kind: 'panel', panel: 'baffle' },
    }),
    holeDiameter: inside.holeDiameter,
    openPercent: inside.openPercent,
  }),
  ...fields.group('Fittings', {
    filler: hole('Hole of the filler neck in the top', '80,200,60'),
    breather: hole('Hole of the breather in the top', '60,60,10'),
    return: hole('Hole of the return pipe in the top', '150,60,14'),
    pickup: hole('Hole of the pick-up pipe in the top', '100,100,14'),
    pickupEnd: inside.pickupEnd,
    drain: hole('Hole of the drain in the floor', '50,50,20'),
    holesTop: fields.holes({ about: 'Other holes in the top', axes: AXES }),
  }),
  ...fields.group('Fluid', {
    fluid: plan.fluid,
    fillLimit: plan.fillLimit,
    dipStep: plan.dipStep,
  }),
};

/** Inputs of a tank by measured sections, mm. */
export type TankSections = TemplateValues<typeof inputs>;
