import { assemble, cutouts, defineTemplate, fields, foldLines, outline, placeHoles, splitPlate, withJoggles } from '../src/template.ts';

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
    outline: outline({ about: 'The outside shape, point by point, with a radius at any corner and arcs through three points.', example: '0,0; 120,0; 120,80 r6; 0,80 r6' }),
    folds: foldLines({ about: 'Fold lines, each by two points of it, from edge to edge.' }),
    holes: fields.holes({ about: 'Holes and slots: x, y and size, as they lie on the outside shape; the length of a slot runs upward, and @90 lays it level.' }),
    cutouts: cutouts({ about: 'Cut-outs of any shape, point by point like the outline. One that reaches over a fold is cut as it lies in the flat.' }),
    slotLength: fields.length({ about: 'The longest slot of a fold line that is to be slotted and folded by hand.', min: 5, max: 500, default: 50 }),
    slotLand: fields.optionalLength({ about: 'Metal left between the slots and at both ends of the line.', min: 0.5, max: 200, example: 12, otherwise: 'twice the thickness' }),
  },
  cautions: ['sharp-edges', 'load-bearing'],
  examples: [
    {
      title: 'Guard of the chain on the cart, traced from card and folded once',
      inputs: { name: 'chain-guard', outline: '0,0; 160,0; 160,70 r10; 90,110 r20; 0,110', folds: '0,30 160,30 90 up', holes: '20,15,6.6; 140,15,6.6; 60,70,8x20@90', material: 'dc01', thickness: 1.5 },
    },
    {
      title: 'Box over the pump, four sides round a floor, corners open',
      inputs: { name: 'pump-box', outline: '40,0; 140,0; 140,40; 180,40; 180,100; 140,100; 140,140; 40,140; 40,100; 0,100; 0,40; 40,40', folds: '40,40 140,40 90 up; 140,40 140,100 90 up; 40,100 140,100 90 up; 40,40 40,100 90 up', material: '5754-h111', thickness: 2 },
    },
    {
      title: 'Odd on purpose: a deflector with slanted folds to either side and a round end',
      inputs: { name: 'dust-deflector', outline: '0,0; 200,0; 200,60; 230,95 arc; 200,130; 30,130 r15; 0,70', folds: '120,0 150,130 35 up; 60,0 40,130 50 down r4', holes: '175,60,M6', cutouts: '72,40; 102,40; 108,70 r8; 70,70 r8', material: 's235', thickness: 1.5, hand: 'both' },
    },
  ],
  build: (v) => {
    const windows = v.cutouts.map((loop, i) => ({ kind: 'loop', from: `cutouts ${i + 1}`, loop }) as const);
    const holes = [...placeHoles('holes', v.holes, { origin: [0, 0], across: [1, 0], along: [0, 1] }), ...windows];
    const slots = { longestMm: v.slotLength, landMm: v.slotLand ?? 2 * v.thicknessMm, widthMm: v.leastSlotMm };
    const split = splitPlate(v.outline, withJoggles(v.folds, v.thicknessMm, v.measure), holes, { insideRadiusMm: v.insideRadiusMm, slots });
    return 'findings' in split ? split : { part: assemble(v, split) };
  },
});
