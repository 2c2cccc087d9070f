import {
  arcPoints,
  polar,
  ringLines,
  type Schematic,
  type SchematicLine,
  type SchematicSize,
  tubeLines,
} from '../../src/template.ts';
import { besideIt, otherEnd, standing } from './schematic-others.ts';
import type { Values } from './seats.ts';

/** What is asked of a coped tube, a picture for each of its joints. */
export const copeSchematics = (v: Values): readonly Schematic[] => [
  seatOf(v),
  ...(v.on === 'header' && v.beside !== undefined ? [besideIt()] : []),
  ...(v.other === 'square' ? [] : [otherEnd(v)]),
];

const WIDTH = 14;
const LEAN_DEG = 60;

/** The branch on what has its top at a height, with its length and its own measures. */
const branch = (
  node: readonly [number, number],
  top: number,
  to: number,
): { readonly lines: SchematicLine[]; readonly sizes: SchematicSize[] } => {
  const along = (reach: number) => polar(node, reach, LEAN_DEG);
  const aside = (p: readonly [number, number], by: number) => polar(p, by, LEAN_DEG + 90);
  const end = along(to);
  return {
    lines: [...standing(node, { deg: LEAN_DEG, width: WIDTH, top, to })],
    sizes: [
      {
        input: 'length',
        from: aside(node, WIDTH + 4),
        to: aside(end, WIDTH + 4),
        feet: [node, aside(end, WIDTH / 2)],
      },
      {
        input: 'diameter',
        from: polar(aside(end, WIDTH / 2), 7, LEAN_DEG),
        to: polar(aside(end, -WIDTH / 2), 7, LEAN_DEG),
        feet: [aside(end, WIDTH / 2), aside(end, -WIDTH / 2)],
      },
      { input: 'angle', at: node, radius: 26, fromDeg: 0, toDeg: LEAN_DEG },
    ],
  };
};

const seatOf = (v: Values): Schematic => {
  switch (v.on) {
    case 'header':
      return onHeader();
    case 'plate':
      return onPlate();
    case 'bend':
      return onBend();
  }
};

const onHeader = (): Schematic => {
  const node = [28, 20] as const;
  const side = branch(node, 30, 56);
  // Seen along the header: the branch stands beside its middle.
  const [x, y] = [90, 20];
  const wall = [x - 1, x + 1.5, x + 10.5, x + 13] as const;
  return {
    lines: [
      ...tubeLines(
        [
          [4, 20],
          [72, 20],
        ],
        20,
        { startsOpen: true, endsOpen: true },
      ),
      ...side.lines,
      ...ringLines([x, y], 14),
      ...wall.map((at): SchematicLine => ({
        points: [
          [at, y + Math.sqrt(196 - (at - x) ** 2)],
          [at, 56],
        ],
        ...(at === wall[1] || at === wall[2] ? { as: 'hidden' as const } : {}),
      })),
      {
        points: [
          [x, y],
          [x, 70],
        ],
        as: 'centre',
      },
      {
        points: [
          [x + 6, 34],
          [x + 6, 70],
        ],
        as: 'centre',
      },
    ],
    sizes: [
      ...side.sizes,
      { input: 'header', from: [9, 10], to: [9, 30] },
      { input: 'offset', from: [x, 66], to: [x + 6, 66] },
      { input: 'wall', from: [wall[1], 50], to: [wall[0], 50] },
    ],
  };
};

/** The section of the branch, for a seat that has no picture from its end. */
const section = ([x, y]: readonly [number, number]): Pick<Schematic, 'lines' | 'sizes'> => ({
  lines: ringLines([x, y], 9, 6.5),
  sizes: [{ input: 'wall', from: polar([x, y], 6.5, 90), to: polar([x, y], 9, 90) }],
});

const onPlate = (): Schematic => {
  const node = [28, 20] as const;
  const side = branch(node, 20, 56);
  const ring = section([92, 34]);
  return {
    lines: [
      {
        points: [
          [4, 20],
          [80, 20],
          [80, 15],
          [4, 15],
          [4, 20],
        ],
      },
      ...side.lines,
      ...ring.lines,
    ],
    sizes: [...side.sizes, ...ring.sizes],
  };
};

const onBend = (): Schematic => {
  const middle = [34, 2] as const;
  const radius = 30;
  const node = [34, 32] as const;
  const side = branch(node, 39, 44);
  const [x, y] = [92, 26];
  const leaves = polar([x, y], 40, 55);
  return {
    lines: [
      ...tubeLines(
        [
          polar(polar(middle, radius, 145), 20, 235),
          ...arcPoints(middle, radius, 145, 35),
          polar(polar(middle, radius, 35), 14, -55),
        ],
        16,
        { startsOpen: true, endsOpen: true },
      ),
      ...side.lines,
      ...ringLines([x, y], 10),
      {
        points: [
          [x, y],
          [x, y + 26],
        ],
        as: 'centre',
      },
      ...tubeLines([polar([x, y], 10, 55), polar([x, y], 26, 55)], 10, { startsOpen: true }),
      { points: [[x, y], leaves].map((p) => p as readonly [number, number]), as: 'centre' },
    ],
    sizes: [
      ...side.sizes,
      { input: 'bendRadius', from: middle, to: polar(middle, radius, 160) },
      { input: 'bendBefore', at: middle, radius: 17, fromDeg: 90, toDeg: 145 },
      { input: 'bendBehind', at: middle, radius: 17, fromDeg: 35, toDeg: 90 },
      { input: 'bendSide', at: [x, y], radius: 22, fromDeg: 55, toDeg: 90 },
      {
        input: 'header',
        from: [x - 10, 8],
        to: [x + 10, 8],
        feet: [
          [x - 10, y],
          [x + 10, y],
        ],
      },
    ],
  };
};
