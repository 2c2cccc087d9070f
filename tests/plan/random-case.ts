import fc from 'fast-check';
import { readCase } from '../../src/plan/of-panels/panels.ts';
import type { FoldingCase } from './cases.ts';

type Point = readonly [number, number];

/**
 * A rectangle in the flat, by its middle of one side, the way out from there, its width and its
 * depth.
 */
interface Rectangle {
  readonly at: Point;
  readonly out: Point;
  readonly width: number;
  readonly depth: number;
}

interface Growth {
  readonly panel: number;
  readonly edge: number;
  readonly inset: number;
  readonly depth: number;
  readonly angle: number;
}

const growth = fc.record({
  panel: fc.nat(6),
  edge: fc.nat(2),
  inset: fc.constantFrom(0, 4, 4, 15),
  depth: fc.constantFrom(9, 15, 25, 40, 60, 120),
  angle: fc.constantFrom(90, 90, 90, 45, 120, -90, -90, -45),
});

const MACHINES = [
  'boxpan-1250x2.0',
  'boxpan-1250x2.0',
  'straight-2000x1.5',
  'pressbrake-1250',
] as const;

/** Trees of rectangles that do not lie over each other in the flat, on any of the machines. */
export const randomCase = (mostFolds: number): fc.Arbitrary<FoldingCase> =>
  fc
    .record({
      base: fc.tuple(fc.constantFrom(60, 150, 300), fc.constantFrom(40, 120, 250)),
      growths: fc.array(growth, { minLength: 1, maxLength: mostFolds }),
      profile: fc.constantFrom(...MACHINES),
    })
    .map(({ base: [width, depth], growths, profile }) =>
      grow({ at: [0, 0], out: [0, 1], width, depth }, growths, profile),
    )
    .filter((c) => readCase(c).ok);

function grow(
  base: Rectangle,
  growths: readonly Growth[],
  profile: (typeof MACHINES)[number],
): FoldingCase {
  const panels = [base];
  const used = new Set<string>();
  const bends: FoldingCase['part']['bends'][number][] = [];
  for (const { panel, edge, inset, depth, angle } of growths) {
    const parent = panel % panels.length;
    const side = edgesOf(panels[parent] as Rectangle, parent === 0)[edge] as Rectangle;
    const width = side.width - 2 * inset;
    if (used.has(`${parent} ${edge}`) || width < 10) continue;
    used.add(`${parent} ${edge}`);
    const child = { ...side, width, depth };
    bends.push({
      id: `b${bends.length}`,
      parent: `p${parent}`,
      child: `p${panels.length}`,
      line: lineOf(child),
      angle_deg: angle,
    });
    panels.push(child);
  }
  return {
    id: 'random',
    machine: { profile, settings: SETTINGS[profile] },
    part: {
      thickness_mm: 1.5,
      root: 'p0',
      panels: panels.map((r, i) => ({ id: `p${i}`, pieces: [cornersOf(r)] })),
      bends,
    },
    expected: { feasible: false },
  };
}

const SETTINGS = {
  'boxpan-1250x2.0': { nose_setback_mm: 2, overbend_deg: 5, leaf_bar_fitted: true },
  'straight-2000x1.5': { nose_setback_mm: 1.5, overbend_deg: 5, leaf_bar_fitted: true },
  'pressbrake-1250': { V_mm: 12, punch: 'straight', punch_height_mm: 130, overbend_deg: 2 },
} as const;

const along = (p: Point, v: Point, k: number): Point => [p[0] + k * v[0], p[1] + k * v[1]];
const rightOf = ([x, y]: Point): Point => [y, -x];

const lineOf = ({ at, out, width }: Rectangle): readonly [Point, Point] => [
  along(at, rightOf(out), -width / 2),
  along(at, rightOf(out), width / 2),
];

const cornersOf = (r: Rectangle): Point[] => {
  const [a, b] = lineOf(r);
  return [a, b, along(b, r.out, r.depth), along(a, r.out, r.depth)];
};

/** The far side and the two beside it; of the base, whose near side is free, three of its four. */
const edgesOf = ({ at, out, width, depth }: Rectangle, isBase: boolean): Rectangle[] => {
  const right = rightOf(out);
  const left: Point = [-right[0], -right[1]];
  const half = along(at, out, depth / 2);
  return [
    { at: along(at, out, depth), out, width, depth: 0 },
    { at: along(half, right, width / 2), out: right, width: depth, depth: 0 },
    isBase
      ? { at, out: [-out[0], -out[1]], width, depth: 0 }
      : { at: along(half, left, width / 2), out: left, width: depth, depth: 0 },
  ];
};
