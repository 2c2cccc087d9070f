import { between, defineTemplate, fields, FROM_LEFT, stripPart } from '../../src/template.ts';

/**
 * A hat: a crown, two sides folded down from it, and two feet that turn outwards. The crown is the
 * face seen.
 */
export default defineTemplate({
  family: 'bracket-hat',
  summary: 'Hat bracket: a crown on two sides with feet.',
  sketch: String.raw`
  seen from the left end                 flat
            crown                   +--------------+
          _________                 |    foot B    |
         /_________\     ^          |- - - D  - - -|
         | |     | |     |          |    side B    |
  side A | |     | |   height       |- - - C  - - -|
   ______| |     | |______          |    crown     |
  |________/     \________|  v      |- - - B  - - -|
    foot A          foot B          |    side A    |
                                    |- - - A  - - -|
                                    |    foot A    |
                                    +--------------+
`,
  inputs: {
    ...fields.group('Sizes', {
      crown: fields.length({ about: 'Crown, over both sides.', min: 1, max: 6000, example: 50 }),
      height: fields.length({
        about: 'Length of the sides between their folds: with square bends the height over all.',
        min: 1,
        max: 6000,
        example: 30,
      }),
      footA: fields.length({
        about: 'Foot A, from its free edge to its fold.',
        min: 1,
        max: 6000,
        example: 25,
      }),
      footB: fields.length({
        about: 'Foot B, from its free edge to its fold.',
        min: 1,
        max: 6000,
        example: 25,
      }),
      width: fields.length({
        about: 'Width of the bracket, along the folds.',
        min: 1,
        max: 6000,
        example: 60,
      }),
      bendAngle: fields.angle({
        about: 'How far the metal is turned at each fold: 90 makes a square hat.',
        min: 0.5,
        max: 180,
        default: 90,
      }),
    }),
    ...fields.group('Holes', {
      holesCrown: fields.holes({
        about: 'Holes in the crown',
        axes: [between('side A', 'side B'), FROM_LEFT],
      }),
      holesA: fields.holes({
        about: 'Holes in side A',
        axes: [between('crown', 'foot'), FROM_LEFT],
      }),
      holesB: fields.holes({
        about: 'Holes in side B',
        axes: [between('crown', 'foot'), FROM_LEFT],
      }),
      holesFootA: fields.holes({ about: 'Holes in foot A' }),
      holesFootB: fields.holes({ about: 'Holes in foot B' }),
    }),
  },
  cautions: ['sharp-edges', 'load-bearing'],
  examples: [
    {
      title: 'Saddle that holds the water pipe under the floor',
      inputs: {
        name: 'pipe-saddle',
        crown: 60,
        height: 30,
        footA: 25,
        footB: 25,
        width: 40,
        material: 'dx51d',
        thickness: 2,
        radius: 2.5,
        rule: 'k:0.42',
        holesFootA: '14,20,M6',
        holesFootB: '14,20,M6',
      },
    },
    {
      title: 'Stiffener under the floor, sides leaning',
      inputs: {
        name: 'floor-stiffener',
        crown: 60,
        height: 40,
        footA: 30,
        footB: 30,
        width: 900,
        bendAngle: 60,
        material: '5754-h22',
        thickness: 2,
        holesFootA: '18,50,5.2;18,450,5.2;18,850,5.2',
        holesFootB: '18,50,5.2;18,450,5.2;18,850,5.2',
      },
    },
    {
      title: 'Odd on purpose: narrow-necked, feet of different lengths, slots in crown and side',
      inputs: {
        name: 'battery-keeper',
        crown: '5in',
        height: '2in',
        footA: 20,
        footB: 45,
        width: 60,
        bendAngle: 100,
        material: 's235',
        thickness: 3,
        hand: 'both',
        cornerRadius: 8,
        holesCrown: '63.5,30,12x40@90',
        holesA: '25,30,6.6',
        holesFootB: '28,30,M10',
      },
    },
  ],
  build: (v) =>
    stripPart(
      v,
      v.width,
      [
        { id: 'foot A', lengthMm: v.footA, input: 'footA', holes: ['holesFootA', v.holesFootA] },
        {
          id: 'side A',
          lengthMm: v.height,
          input: 'height',
          holes: ['holesA', v.holesA],
          holesFrom: 'above',
        },
        { id: 'crown', lengthMm: v.crown, input: 'crown', holes: ['holesCrown', v.holesCrown] },
        { id: 'side B', lengthMm: v.height, input: 'height', holes: ['holesB', v.holesB] },
        { id: 'foot B', lengthMm: v.footB, input: 'footB', holes: ['holesFootB', v.holesFootB] },
      ],
      (['up', 'down', 'down', 'up'] as const).map((direction) => ({
        angleDeg: v.bendAngle,
        input: 'bendAngle',
        direction,
      })),
      'crown',
    ),
});
