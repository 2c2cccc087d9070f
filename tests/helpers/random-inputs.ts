import fc from 'fast-check';
import type { InputDescription } from '../../src/forms/read.ts';

/** Inputs that are a notation of their own. */
const TEXTS: Readonly<Record<string, readonly string[]>> = {
  outline: [
    '0,0; 120,0; 120,80 r6; 0,80 r6',
    '0,0; 90,10; 140,0; 130,70; 60,100 arc; 0,70',
    '0,0; 100,0; 100,60; 70,60; 70,20; 30,20; 30,60; 0,60',
  ],
  folds: [
    '',
    '-10,35 150,40 90 up',
    '60,-10 50,120 30 down r4',
    '75,50 96,45 60 up',
    '-10,35 150,40 45 down joggle4',
    '60,-10 50,120 30 up slots',
  ],
  cutouts: ['', '40,20; 60,20; 55,45', '20,10; 30,10; 30,25; 20,25|70,20; 85,20; 85,30 r3; 70,30'],
  points: [
    'A: 0,0; B: 90,0; C: 40,70; P: 120,60',
    'A-B: 140; A-C: 150; B-C: 150; B-P: 110; A-P: 110; A-B-P: right',
    '0,0; 120,40',
    '30,20',
  ],
  boltHole: ['M8', '8x20@35', '12'],
  pickups: ['', 'A: M12', 'A: none; B: 40', 'A: 10x30'],
  crease: ['A B', '20,-50 60,120', '-10,10 100,30'],
  return: ['A-B', 'bottom', 'left', 'P1-P2'],
  notch: ['A', '20,-20', '90,30'],
  saddle: ['B', '60,30'],
  saddleHole: ['M6', '6x12'],
  near: [
    '120 x 80 r12',
    '100 to 70 x 90',
    'oval 120 x 60',
    'round 90',
    '0,0; 120,0; 110,80 r15; 20,90',
    'A; B; C',
    '0,0; 120,0; 120,40; 50,40; 50,100; 0,100 r20',
  ],
  far: ['round 60', 'round 100', '90 x 60 r10', 'oval 50 x 90', '0,0; 60,10; 50,70 r8; 5,60'],
  nearPoints: ['A: 0,0; B: 90,0; C: 40,70', 'A-B: 140; A-C: 150; B-C: 150'],
  farAt: ['10,20,120; 60,25,110; 5,80,125', '0,0,90; 50,0,90; 0,50,60', '0,0,20; 0,10,90; 9,9,90'],
  nearAt: ['0,0,0; 100,0,0; 0,100,0', '5,3,-10; 105,3,-5; 4,90,-12'],
  consumption: ['8.5', '40 l/h'],
};

/** Values an input allows; mostly of a size that makes sense together, sometimes at its limits. */
function valuesOf(input: InputDescription): fc.Arbitrary<unknown> {
  const [min, max] = [input.minimum ?? 0, input.maximum ?? 1];
  switch (input.kind) {
    case 'length':
    case 'angle':
      return fc.oneof(
        {
          weight: 8,
          arbitrary: fc
            .integer({ min: Math.max(min, 3) * 2, max: Math.min(max, 150) * 2 })
            .map((n) => n / 2),
        },
        { weight: 1, arbitrary: fc.constantFrom(min, max) },
      );
    case 'choice':
      return fc.constantFrom(...(input.choices ?? []));
    case 'holes':
      return fc.constantFrom(
        '',
        '20,15,6.6',
        '25,20,M6;25,60,8x20@35',
        '40,30,grid 2 x 2 pitch 15 4; 40,70,3 off PC 20 5 drill',
        '25,25,square 8@20 for M6; 25,50,M4 tapped',
      );
    case 'material':
      return fc.constantFrom('s235', '5754-h22', '1.4301');
    case 'thickness':
      return fc.constantFrom(1, 2, 3, 6);
    case 'rule':
      return fc.constantFrom('din6935', 'k:0.42', 'mh2', 'faa');
    default:
      return fc.constantFrom(...(TEXTS[input.name] ?? [undefined]));
  }
}

/** Common inputs that matter to the shape are given now and then, the others never. */
const SHAPING = new Set([
  'radius',
  'cornerRadius',
  'cornerChamfer',
  'measure',
  'relief',
  'leastSlot',
  'cornerGap',
  'material',
  'rule',
  'thickness',
]);

/** Random valid inputs of a family, most of them such as make sense together. */
export const inputsOf = (
  inputs: readonly InputDescription[],
): fc.Arbitrary<Record<string, unknown>> =>
  fc.record(
    Object.fromEntries(
      inputs
        .filter((input) => !input.common || SHAPING.has(input.name))
        .map((input) => {
          const small = [
            'radius',
            'cornerRadius',
            'cornerChamfer',
            'leastSlot',
            'cornerGap',
          ].includes(input.name);
          const values = small ? fc.constantFrom(0.5, 1, 3, 8) : valuesOf(input);
          return [
            input.name,
            input.required ? values : fc.option(values, { nil: undefined, freq: 2 }),
          ];
        }),
    ),
  );
