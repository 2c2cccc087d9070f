import type { Groups } from './saved-entities.ts';

export type Clutter = (typeof CLUTTER)[number]['kind'];

/** What stands in files of other programs beside what is cut, none of it a line of the part. */
export const CLUTTER = [
  {
    /** The sheet of paper that the drawing is plotted on. */
    kind: 'frame',
    entities: [
      ...[0, 'VIEWPORT', 8, 'FRAME', 67, 1, 10, 100, 20, 100, 40, 200, 41, 100],
      ...[0, 'LINE', 8, 'FRAME', 67, 1, 10, 0, 20, 0, 11, 297, 21, 0],
      ...[0, 'TEXT', 8, 'FRAME', 67, 1, 10, 5, 20, 5, 40, 3, 1, 'sheet 1'],
    ],
  },
  {
    kind: 'hatch',
    entities: [
      ...[0, 'HATCH', 8, 'HATCH', 10, 0, 20, 0, 30, 0, 2, 'SOLID', 70, 1, 71, 0, 91, 1, 92, 2],
      ...[
        72, 0, 73, 1, 93, 3, 10, 1, 20, 1, 10, 5, 20, 1, 10, 3, 20, 4, 97, 0, 75, 0, 76, 1, 98, 0,
      ],
      ...[0, 'SOLID', 8, 'OUTLINE', 10, 1, 20, 1, 11, 2, 21, 1, 12, 1, 22, 2, 13, 2, 23, 2],
    ],
  },
  {
    kind: 'dimension',
    entities: [
      ...[0, 'DIMENSION', 8, 'DIM', 2, '*D1', 10, 0, 20, -10, 11, 40, 21, -10, 70, 32, 42, 80],
      ...[13, 0, 23, 0, 14, 80, 24, 0],
      ...[0, 'POINT', 8, 'Defpoints', 10, 0, 20, 0],
      ...[0, 'MTEXT', 8, '0', 10, 0, 20, -20, 40, 3, 1, '\\A1;80 \\Pacross'],
    ],
  },
  {
    kind: 'frozen',
    entities: [0, 'LINE', 8, 'CONSTRUCTION', 10, -500, 20, 3, 11, 500, 21, 3],
  },
] as const satisfies readonly { readonly kind: string; readonly entities: Groups }[];
