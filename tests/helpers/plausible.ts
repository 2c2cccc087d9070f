import type { InputDescription } from '../../src/forms/read.ts';

/**
 * Values of an input that a user may well give and that may well be wrong: its limits, a slip of a
 * factor, the value of another length, each of its choices, a hole off the panel or on the next
 * one, points that are not there.
 */

type Inputs = Readonly<Record<string, unknown>>;

const TEXTS: Readonly<Record<string, readonly unknown[]>> = {
  outline: [
    '0,0; 40,0; 40,30; 0,30',
    '0,0; 120,0; 120,80 r40; 0,80',
    'X1; X2; X3',
    '-100,-100; 200,-100; 200,200; -100,200',
    '0,0; 120,0; 60,5 arc; 0,80',
  ],
  folds: [
    '-10,35 150,40 90 up',
    '0,1 200,1 90 up',
    '0,0 100,0 90 up',
    '500,500 600,500 90 up',
    '20,30 40,30 90 up',
    '0,30 120,30 90 up; 60,0 60,200 90 up',
    '0,30 300,30 180 up',
    '0,30 300,30 90 up joggle4',
    '0,30 300,30 90 up slots',
    'A B 90 up',
    '0,30 300,30 90 up; 0,31 300,31 90 up',
    '0,30 300,30 90 up r50',
    '0,30 300,30 90 up r0',
  ],
  cutouts: ['40,20; 60,20; 55,45', '-20,20; 60,20; 55,45', '500,20; 560,20; 555,45'],
  points: [
    'A: 0,0; B: 90,0; C: 40,70; P: 120,60',
    'A: 0,0; B: 1,0; C: 0,1',
    'A: 0,0',
    'A: 0,0; B: 50,0; C: 100,0',
    'A-B: 140; A-C: 150; B-C: 150',
  ],
  pointHoles: ['A: M8', 'Z: M8', 'A: 200', 'A: none'],
  pointHole: ['M8', '200'],
  boltHole: ['M8', '8x20@35', '200'],
  pickups: ['A: M12', 'A: none; B: none; C: none', 'Z: 12', 'A: 200'],
  crease: ['A B', 'A A', 'A Z', '20,-50 60,120', '500,500 600,500'],
  return: ['A-B', 'bottom', 'left', 'top', 'right', 'A-Z'],
  notch: ['A', '20,-20', '90,30', '500,500', 'Z', '55,-12'],
  saddle: ['B', '60,30', 'Z'],
  saddleHole: ['6x12', '100'],
  rule: ['k:0.42', 'faa', 'mh2', 'k:0', 'measured'],
  material: ['1.4301', '5754-h22'],
  thickness: [0.5, 1, 3, 6, 10, 25],
  radius: [0, 1, 10, 30, 100, 1000],
};

const HOLES = [
  '5,5,M8',
  '500,20,M8',
  '20,500,M8',
  '0,0,10',
  '30,30,300',
  '-20,20,M6',
  '30,30,M8; 32,30,M8',
  '30,30,grid 3 x 3 pitch 5 4',
];

export function plausibleValues(
  input: InputDescription,
  given: Inputs,
  all: readonly InputDescription[],
): readonly unknown[] {
  const texts = TEXTS[input.name];
  // `boltHole` is a size as text in one family and a length in others.
  if (texts !== undefined && !(input.kind === 'length' && input.name !== 'radius')) return texts;
  switch (input.kind) {
    case 'length':
      return lengthsOf(input, given, all);
    case 'angle':
      return within(input, [
        input.minimum,
        input.maximum,
        -30,
        -10,
        0,
        1,
        5,
        30,
        45,
        89,
        91,
        120,
        135,
        150,
        175,
        180,
      ]);
    case 'count':
      return within(input, [input.minimum, input.maximum, 1, 2, 3, 5, 10, 50, 80]);
    case 'choice':
      return input.choices ?? [];
    case 'flag':
      return ['yes', 'no'];
    case 'holes':
      return HOLES;
    default:
      return [];
  }
}

function lengthsOf(
  input: InputDescription,
  given: Inputs,
  all: readonly InputDescription[],
): readonly unknown[] {
  const own = given[input.name] ?? input.default;
  const mm = typeof own === 'number' ? own : 20;
  const others = all
    .filter(({ kind, name }) => kind === 'length' && name !== input.name)
    .map(({ name }) => given[name])
    .filter((v) => typeof v === 'number');
  const lengths = within(input, [
    input.minimum,
    input.maximum,
    mm / 4,
    mm / 2,
    mm * 2,
    mm * 4,
    ...others,
    1,
    3,
    10,
    30,
    100,
  ]);
  // The same values as a tape in inches gives them.
  return [
    ...lengths,
    ...lengths.slice(0, 3).map((v) => `${Math.round((v / 25.4) * 1000) / 1000}in`),
  ];
}

const within = (
  { minimum = -Infinity, maximum = Infinity }: InputDescription,
  values: readonly (number | undefined)[],
): number[] => [
  ...new Set(values.filter((v): v is number => v !== undefined && v >= minimum && v <= maximum)),
];

const NOT_OF_THE_SHAPE = new Set(['name', 'quantity']);

/**
 * A number from 0 to 1 that follows from the last one, the same at every run (Park and Miller's
 * minimal standard generator).
 */
export function steadyChance(seed: number): () => number {
  let at = seed;
  return () => {
    at = (at * 48_271) % 2_147_483_647;
    return at / 2_147_483_647;
  };
}

/** `count` sets of inputs, each an example with one or two inputs changed; the same for a seed. */
export function plausibleInputs(
  inputs: readonly InputDescription[],
  examples: readonly Inputs[],
  count: number,
  seed: number,
): Inputs[] {
  const chance = steadyChance(seed);
  const pick = <T>(from: readonly T[]): T => from[Math.floor(chance() * from.length)] as T;
  const shaping = inputs.filter(({ name }) => !NOT_OF_THE_SHAPE.has(name));
  const changed = (given: Inputs): Inputs => {
    const input = pick(shaping);
    const values = plausibleValues(input, given, shaping);
    return values.length === 0 ? given : { ...given, [input.name]: pick(values) };
  };
  return Array.from({ length: count }, (_, i) => {
    const once = changed(pick(examples));
    return i % 2 === 0 ? once : changed(once);
  });
}
