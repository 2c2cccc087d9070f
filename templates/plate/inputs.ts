import {
  boltHoleSize,
  cutouts,
  fields,
  foldLines,
  namedHoles,
  optionalPoints,
  outline,
  XY_AXES,
} from '../../src/template.ts';
import type { TemplateValues } from '../../src/template.ts';

export const inputs = {
  ...fields.group('Outline', {
    outline: outline({
      about:
        'The outside shape, point by point, with a radius at any corner and arcs through three points.',
      example: '0,0; 120,0; 120,80 r6; 0,80 r6',
    }),
    cutouts: cutouts({
      about:
        'Cut-outs of any shape, point by point like the outline. One that reaches over a fold is cut as it lies in the flat.',
    }),
  }),
  ...fields.group('Folds', {
    folds: foldLines({ about: 'Fold lines, each by two points of it, from edge to edge.' }),
    slotLength: fields.length({
      about: 'The longest slot of a fold line that is to be slotted and folded by hand.',
      min: 5,
      max: 500,
      default: 50,
      when: { folds: 'given' },
      anchor: { kind: 'bends' },
    }),
    slotLand: fields.optionalLength({
      about: 'Metal left between the slots and at both ends of the line.',
      min: 0.5,
      max: 200,
      example: 12,
      otherwise: 'twice the thickness',
      when: { folds: 'given' },
      anchor: { kind: 'bends' },
    }),
  }),
  ...fields.group('Holes', {
    holes: fields.holes({
      about:
        'Holes and slots as they lie on the outside shape; the length of a slot runs upward, and @90 lays it level',
      axes: XY_AXES,
    }),
  }),
  ...fields.group('Points', {
    points: optionalPoints({
      about:
        'Points measured on the job that get a hole each, by coordinates or by tape distances between them.',
      example: 'A-B: 140; A-C: 150; B-C: 150',
      otherwise: 'no holes but those of holes',
    }),
    pointHole: boltHoleSize({
      about: 'Size of the holes at the points.',
      default: 'M8',
      example: 'M10',
      when: { points: 'given' },
    }),
    pointHoles: namedHoles({
      about:
        'Points whose hole has another size, by name; none for a point that is only measured from.',
      example: 'C: M12; D: none',
      otherwise: 'all have the size of pointHole',
      when: { points: 'given' },
    }),
    pointsX: fields.length({
      about: 'How far to the right the first of the points lies, as the outline counts.',
      min: -10000,
      max: 10000,
      default: 0,
      when: { points: 'given' },
      anchor: { kind: 'as', input: 'points' },
    }),
    pointsY: fields.length({
      about: 'How high the first of the points lies, as the outline counts.',
      min: -10000,
      max: 10000,
      default: 0,
      when: { points: 'given' },
      anchor: { kind: 'as', input: 'points' },
    }),
    pointsTurn: fields.angle({
      about:
        'How far the figure of the points is turned about the first one, counter-clockwise; tape distances put the second point level to the right of it.',
      min: -360,
      max: 360,
      default: 0,
      when: { points: 'given' },
      anchor: { kind: 'as', input: 'points' },
    }),
  }),
};

/** Inputs of a traced plate. */
export type Plate = TemplateValues<typeof inputs>;
