import { between, defineTemplate, fields, FROM_LEFT, stripPart } from '../../src/template.ts';

/**
 * A zed: two flanges that point opposite ways, with a web between them. Flange A stays put; the
 * first fold goes up, the second down.
 */
export default defineTemplate({
  family: 'bracket-zed',
  summary: 'Zed bracket: two flanges on either side of an offset.',
  sketch: String.raw`
  seen from the left end                 flat
                flange B            +--------------+
               _________            |   flange B   |
              /_________|  ^        |- - - B  - - -|
              | |          |        |     web      |
   ___________| |          offset   |- - - A  - - -|
  |_____________/          v        |   flange A   |
     flange A                       +--------------+
                                         width
`,
  inputs: {
    ...fields.group('Sizes', {
      flangeA: fields.length({
        about: 'Flange A, from its free edge to its fold.',
        min: 1,
        max: 6000,
        example: 40,
      }),
      offset: fields.length({
        about:
          'Length of the web between its folds, along itself: with square bends the height over both flanges.',
        min: 1,
        max: 6000,
        example: 50,
      }),
      flangeB: fields.length({
        about: 'Flange B, from its free edge to its fold.',
        min: 1,
        max: 6000,
        example: 30,
      }),
      width: fields.length({
        about: 'Width of the bracket, along the folds.',
        min: 1,
        max: 6000,
        example: 60,
      }),
      bendAngle: fields.angle({
        about: 'How far the metal is turned at each fold: 90 makes a square zed.',
        min: 0.5,
        max: 180,
        default: 90,
      }),
    }),
    ...fields.group('Holes', {
      holesA: fields.holes({ about: 'Holes in flange A' }),
      holesWeb: fields.holes({
        about: 'Holes in the web',
        axes: [between('flange A', 'flange B'), FROM_LEFT],
      }),
      holesB: fields.holes({ about: 'Holes in flange B' }),
    }),
  },
  cautions: ['sharp-edges', 'load-bearing'],
  examples: [
    {
      title: 'Step that lifts the tool box over the chassis rail',
      inputs: {
        name: 'tool-box-step',
        flangeA: 40,
        offset: 50,
        flangeB: 30,
        width: 60,
        material: 's235',
        thickness: 2,
        radius: 2.5,
        rule: 'k:0.42',
        holesA: '24,30,M8',
        holesB: '18,30,M6',
      },
    },
    {
      title: 'Jog of one sheet thickness for the lap of the floor plates',
      inputs: {
        name: 'floor-lap',
        flangeA: 40,
        offset: 12,
        flangeB: 40,
        width: 500,
        bendAngle: 45,
        material: 'dc01',
        thickness: 1.5,
        holesA: '25,50,5x15;25,450,5x15',
      },
    },
    {
      title:
        'Odd on purpose: folded back past square on both sides, for the right-hand ladder hook',
      inputs: {
        name: 'ladder-hook',
        flangeA: '3"',
        offset: '4"',
        flangeB: '1 1/2"',
        width: 40,
        bendAngle: 120,
        material: 's355',
        thickness: 5,
        hand: 'right',
        cornerRadius: 10,
        holesA: '50,20,M12',
      },
    },
  ],
  build: (v) =>
    stripPart(
      v,
      v.width,
      [
        { id: 'flange A', lengthMm: v.flangeA, input: 'flangeA', holes: ['holesA', v.holesA] },
        { id: 'web', lengthMm: v.offset, input: 'offset', holes: ['holesWeb', v.holesWeb] },
        { id: 'flange B', lengthMm: v.flangeB, input: 'flangeB', holes: ['holesB', v.holesB] },
      ],
      [
        { angleDeg: v.bendAngle, input: 'bendAngle', direction: 'up' },
        { angleDeg: v.bendAngle, input: 'bendAngle', direction: 'down' },
      ],
      'flange A',
    ),
});
