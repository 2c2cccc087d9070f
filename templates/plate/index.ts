import {
  boltHoleSize,
  cutouts,
  defineTemplate,
  fields,
  foldLines,
  namedHoles,
  optionalPoints,
  outline,
  XY_AXES,
} from '../../src/template.ts';
import { plate } from './build.ts';

/** A traced card template: any outline, any fold lines from edge to edge. */
export default defineTemplate({
  family: 'plate',
  summary: 'A traced outline with holes and fold lines anywhere on it.',
  sketch: String.raw`
        0,80 ._______________________. 120,80
             |                       |
             |  o        fold        |
       0,50  |- - - - - - - - - - - -|  120,50
             |                       |
             |_______________________|
          0,0                         120,0
  The points are those of the finished outside shape, laid flat: a leg
  counts to where the outside faces meet. The bends are allowed for.
`,
  inputs: {
    outline: outline({
      about:
        'The outside shape, point by point, with a radius at any corner and arcs through three points.',
      example: '0,0; 120,0; 120,80 r6; 0,80 r6',
    }),
    folds: foldLines({ about: 'Fold lines, each by two points of it, from edge to edge.' }),
    holes: fields.holes({
      about:
        'Holes and slots as they lie on the outside shape; the length of a slot runs upward, and @90 lays it level',
      axes: XY_AXES,
    }),
    points: optionalPoints({
      about:
        'Points measured on the job that get a hole each, by coordinates or by the distances between them as a tape finds them.',
      example: 'A-B: 140; A-C: 150; B-C: 150',
      otherwise: 'no holes but those of holes',
    }),
    pointHole: boltHoleSize({
      about: 'Size of the holes at the points.',
      default: 'M8',
      example: 'M10',
    }),
    pointHoles: namedHoles({
      about:
        'Points whose hole has another size, by name; none for a point that is only measured from.',
      example: 'C: M12; D: none',
      otherwise: 'all have the size of pointHole',
    }),
    pointsX: fields.length({
      about: 'Where the first of the points lies, from the left as the outline counts.',
      min: -10000,
      max: 10000,
      default: 0,
    }),
    pointsY: fields.length({
      about: 'How high the first of the points lies, as the outline counts.',
      min: -10000,
      max: 10000,
      default: 0,
    }),
    pointsTurn: fields.angle({
      about:
        'How far the figure of the points is turned about the first one, counter-clockwise; tape distances put the second point level to the right of it.',
      min: -360,
      max: 360,
      default: 0,
    }),
    cutouts: cutouts({
      about:
        'Cut-outs of any shape, point by point like the outline. One that reaches over a fold is cut as it lies in the flat.',
    }),
    slotLength: fields.length({
      about: 'The longest slot of a fold line that is to be slotted and folded by hand.',
      min: 5,
      max: 500,
      default: 50,
    }),
    slotLand: fields.optionalLength({
      about: 'Metal left between the slots and at both ends of the line.',
      min: 0.5,
      max: 200,
      example: 12,
      otherwise: 'twice the thickness',
    }),
  },
  cautions: ['sharp-edges', 'load-bearing'],
  examples: [
    {
      title: 'Guard of the chain on the cart, traced from card and folded once',
      inputs: {
        name: 'chain-guard',
        outline: '0,0; 160,0; 160,70 r10; 90,110 r20; 0,110',
        folds: '0,30 160,30 90 up',
        holes: '20,15,6.6; 140,15,6.6; 60,70,8x20@90',
        material: 'dc01',
        thickness: 1.5,
      },
    },
    {
      title: 'Box over the pump, four sides round a floor, corners open',
      inputs: {
        name: 'pump-box',
        outline:
          '40,0; 140,0; 140,40; 180,40; 180,100; 140,100; 140,140; 40,140; 40,100; 0,100; 0,40; 40,40',
        folds: '40,40 140,40 90 up; 140,40 140,100 90 up; 40,100 140,100 90 up; 40,40 40,100 90 up',
        material: '5754-h111',
        thickness: 2,
      },
    },
    {
      title:
        'Cover plate over four studs whose places were taped, with the diagonals to check them',
      inputs: {
        name: 'stud-cover',
        outline: '0,0; 180,0; 180,130; 0,130',
        cornerRadius: 0,
        points:
          'A-B: 140; B-C: 90; C-D: 140; D-A: 90; A-C: 166.4; B-D: 166.5; A-B-C: left; A-B-D: left',
        pointsX: 20,
        pointsY: 20,
        pointHole: 9,
        pointHoles: 'C: 9x14@90',
        material: 's235',
        thickness: 2,
      },
    },
    {
      title: 'Odd on purpose: a deflector with slanted folds to either side and a round end',
      inputs: {
        name: 'dust-deflector',
        outline: '0,0; 200,0; 200,60; 230,95 arc; 200,130; 30,130 r15; 0,70',
        folds: '120,0 150,130 35 up; 60,0 40,130 50 down r4',
        holes: '175,60,M6',
        cutouts: '72,40; 102,40; 108,70 r8; 70,70 r8',
        material: 's235',
        thickness: 1.5,
        hand: 'both',
      },
    },
  ],
  build: plate,
});
