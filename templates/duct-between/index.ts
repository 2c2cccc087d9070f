import { defineTemplate } from '../../src/template.ts';
import { ductBetween } from './build.ts';
import { inputs } from './inputs.ts';
import { betweenSchematics } from './schematic.ts';

/** A duct from one opening to another, of any shapes, each in its own plane. */
export default defineTemplate({
  family: 'duct-between',
  summary:
    'Duct between any two openings, each in its own plane: rectangles, trapezoids, outlines, ovals, rounds.',
  sketch: String.raw`
      seen from beyond the far opening         from the right
                                                            faceUp
       ____________________                       ____       /
      |\      wall       /|                 near |    ---__ /
      | \   .------.    / |                      |         /\
      |    /        \     |                      |        /  \ far
      |   |   far    |    | near     up          |       /    \
      |    \        /     |           |          |      /__  _/
      | /   '------'    \ |           |__ right  |   __--  --
      |/_________________\|                      |--
                                                 |<- length ->|
   offsetRight, offsetUp: from the middle of near (or the 0,0 of its
   outline) to that of far
`,
  inputs,
  // Its corners meet others at the seams, and its folds lie on the middle of the sheet.
  when: { cornerRadius: [], cornerChamfer: [], rule: [] },
  defaults: { rule: 'k:0.5' },
  cautions: ['sharp-edges', 'weld-heat'],
  examples: [
    {
      title:
        'Grille opening of the cart, taped at four corners with two radii, to a four-inch pipe',
      inputs: {
        name: 'grille-to-pipe',
        near: 'A r20; B r12; C; D',
        nearPoints: 'A-B: 238; B-C: 151; C-D: 207; A-D: 146.5; A-C: 267; B-D: 267.5',
        far: 'round 4in',
        length: 210,
        offsetRight: 130,
        offsetUp: 60,
        nearLip: 20,
        lipHole: 5,
        farStub: 50,
        flow: 250,
        material: '5754-h111',
        thickness: 1.5,
      },
    },
    {
      title:
        'Rectangle to rectangle with rounded corners, offset and turned to face right, few folds',
      inputs: {
        name: 'heater-elbow',
        near: '180 x 120 r25',
        far: '140 x 90 r20',
        length: 160,
        offsetRight: 110,
        offsetUp: 20,
        faceRight: 50,
        walls: 'few-folds',
        blanks: 'two',
        farLip: 15,
        lipTo: 'in',
        lipSides: 'left-right',
        material: 'dc01',
        thickness: 1,
      },
    },
    {
      title:
        'Round hose to a flat oval by three measured points, inside sizes, the bottom wall apart',
      inputs: {
        name: 'crusher-hood',
        near: 'round 220',
        far: 'oval 60 x 140',
        nearStub: 30,
        farLip: 18,
        lipHole: 6.6,
        lipPitch: 60,
        farAt: '40,25,190; 135,28,160; 38,124,205',
        blanks: 'apart',
        measure: 'inside',
        roundEdge: 'chords',
        divisions: 16,
        material: 'dc01',
        thickness: 1,
      },
    },
    {
      title:
        'Odd on purpose: an L-shaped opening to a leaning trapezoid, both measured from the same corner of the cart, both hands',
      inputs: {
        name: 'battery-vent',
        near: '0,0; 8in,0; 8in,90; 110,90; 110,160 r15; 0,160',
        far: '110 to 90 x 80 r10',
        nearAt: '100,40,0; 300,40,0; 100,200,0',
        farAt: '190,120,180; 290,120,170; 190,220,195',
        farTurn: 10,
        walls: 'few-folds',
        chordOff: 2,
        blanks: 'four',
        seamPlace: 'fold',
        seamSide: 'right',
        flow: 80,
        flowFrom: 'far',
        material: '1.4301',
        thickness: 1,
        hand: 'both',
      },
    },
  ],
  schematics: betweenSchematics,
  build: ductBetween,
});
