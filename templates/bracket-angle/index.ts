import { defineTemplate, fields, stripPart } from '../../src/template.ts';

/** An angle: two legs and one fold. Leg A stays put, leg B is folded up. */
export default defineTemplate({
  family: 'bracket-angle',
  summary: 'Angle bracket: two legs, one fold.',
  sketch: String.raw`
  seen from the left end                 flat
        |  |                        +--------------+
        |  |  leg B                 |    leg B     |
        |  |                        |- - - A  - - -|
   _____|  |                        |    leg A     |
  |________/                        +--------------+
     leg A                               width
`,
  inputs: {
    ...fields.group('Sizes', {
      legA: fields.length({
        about: 'Leg A, from its free edge to the fold.',
        min: 1,
        max: 6000,
        example: 60,
      }),
      legB: fields.length({
        about: 'Leg B, from its free edge to the fold.',
        min: 1,
        max: 6000,
        example: 40,
      }),
      width: fields.length({
        about: 'Width of the bracket, along the fold.',
        min: 1,
        max: 6000,
        example: 80,
      }),
      bendAngle: fields.angle({
        about: 'How far the metal is turned: 90 makes a square bracket.',
        min: 0.5,
        max: 180,
        default: 90,
      }),
    }),
    ...fields.group('Holes', {
      holesA: fields.holes({ about: 'Holes in leg A' }),
      holesB: fields.holes({ about: 'Holes in leg B' }),
    }),
  },
  cautions: ['sharp-edges', 'load-bearing'],
  examples: [
    {
      title: 'Bracket under the seat post of the cart',
      inputs: {
        name: 'seat-post',
        legA: 60,
        legB: 40,
        width: 80,
        material: 's275',
        thickness: 3,
        holesA: '35,20,M8; 35,60,M8',
        holesB: '22,40,8x20',
      },
    },
    {
      title: 'Holder for the lamp at the tow bar, leaning back 30 degrees, one for each side',
      inputs: {
        name: 'tow-bar-lamp',
        legA: '2 1/2"',
        legB: 45,
        width: 50,
        bendAngle: 60,
        material: 'dx51d',
        thickness: 1.5,
        cornerRadius: 6,
        hand: 'both',
        holesB: '24,25,RN6',
      },
    },
    {
      title: 'Odd on purpose: a wide lip of soft aluminium, folded past square, inside dimensions',
      inputs: {
        name: 'crate-lip',
        legA: '120-2*3',
        legB: 15,
        width: 400,
        bendAngle: 135,
        material: '1050a-h14',
        thickness: 2,
        radius: 3,
        measure: 'inside',
        rule: 'k:0.42',
        hand: 'right',
      },
    },
  ],
  build: (v) =>
    stripPart(
      v,
      v.width,
      [
        { id: 'leg A', lengthMm: v.legA, input: 'legA', holes: ['holesA', v.holesA] },
        { id: 'leg B', lengthMm: v.legB, input: 'legB', holes: ['holesB', v.holesB] },
      ],
      [{ angleDeg: v.bendAngle, input: 'bendAngle', direction: 'up' }],
      'leg A',
    ),
});
