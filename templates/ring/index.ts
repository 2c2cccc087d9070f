import { defineTemplate } from '../../src/template.ts';
import { ring } from './build.ts';
import { inputs } from './inputs.ts';

/** A flat flange or blanking plate; everything is measured from its centre. */
export default defineTemplate({
  family: 'ring',
  summary: 'Flange ring or blanking plate with a bolt circle, for fillers, senders and outlets.',
  sketch: String.raw`
     shape round                       shape square
        .-----.                     +----------------+ ^
     .'  o   o  '.                  |  o          o  | |
    /    .---.    \                 |     .----.     | |
   | o  | inner| o |  <- boltCircle |    ( inner )   | | outerHeight
    \    '---'    /                 |     '----'     | |
     '.  o   o  .'                  |  o          o  | |
        '-----'                     +----------------+ v
     |<- outer ->|                   <---- outer --->
  The first bolt hole is boltStart degrees counter-clockwise from
  the right.
`,
  inputs,
  when: { cornerRadius: { shape: ['square'] }, cornerChamfer: { shape: ['square'] } },
  cautions: ['sharp-edges', 'tank-opening'],
  examples: [
    {
      title: 'Flange under the filler of the spray tank',
      inputs: {
        name: 'filler-flange',
        outer: 120,
        inner: 62,
        bolts: 6,
        boltCircle: 92,
        material: '1.4301',
        thickness: 3,
      },
    },
    {
      title: 'Square blanking plate over the old lamp opening, with a cable hole beside the middle',
      inputs: {
        name: 'lamp-blank',
        shape: 'square',
        outer: 90,
        bolts: 4,
        boltCircle: 100,
        boltStart: 45,
        boltHole: 6.6,
        cornerRadius: 10,
        material: '5754-h111',
        thickness: 2,
        holes: '-20,0,12.5',
      },
    },
    {
      title:
        'Odd on purpose: sender flange with five bolts turned out of square, a locating hole and an oblong plate',
      inputs: {
        name: 'sender-flange',
        shape: 'square',
        outer: '4in',
        outerHeight: 88,
        inner: 40,
        bolts: 5,
        boltCircle: 56,
        boltStart: 30,
        cornerRadius: 15,
        holes: '0,40,4; 0,-40,5x9@90',
        material: 'dc01',
        thickness: 3,
        hand: 'both',
      },
    },
  ],
  build: ring,
});
