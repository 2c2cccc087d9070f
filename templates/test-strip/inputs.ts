import { fields } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

export const inputs = {
  ...fields.group('Sizes', {
    flatLength: fields.length({
      about: 'Length of the flat strip, across the fold; the fold lies in its middle.',
      min: 10,
      max: 1000,
      default: 150,
      anchor: { kind: 'blank' },
    }),
    width: fields.length({
      about: 'Width of the strip, along the fold.',
      min: 5,
      max: 1000,
      default: 50,
    }),
    bendAngle: fields.angle({
      about: 'How far the metal is to be turned: 90 is the bend to measure first.',
      min: 1,
      max: 175,
      default: 90,
    }),
  }),
  ...fields.group('Marks', {
    markDistance: fields.length({
      about: 'How far the nicks on both sides lie from the fold line, measured on the flat strip.',
      min: 1,
      max: 500,
      default: 50,
      when: { nick: 'more than 0' },
      anchor: { kind: 'panel', panel: 'leg A' },
    }),
    nick: fields.length({
      about: 'Depth of the V nicks in both edges that mark the distances, 0 for none.',
      min: 0,
      max: 20,
      default: 1.5,
      anchor: { kind: 'panel', panel: 'leg A' },
    }),
  }),
};

export type Strip = TemplateValues<typeof inputs>;
