import { fields, MOST_LEAN_DEG, MOST_ROOM_MM } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

export const inputs = {
  ...fields.group('Tube', {
    tube: fields.length({
      about: 'Outside diameter of the tube.',
      min: 3,
      max: 600,
      example: 76,
    }),
    lean: fields.angle({
      about: 'How far the tube leans from square to the panel, by the angle finder.',
      min: 0,
      max: MOST_LEAN_DEG,
      default: 30,
      anchor: { kind: 'panel', panel: 'patch' },
    }),
    clear: fields.length({
      about: 'Room all round the tube, square to it.',
      min: 0,
      max: MOST_ROOM_MM,
      default: 0,
    }),
    grommet: fields.length({
      about: 'Rubber on the edge of the hole, which is larger by so much all round.',
      min: 0,
      max: MOST_ROOM_MM,
      default: 0,
    }),
  }),
  ...fields.group('Panel', {
    panelThickness: fields.optionalLength({
      about: 'Thickness of the panel that the tube passes.',
      min: 0.3,
      max: 100,
      example: 1.5,
      otherwise: 'that of the patch',
    }),
  }),
  ...fields.group('Patch', {
    form: fields.choice({
      about:
        'How the hole comes onto the panel: an open hole to scribe round, or small holes on its line to centre-punch through.',
      choices: ['hole', 'punch'],
      default: 'hole',
    }),
    margin: fields.length({
      about: 'Sheet of the patch all round the hole.',
      min: 12,
      max: 300,
      default: 25,
    }),
    punches: fields.count({
      about: 'Small holes on the line of the hole; one more shows its middle.',
      min: 4,
      max: 72,
      default: 12,
      when: { form: ['punch'] },
    }),
    punchHole: fields.length({
      about: 'Diameter of the small holes.',
      min: 0.5,
      max: 10,
      default: 3,
      when: { form: ['punch'] },
    }),
  }),
};

/** Inputs of the patch for the hole of a tube, mm and degrees. */
export type TubeHolePatch = TemplateValues<typeof inputs>;
