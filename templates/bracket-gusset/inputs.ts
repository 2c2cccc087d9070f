import { fields, FROM_LEFT } from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

/** Axes of a cheek: up from the base and away from the upright. */
const CHEEK_AXES = [
  { from: 'fold', at: 'the outside corner of its fold' },
  { from: 'upright', at: 'the outside of the upright' },
] as const;

export const inputs = {
  ...fields.group('Sizes', {
    base: fields.length({
      about:
        'Base, from its free edge to the outside of the upright; with measure inside to its inside.',
      min: 1,
      max: 3000,
      example: 80,
    }),
    upright: fields.length({
      about:
        'Upright, from its free edge to the outside of the base; with measure inside to its inside.',
      min: 1,
      max: 3000,
      example: 100,
    }),
    width: fields.length({
      about: 'Width of base and upright, over the cheeks; with measure inside between them.',
      min: 1,
      max: 6000,
      example: 60,
    }),
  }),
  ...fields.group('Cheeks', {
    gussetDepth: fields.length({
      about:
        'How far a cheek reaches along the base, from the outside of the upright; with measure inside from its inside.',
      min: 1,
      max: 3000,
      example: 60,
    }),
    gussetHeight: fields.length({
      about:
        'How far a cheek reaches up the upright, from the outside of the base; with measure inside from its inside.',
      min: 1,
      max: 3000,
      example: 70,
      anchor: { kind: 'as', input: 'gussetDepth' },
    }),
    gussetSide: fields.choice({
      about: 'Sides that have cheeks, seen with the upright at the far end.',
      choices: ['left', 'right', 'both'],
      default: 'both',
    }),
  }),
  ...fields.group('Holes', {
    holesBase: fields.holes({
      about: 'Holes in the base',
      axes: [{ from: 'upright', at: 'the outside of the upright', to: 'edge' }, FROM_LEFT],
    }),
    holesUpright: fields.holes({
      about: 'Holes in the upright',
      axes: [{ from: 'base', at: 'the outside of the base', to: 'edge' }, FROM_LEFT],
    }),
    holesLeft: fields.holes({
      about: 'Holes in the left cheek',
      axes: CHEEK_AXES,
      when: { gussetSide: ['left', 'both'] },
    }),
    holesRight: fields.holes({
      about: 'Holes in the right cheek',
      axes: CHEEK_AXES,
      when: { gussetSide: ['right', 'both'] },
    }),
  }),
};

export type Gusset = TemplateValues<typeof inputs>;
