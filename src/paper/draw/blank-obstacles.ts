import { withChords } from '../../geometry/chords.ts';
import type { Loop } from '../../geometry/loop.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import { formMarks } from '../../model/formed.ts';
import type { FlatCutout, FlatPattern } from '../../model/flat.ts';
import type { Fitting } from './dimensioned-blank.ts';
import type { Line2 } from './ground.ts';
import type { Obstacle } from './placer.ts';

/** Chords as near to the rim as this on paper, mm, are good enough to keep texts clear of it. */
const SAG_MM = 0.3;

/** The rim of a loop on paper. */
export const rimLines = (loop: Loop, { at, scale }: Fitting): Line2[] => {
  const points = withChords(loop, SAG_MM / scale).map(({ x, y }) => at([x, y]));
  return points.map((p, i) => [p, points[(i + 1) % points.length] as Vec2]);
};

/** What it costs a name to lie across the outline, a hole and a fold line. */
const OUTLINE_COST = 1500;
const HOLE_COST = 1200;
const FOLD_COST = 1300;

export const blankObstacles = (flat: FlatPattern, fitting: Fitting): Obstacle[] => [
  ...costly(rimLines(flat.outline, fitting), OUTLINE_COST),
  ...flat.cutouts.flatMap((hole) =>
    costly(
      hole.kind === 'loop' ? rimLines(hole.loop, fitting) : crossLines(hole, fitting),
      HOLE_COST,
    ),
  ),
  ...costly(
    [
      ...flat.bends.map(({ centreLine }) => centreLine),
      ...formMarks(flat).map(({ from, to }) => [from, to] as const),
    ].map(([p, q]): Line2 => [fitting.at(p), fitting.at(q)]),
    FOLD_COST,
  ),
];

const costly = (lines: readonly Line2[], cost: number): Obstacle[] =>
  lines.map((line) => ({ line, cost }));

/** Four lines across a round hole, from side to side and from corner to corner of its square. */
const crossLines = (
  { centre, diameterMm }: Extract<FlatCutout, { kind: 'round' }>,
  { at, scale }: Fitting,
): Line2[] => {
  const [[x, y], r] = [at(centre), (diameterMm / 2) * scale];
  return (
    [
      [-r, -r, r, r],
      [-r, r, r, -r],
      [-r, 0, r, 0],
      [0, -r, 0, r],
    ] as const
  ).map(([a, b, c, d]): Line2 => [
    [x + a, y + b],
    [x + c, y + d],
  ]);
};
