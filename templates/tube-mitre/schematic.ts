import { arcPoints, polar, ringLines, type Schematic } from '../../src/template.ts';

const MIDDLE = [62, 12] as const;
const RADIUS = 36;
const WIDTH = 16;
/** A quarter turn in four pieces: joints at 15, 45 and 75 degrees round the bend. */
const JOINTS = [15, 45, 75];

/** The bend from the side, and the section of its tube. */
export const mitreSchematic = (): Schematic => {
  const reach = RADIUS / Math.cos((15 * Math.PI) / 180);
  const corner = (deg: number, by: number) =>
    polar(MIDDLE, reach + by / Math.cos((15 * Math.PI) / 180), 180 - deg);
  const [start, end] = [
    [MIDDLE[0] - RADIUS, 4],
    [MIDDLE[0] + 16, MIDDLE[1] + RADIUS],
  ] as const;
  const edge = (by: number) => [
    [start[0] - by, start[1]] as const,
    ...JOINTS.map((deg) => corner(deg, by)),
    [end[0], end[1] + by] as const,
  ];
  const half = WIDTH / 2;
  const ring = [96, 28] as const;
  return {
    lines: [
      { points: edge(half) },
      { points: edge(-half) },
      { points: edge(0), as: 'centre' },
      ...JOINTS.map((deg) => ({ points: [corner(deg, -half), corner(deg, half)] })),
      { points: [edge(half)[0], edge(-half)[0]].map((p) => p ?? start) },
      { points: [edge(half).at(-1), edge(-half).at(-1)].map((p) => p ?? end) },
      { points: arcPoints(MIDDLE, RADIUS, 90, 180), as: 'thin' },
      ...ringLines(ring, 9, 6.5),
    ],
    sizes: [
      { input: 'radius', from: MIDDLE, to: polar(MIDDLE, RADIUS, 135) },
      { input: 'turn', at: MIDDLE, radius: 9, fromDeg: 90, toDeg: 180 },
      {
        input: 'first',
        from: [start[0] - half - 6, start[1]],
        to: [start[0] - half - 6, MIDDLE[1]],
        feet: [
          [start[0] - half, start[1]],
          [start[0] - half, MIDDLE[1]],
        ],
      },
      {
        input: 'last',
        from: [MIDDLE[0], end[1] + half + 8],
        to: [end[0], end[1] + half + 8],
        feet: [
          [MIDDLE[0], end[1] + half],
          [end[0], end[1] + half],
        ],
      },
      {
        input: 'diameter',
        from: [ring[0] - 9, 13],
        to: [ring[0] + 9, 13],
        feet: [
          [ring[0] - 9, ring[1]],
          [ring[0] + 9, ring[1]],
        ],
      },
      { input: 'wall', from: polar(ring, 6.5, 90), to: polar(ring, 9, 90) },
    ],
  };
};
