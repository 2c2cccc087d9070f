import { defineTemplate } from '../../src/template.ts';
import { plate } from './build.ts';
import { inputs } from './inputs.ts';

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
  inputs,
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
