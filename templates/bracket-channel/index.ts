import { between, defineTemplate, fields, FROM_LEFT, stripPart } from '../../src/template.ts';

/** A channel: a web with a flange folded up at either side. */
export default defineTemplate({
  family: 'bracket-channel',
  summary: 'Channel bracket: a web with two flanges folded up.',
  sketch: String.raw`
  seen from the left end                 flat
   | |              | |             +--------------+
   | | flange       | | flange      |   flange B   |
   | |   A          | |   B         |- - - B  - - -|
   | |______________| |             |     web      |
    \________________/              |- - - A  - - -|
           web                      |   flange A   |
                                    +--------------+
                                         width
`,
  inputs: {
    ...fields.group('Sizes', {
      web: fields.length({ about: 'Web, over both flanges.', min: 1, max: 6000, example: 80 }),
      flangeA: fields.length({
        about: 'Flange A, from its free edge to its fold.',
        min: 1,
        max: 6000,
        example: 40,
      }),
      flangeB: fields.length({
        about: 'Flange B, from its free edge to its fold.',
        min: 1,
        max: 6000,
        example: 40,
      }),
      width: fields.length({
        about: 'Width of the bracket, along the folds.',
        min: 1,
        max: 6000,
        example: 60,
      }),
      bendAngle: fields.angle({
        about: 'How far each flange is turned: 90 makes a square channel.',
        min: 0.5,
        max: 180,
        default: 90,
      }),
    }),
    ...fields.group('Holes', {
      holesWeb: fields.holes({
        about: 'Holes in the web',
        axes: [between('flange A', 'flange B'), FROM_LEFT],
      }),
      holesA: fields.holes({ about: 'Holes in flange A' }),
      holesB: fields.holes({ about: 'Holes in flange B' }),
    }),
  },
  cautions: ['sharp-edges', 'load-bearing'],
  examples: [
    {
      title: 'Shoe for the posts of the grape crate rack',
      inputs: {
        name: 'rack-post-shoe',
        web: 86,
        flangeA: 50,
        flangeB: 50,
        width: 70,
        material: 's235',
        thickness: 3,
        holesA: '30,35,M10',
        holesB: '30,35,M10',
        holesWeb: '43,35,M12',
      },
    },
    {
      title: 'Clip for the brake hose along the drawbar',
      inputs: {
        name: 'hose-clip',
        web: 30,
        flangeA: 14,
        flangeB: 14,
        width: 25,
        material: 'dx51d',
        thickness: 1,
        quantity: 12,
        holesWeb: '15,12.5,5.5',
        cornerRadius: 3,
      },
    },
    {
      title: 'Odd on purpose: a shallow trough with unequal wings and a slot on the skew',
      inputs: {
        name: 'hopper-trough',
        web: '4in',
        flangeA: 60,
        flangeB: '1 1/2in',
        width: 300,
        bendAngle: 30,
        material: '1.4301',
        thickness: 1.5,
        rule: 'k:0.42',
        holesWeb: '2in,150,10x40@30',
      },
    },
  ],
  build: (v) =>
    stripPart(
      v,
      v.width,
      [
        { id: 'flange A', lengthMm: v.flangeA, input: 'flangeA', holes: ['holesA', v.holesA] },
        { id: 'web', lengthMm: v.web, input: 'web', holes: ['holesWeb', v.holesWeb] },
        { id: 'flange B', lengthMm: v.flangeB, input: 'flangeB', holes: ['holesB', v.holesB] },
      ],
      [
        { angleDeg: v.bendAngle, input: 'bendAngle', direction: 'up' },
        { angleDeg: v.bendAngle, input: 'bendAngle', direction: 'up' },
      ],
      'web',
    ),
});
