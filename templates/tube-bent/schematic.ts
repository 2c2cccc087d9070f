import {
  arcPoints,
  polar,
  ringLines,
  type Schematic,
  type SchematicSize,
  tubeLines,
} from '../../src/template.ts';
import type { Values } from './centre-line.ts';

/** The tube by its own measures, and what lies at its ends and in the bender. */
export const bentSchematics = (v: Values): readonly Schematic[] => [
  v.span === undefined ? byLegs() : hoop(),
  endsAndBender(),
];

const WIDTH = 6;

/** A section of the tube, with its two measures. */
const section = ([x, y]: readonly [number, number]): Schematic => ({
  lines: ringLines([x, y], 9, 6.5),
  sizes: [
    {
      input: 'diameter',
      from: [x - 9, y - 14],
      to: [x + 9, y - 14],
      feet: [
        [x - 9, y],
        [x + 9, y],
      ],
    },
    { input: 'wall', from: polar([x, y], 6.5, 0), to: polar([x, y], 9, 0) },
  ],
});

const together = (of: string, ...all: readonly Schematic[]): Schematic => ({
  of,
  lines: all.flatMap(({ lines }) => lines),
  sizes: all.flatMap(({ sizes }) => sizes),
});

const LEAN_DEG = 8;
const FEET = [
  [20, 18],
  [86, 18],
] as const;
const TOP = 70;
const ROUND = 12;

const hoop = (): Schematic => {
  const [left, right] = FEET;
  const upper = ROUND * Math.tan(((90 - LEAN_DEG) / 2) * (Math.PI / 180));
  const inMm = (TOP - WIDTH / 2 - left[1]) * Math.tan((LEAN_DEG * Math.PI) / 180);
  const y = TOP - WIDTH / 2;
  const centres = [
    [left[0] + inMm + upper, y - ROUND],
    [right[0] - inMm - upper, y - ROUND],
  ] as const;
  const sizes: SchematicSize[] = [
    { input: 'span', from: [left[0], 8], to: [right[0], 8], feet: FEET },
    {
      input: 'height',
      from: [100, right[1]],
      to: [100, TOP],
      feet: [right, [centres[1][0], TOP]],
    },
    { input: 'lean', at: left, radius: 30, fromDeg: 90 - LEAN_DEG, toDeg: 90 },
    { input: 'radius', from: centres[0], to: polar(centres[0], ROUND, 130) },
  ];
  const lines = tubeLines(
    [
      left,
      ...arcPoints(centres[0], ROUND, 180 - LEAN_DEG, 90),
      ...arcPoints(centres[1], ROUND, 90, LEAN_DEG),
      right,
    ],
    WIDTH,
  );
  return together('hoop', { lines, sizes }, section([56, 42]));
};

/** Three legs; their points or lengths are a list of their own and have no letter. */
const byLegs = (): Schematic =>
  together(
    'line',
    {
      lines: tubeLines(
        [
          [12, 20],
          ...arcPoints([38, 32], 14, 150, 90),
          ...arcPoints([62, 60], 14, 270, 360),
          [76, 78],
        ],
        WIDTH,
      ),
      sizes: [{ input: 'radius', from: [62, 60], to: polar([62, 60], 14, 315) }],
    },
    section([84, 34]),
  );

const MIDDLE = 52;
const HALF = 5;

/** The straight tube with a face at either end, and with what the bender needs of it under it. */
const endsAndBender = (): Schematic => {
  const edges = ([from, to]: readonly [number, number]) =>
    [MIDDLE - HALF, MIDDLE + HALF].map((y) => ({
      points: [
        [from, y],
        [to, y],
      ] as const,
    }));
  const end = (x: number, way: 1 | -1, name: 'lead' | 'tail'): Schematic => ({
    lines: [
      // A face that the tube does not meet squarely, and its normal.
      { points: [polar([x, MIDDLE], 13, 110), polar([x, MIDDLE], 13, 290)] },
      ...[MIDDLE - HALF, MIDDLE + HALF].map((y) => ({
        points: [
          [x, y],
          [x - 10 * way, y],
        ] as const,
        as: 'hidden' as const,
      })),
      {
        points: [
          [x - 10 * way, MIDDLE - HALF],
          [x - 10 * way, MIDDLE + HALF],
        ],
        as: 'hidden',
      },
    ],
    sizes: [
      {
        input: `${name}Trim`,
        from: [x - 10 * way, MIDDLE - 12],
        to: [x, MIDDLE - 12],
        feet: [
          [x - 10 * way, MIDDLE],
          [x, MIDDLE],
        ],
      },
      way === 1
        ? { input: `${name}Face`, at: [x, MIDDLE], radius: 22, fromDeg: 0, toDeg: 20 }
        : { input: `${name}Face`, at: [x, MIDDLE], radius: 22, fromDeg: 180, toDeg: 200 },
    ],
  });
  const [clamp, tangent, mark, behind] = [34, 50, 56, 76];
  const bender: Schematic = {
    lines: [
      ...edges([16, 94]),
      {
        points: [
          [clamp, MIDDLE + HALF],
          [clamp, 66],
          [tangent, 66],
          [tangent, MIDDLE + HALF],
        ],
      },
      {
        points: [
          [mark, MIDDLE - HALF],
          [mark, MIDDLE + HALF],
        ],
        as: 'thin',
      },
      {
        points: [
          [tangent, MIDDLE - HALF - 2],
          [tangent, 18],
        ],
        as: 'thin',
      },
      {
        points: [
          [mark, MIDDLE - HALF - 2],
          [mark, 30],
        ],
        as: 'thin',
      },
    ],
    sizes: [
      {
        input: 'clamp',
        from: [clamp, 74],
        to: [tangent, 74],
        feet: [
          [clamp, 66],
          [tangent, 66],
        ],
      },
      { input: 'reference', from: [tangent, 32], to: [mark, 32] },
      {
        input: 'follower',
        from: [tangent, 18],
        to: [behind, 18],
        feet: [
          [tangent, 20],
          [behind, MIDDLE - HALF],
        ],
      },
    ],
  };
  return together('ends and bender', bender, end(16, 1, 'lead'), end(94, -1, 'tail'));
};
