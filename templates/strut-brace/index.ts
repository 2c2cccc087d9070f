import { defineTemplate } from '../../src/template.ts';
import { strutBrace } from './build.ts';
import { inputs } from './inputs.ts';

/** A plate over a strut tower, one for each side, with what ties them together. */
export default defineTemplate({
  family: 'strut-brace',
  summary: 'Strut brace: plate round bolt and pick-up holes, crease, return edge, cross tube.',
  sketch: String.raw`
          .------------------------.           left      tube      right
        /  o A                B o   \                  .------.
       |    \    edge: metal round   |               .'        '.  rise
        \    \    every hole        /         =o==o='            '=o==o=
   crease - - - - - - - - - - - - -            plate  |middle|    plate
          \    o C             /                 |<---- span --->|
           \         P        /
            \       (o)      /    <- return edge along side C-P
             '--------------'
  A, B, C bolt holes, P a pick-up hole: by x,y or by tape distances.
`,
  inputs,
  cautions: ['sharp-edges', 'load-bearing', 'suspension', 'safety-relevant'],
  defaults: { hand: 'both' },
  examples: [
    {
      title:
        'Plate over the spring tower of the cart: three bolts, one pick-up, shallow crease before it',
      inputs: {
        name: 'tower-plate',
        points: 'A: 0,0; B: 112,8; C: 48,94; P: 82,-78',
        pickups: 'P: M12',
        boltHole: 'M10',
        edge: 18,
        crease: '0,-38 110,-38',
        creaseAngle: 12,
        material: 's275',
        thickness: 3,
      },
    },
    {
      title:
        'Thick plate by tape distances, crease slit and welded, return edge, tube across over the pump',
      inputs: {
        name: 'tower-brace',
        points: 'A-B: 140; A-C: 150; B-C: 150; A-P: 110; B-P: 110; C-P: 217.5; A-B-P: right',
        pickups: 'P: 16.5',
        boltHole: 'M10',
        edge: 24,
        crease: '0,-30 140,-30',
        creaseAngle: 8,
        creaseStyle: 'slit',
        return: 'B-C',
        returnHeight: 30,
        tube: 38,
        tubeSpan: 860,
        tubeRise: 55,
        saddle: '70,38',
        saddleHole: 'M8',
        cornerRadius: 5,
        material: 's275',
        thickness: 6,
      },
    },
    {
      title:
        'Odd on purpose: an outline of its own, round opening, notch round a pipe, slotted pick-up, one hand',
      inputs: {
        name: 'tower-cap',
        points: 'A: 0,0; B: 95,12; C: 30,88; M: 42,36; K: 108,70',
        pickups: 'M: 48; K: none; C: 10x18@35',
        edge: 9,
        outline: '-20,-22 r18; 118,-10 r12; 124,60; 98,112 arc; 50,118; -22,108 r25',
        notch: 'K',
        notchWidth: 16,
        return: 'bottom',
        returnHeight: 22,
        returnDirection: 'down',
        cornerRadius: 6,
        material: '5754-h111',
        thickness: 3,
        hand: 'left',
      },
    },
  ],
  build: strutBrace,
});
