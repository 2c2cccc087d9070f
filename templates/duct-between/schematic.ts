import { arcPoints, polar, type Schematic } from '../../src/template.ts';
import type { SchematicLine, SchematicSize, Vec2 } from '../../src/template.ts';
import type { DuctBetween } from './inputs.ts';

/** How far the far opening is turned in the pictures, degrees. */
const TURNED_DEG = 30;

/**
 * Where the far opening is, by the figures that say so: from the right, and from above beside the
 * view from beyond it. By measured points there is only how its shape is turned.
 */
export const betweenSchematics = ({ farAt }: Pick<DuctBetween, 'farAt'>): readonly Schematic[] => {
  const beyond = fromBeyond();
  if (farAt !== undefined) return [{ of: 'view from beyond', ...beyond }];
  const above = fromAbove();
  return [
    { of: 'view from the right', ...fromTheRight() },
    {
      of: 'views from above and from beyond',
      lines: [...above.lines, ...beyond.lines],
      sizes: [...above.sizes, ...beyond.sizes],
    },
  ];
};

type View = Pick<Schematic, 'lines' | 'sizes'>;

/** An opening seen along its plane: the ends of a line through its middle, square to a direction. */
const endsOf = (middle: Vec2, half: number, facesDeg: number): readonly [Vec2, Vec2] => [
  polar(middle, half, facesDeg + 90),
  polar(middle, half, facesDeg - 90),
];

/** Both openings seen along their planes, with the walls, and a line from either middle. */
const walls = (
  [near, nearDeg]: readonly [Vec2, number],
  [far, farDeg]: readonly [Vec2, number],
): SchematicLine[] => {
  const [a, b] = endsOf(near, 20, nearDeg);
  const [c, d] = endsOf(far, 13, farDeg);
  return [
    { points: [a, b, d, c, a] },
    { points: [near, polar(near, 16, nearDeg)], as: 'centre' },
    { points: [far, polar(far, 30, farDeg)], as: 'centre' },
  ];
};

/** Near stands on the left, and up is up. */
const fromTheRight = (): View => {
  const [near, far] = [
    [16, 36],
    [62, 50],
  ] as const;
  return {
    lines: walls([near, 0], [far, TURNED_DEG]),
    sizes: [
      between('length', [near[0], 7], [far[0], 7], [polar(near, 20, -90), far]),
      between('offsetUp', [102, near[1]], [102, far[1]], [near, far]),
      { input: 'faceUp', at: far, radius: 28, fromDeg: 0, toDeg: TURNED_DEG },
    ],
  };
};

/** Near lies below, and right is right. */
const fromAbove = (): View => {
  const [near, far] = [
    [24, 18],
    [38, 46],
  ] as const;
  return {
    lines: walls([near, 90], [far, 90 - TURNED_DEG]),
    sizes: [
      between('offsetRight', [near[0], 7], [far[0], 7], [near, far]),
      { input: 'faceRight', at: far, radius: 28, fromDeg: 90 - TURNED_DEG, toDeg: 90 },
    ],
  };
};

/** The far opening turned before the near one, of which the hidden edges show. */
const fromBeyond = (): View => {
  const middle: Vec2 = [84, 42];
  const box = (w: number, h: number, deg: number): readonly Vec2[] =>
    [
      [w, h],
      [-w, h],
      [-w, -h],
      [w, -h],
      [w, h],
    ].map(([x = 0, y = 0]) => polar(polar(middle, x, deg), y, deg + 90));
  return {
    lines: [
      { points: box(12, 8, TURNED_DEG) },
      { points: box(20, 20, 0), as: 'hidden' },
      { points: arcPoints(middle, 1, 0, 360), as: 'thin' },
    ],
    sizes: [{ input: 'farTurn', at: middle, radius: 15, fromDeg: 0, toDeg: TURNED_DEG }],
  };
};

const between = (
  input: string,
  from: Vec2,
  to: Vec2,
  feet: readonly [Vec2, Vec2],
): SchematicSize => ({ input, from, to, feet });
