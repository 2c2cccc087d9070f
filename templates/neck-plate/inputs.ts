import { fields, MOST_ROOM_MM } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

/** A face that leans more is reached by no fold of the low wall: a limit of this program. */
export const STEEPEST_DEG = 45;

const FLAT = { mount: ['flat'] };
const BOX = { mount: ['raised', 'sunk'] };

export const inputs = {
  ...fields.group('Neck', {
    tube: fields.length({
      about: 'Outside diameter of the neck.',
      min: 10,
      max: 300,
    }),
    lean: fields.angle({
      about: 'How far the neck leans from square to the panel, by the angle finder.',
      min: 0,
      max: STEEPEST_DEG,
      default: 30,
      anchor: { kind: 'panel', panel: 'plate' },
    }),
    clear: fields.length({
      about: 'Room all round the neck in the plate, square to it.',
      min: 0,
      max: MOST_ROOM_MM,
      default: 0.5,
    }),
    grommet: fields.length({
      about: 'Rubber on the edge of the hole in the plate.',
      min: 0,
      max: MOST_ROOM_MM,
      default: 0,
    }),
  }),
  ...fields.group('Plate', {
    mount: fields.choice({
      about:
        'A flat plate that the neck passes at its angle, or one whose face is tilted square to the neck, raised over the panel or sunk into it.',
      choices: ['flat', 'raised', 'sunk'],
      default: 'flat',
    }),
    shape: fields.choice({
      about: 'Outer shape of a flat plate.',
      choices: ['round', 'square'],
      default: 'round',
      when: FLAT,
    }),
    outer: fields.optionalLength({
      about: 'Outer diameter of a round plate, or width of a square one.',
      min: 20,
      max: 1000,
      example: 130,
      otherwise: '30 mm all round the hole',
      when: FLAT,
    }),
    base: fields.optionalLength({
      about: 'Length of the raised or sunk box at the panel, the way the neck leans.',
      min: 20,
      max: 1000,
      example: 110,
      otherwise: '20 mm before and behind the neck',
      when: BOX,
    }),
    wide: fields.optionalLength({
      about: 'Width of that box.',
      min: 20,
      max: 1000,
      example: 100,
      otherwise: '15 mm on either side of the neck',
      when: BOX,
    }),
    low: fields.length({
      about: 'Height of its low wall, towards which the neck leans, or away from it where sunk.',
      min: 3,
      max: 500,
      default: 15,
      when: BOX,
    }),
    flange: fields.length({
      about: 'Flanges at its low wall and at its high one, by which it is fixed.',
      min: 5,
      max: 300,
      default: 25,
      when: BOX,
    }),
  }),
  ...fields.group('Bolts', {
    bolts: fields.count({
      about: 'Bolt holes round a flat plate, or in each flange of a box.',
      min: 2,
      max: 24,
      default: 4,
    }),
    boltHole: fields.length({
      about: 'Diameter of the bolt holes.',
      min: 1,
      max: 30,
      default: 5.5,
    }),
    boltCircle: fields.optionalLength({
      about: 'Diameter of the circle through the middles of the bolt holes.',
      min: 10,
      max: 1000,
      example: 110,
      otherwise: 'half way between the hole and the edge',
      when: FLAT,
    }),
    boltStart: fields.angle({
      about:
        'Where the first bolt hole lies, counter-clockwise from the right, the neck leaning upwards.',
      min: 0,
      max: 360,
      default: 45,
      when: FLAT,
      anchor: { kind: 'as', input: 'boltCircle' },
    }),
  }),
  ...fields.group('Panel', {
    panelThickness: fields.length({
      about: 'Thickness of the panel that the plate is fixed to.',
      min: 0.3,
      max: 50,
      default: 1.5,
    }),
    panelClear: fields.length({
      about: 'Room all round the neck, or a sunk box, in the panel.',
      min: 0,
      max: MOST_ROOM_MM,
      default: 2,
    }),
  }),
};

/** Inputs of a plate for a filler neck, mm and degrees. */
export type NeckPlate = TemplateValues<typeof inputs>;
