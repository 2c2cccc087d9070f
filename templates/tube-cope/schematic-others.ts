import {
  polar,
  ringLines,
  type Schematic,
  type SchematicLine,
  type SchematicSize,
  tubeLines,
} from '../../src/template.ts';
import type { Values } from './seats.ts';

/** A tube that stands on something whose top lies level: its edges down to that, its end and its axis. */
export const standing = (
  node: readonly [number, number],
  of: { readonly deg: number; readonly width: number; readonly top: number; readonly to: number },
): SchematicLine[] => {
  const end = polar(node, of.to, of.deg);
  const edges = [of.width / 2, -of.width / 2].map((by) => {
    const [from, tip] = [polar(node, by, of.deg + 90), polar(end, by, of.deg + 90)];
    const share = (of.top - from[1]) / (tip[1] - from[1]);
    return [[from[0] + share * (tip[0] - from[0]), of.top], tip] as const;
  });
  return [
    ...edges.map((points) => ({ points })),
    { points: edges.map(([, tip]) => tip) },
    { points: [node, end], as: 'centre' },
  ];
};

/** Another branch that is on the header already. */
export const besideIt = (): Schematic => {
  const [node, other] = [
    [22, 24],
    [40, 24],
  ] as const;
  const [x, y] = [92, 26];
  const tip = polar(other, 48, 45);
  return {
    of: 'another branch',
    lines: [
      ...tubeLines(
        [
          [4, 24],
          [72, 24],
        ],
        16,
        { startsOpen: true, endsOpen: true },
      ),
      ...standing(node, { deg: 80, width: 10, top: 32, to: 46 }),
      ...standing(other, { deg: 45, width: 12, top: 32, to: 42 }),
      ...ringLines([x, y], 10),
      {
        points: [
          [x, y],
          [x, y + 24],
        ],
        as: 'centre',
      },
      { points: [[x, y], polar([x, y], 24, 40)], as: 'centre' },
    ],
    sizes: [
      { input: 'besideApart', from: [node[0], 9], to: [other[0], 9], feet: [node, other] },
      { input: 'besideAngle', at: other, radius: 27, fromDeg: 0, toDeg: 45 },
      { input: 'beside', from: polar(tip, 6, -45), to: polar(tip, 6, 135) },
      { input: 'besideTurn', at: [x, y], radius: 20, fromDeg: 40, toDeg: 90 },
    ],
  };
};

/** The other end: what it sits on, and how it is turned from the first. */
export const otherEnd = (v: Values): Schematic => {
  const node = [66, 56] as const;
  const onHeaderToo = v.other === 'header';
  const [x, y] = [30, 20];
  const [h, hy] = [84, 18];
  return {
    of: 'other end',
    lines: [
      ...tubeLines(
        [
          [6, 56],
          [onHeaderToo ? 57 : 66, 56],
        ],
        12,
        { startsOpen: true, endsOpen: true },
      ),
      ...(onHeaderToo
        ? tubeLines([polar(node, 24, 60), polar(node, 30, 240)], 16, {
            startsOpen: true,
            endsOpen: true,
          })
        : [{ points: [polar(node, 24, 60), polar(node, 30, 240)] }]),
      ...ringLines([x, y], 12),
      {
        points: [
          [x, y],
          [x + 18, y],
        ],
        as: 'centre',
      },
      {
        points: [[x, y], polar([x, y], 18, 300)].map((p) => p as readonly [number, number]),
        as: 'centre',
      },
      ...(onHeaderToo ? besideMiddle([h, hy]) : []),
    ],
    sizes: [
      { input: 'otherAngle', at: node, radius: 20, fromDeg: 180, toDeg: 240 },
      { input: 'clocking', at: [x, y], radius: 16, fromDeg: 300, toDeg: 360 },
      ...(onHeaderToo
        ? ([
            {
              input: 'otherHeader',
              from: polar(polar(node, 20, 60), 8, 150),
              to: polar(polar(node, 20, 60), 8, -30),
            },
            { input: 'otherOffset', from: [104, hy], to: [104, hy + 6] },
          ] satisfies SchematicSize[])
        : []),
    ],
  };
};

/** A branch that passes beside the middle of a header, seen along that. */
const besideMiddle = ([x, y]: readonly [number, number]): SchematicLine[] => [
  ...ringLines([x, y], 12),
  {
    points: [
      [x, y + 6],
      [110, y + 6],
    ],
    as: 'centre',
  },
  {
    points: [
      [x, y],
      [110, y],
    ],
    as: 'centre',
  },
  {
    points: [
      [x + 6, y + 10.4],
      [110, y + 10.4],
    ],
  },
  {
    points: [
      [x + 11.8, y + 2],
      [110, y + 2],
    ],
  },
];
