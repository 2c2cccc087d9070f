import { defineTemplate, fields } from '../../src/template.ts';
import { ring } from './build.ts';

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
  inputs: {
    shape: fields.choice({
      about: 'Outer shape; the corners of a square one are rounded by cornerRadius.',
      choices: ['round', 'square'],
      default: 'round',
    }),
    outer: fields.length({
      about: 'Outer diameter of a round one, or width of a square one.',
      min: 5,
      max: 3000,
      example: 120,
    }),
    outerHeight: fields.optionalLength({
      about: 'Height of a square one that is not as high as wide.',
      min: 5,
      max: 3000,
      example: 90,
      otherwise: 'the width',
    }),
    inner: fields.length({
      about: 'Diameter of the hole in the middle, 0 for a blanking plate.',
      min: 0,
      max: 3000,
      default: 0,
      example: 70,
    }),
    bolts: fields.count({
      about: 'Number of holes evenly round the bolt circle, 0 for none.',
      min: 0,
      max: 60,
      default: 6,
    }),
    boltCircle: fields.length({
      about: 'Diameter of the circle through the middles of the bolt holes.',
      min: 1,
      max: 3000,
      example: 95,
    }),
    boltHole: fields.length({
      about: 'Diameter of the bolt holes.',
      min: 0.5,
      max: 200,
      default: 5.5,
    }),
    boltStart: fields.angle({
      about: 'Where the first bolt hole lies, counter-clockwise from the right.',
      min: 0,
      max: 360,
      default: 90,
    }),
    holes: fields.holes({
      about: 'More holes',
      axes: [
        { from: 'up', at: 'from the centre upward', isDirection: true },
        { from: 'right', at: 'from the centre to the right', isDirection: true },
      ],
    }),
  },
  cautions: ['sharp-edges'],
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
