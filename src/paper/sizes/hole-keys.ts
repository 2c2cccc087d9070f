import { type Printed, printedIn } from '../../text/printed.ts';
import { loopExtents } from '../../geometry/extents.ts';
import type { Loop } from '../../geometry/loop.ts';
import { moveLoop } from '../../geometry/motion2.ts';
import { piecesOf } from '../../geometry/piece.ts';
import { distance, dot, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import type { FlatCutout, FlatPattern } from '../../model/flat.ts';
import { workText } from './hole-work.ts';
import { slitSize } from './slit-size.ts';
import {
  HALF_CIRCLE_BULGE,
  NEARLY_PARALLEL_SINE,
  NOISE_DEG,
  SAME_LENGTH_MM,
} from '../../geometry/tolerance.ts';

/** A hole under the name that it has on paper. */
export interface KeyedHole {
  /** `h1`: the name of the hole. */
  readonly key: string;
  readonly hole: FlatCutout;
  /** `round`, `slot`, `slit between holes`; `tube` where one passes at an angle. */
  readonly kind: string;
  /** `Ø9`, `8 x 20`, `Ø6.8, M8x1.25 tapped`. */
  readonly size: string;
  /** Its middle, on the blank. */
  readonly centre: Vec2;
  /** The direction of its longest straight edge, 0 to 180 degrees from level; of a slot or the like. */
  readonly leanDeg?: number;
}

/** All holes but the slots along folds, which are cut and never marked. */
export const keyedHoles = ({ cutouts }: FlatPattern, print = printedIn()): KeyedHole[] =>
  cutouts.flatMap((hole): KeyedHole[] => {
    if (hole.name === undefined) return [];
    const { size, ...what } = described(hole, print);
    const work = workText(hole.use, print);
    return [{ key: hole.name, hole, size: work === '' ? size : `${size}, ${work}`, ...what }];
  });

const described = (
  hole: FlatCutout,
  { tape }: Printed,
): Pick<KeyedHole, 'kind' | 'size' | 'centre' | 'leanDeg'> => {
  if (hole.kind === 'round')
    return { kind: 'round', size: `Ø${tape(hole.diameterMm)}`, centre: hole.centre };
  const box = loopExtents(hole.loop) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const [across, along] = sizeAlong(hole.loop);
  const kind = hole.use?.tube === undefined ? kindOf(hole.loop) : 'tube';
  const slit = slitSize(hole.loop);
  return {
    kind,
    ...(kind !== 'cut-out' && { leanDeg: leanOf(wayOf(hole.loop)) }),
    size:
      slit === undefined
        ? `${tape(across)} x ${tape(along)}`
        : `${tape(slit.widthMm)} x ${tape(slit.lengthMm)}, Ø${tape(slit.holeMm)}`,
    centre: [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2],
  };
};

const kindOf = (loop: Loop): string => {
  const arcs = loop.filter((v) => v.bulge !== 0);
  if (
    arcs.length === 2 &&
    loop.length === 4 &&
    arcs.every((v) => Math.abs(Math.abs(v.bulge) - 1) < HALF_CIRCLE_BULGE)
  )
    return 'slot';
  if (slitSize(loop) !== undefined) return 'slit between holes';
  if (arcs.length === 0 && loop.length === 4 && isSquare(loop)) return 'rectangle';
  return arcs.length === 0 && loop.length === 6 && isRegular(loop) ? 'hexagon' : 'cut-out';
};

/** All corners are right angles. */
const isSquare = (loop: Loop): boolean =>
  piecesOf(loop).every(({ from, to }, i, all) => {
    const next = all[(i + 1) % all.length] as (typeof all)[number];
    return Math.abs(dot(unit(sub(to, from)), unit(sub(next.to, next.from)))) < NEARLY_PARALLEL_SINE;
  });

const isRegular = (loop: Loop): boolean => {
  const sides = piecesOf(loop).map((p) => distance(p.from, p.to));
  return Math.max(...sides) - Math.min(...sides) < SAME_LENGTH_MM;
};

/** The direction of the longest straight edge; level where there is none. */
const wayOf = (loop: Loop): Vec2 => {
  const [longest] = piecesOf(loop)
    .filter((p) => p.bulge === 0)
    .toSorted((p, q) => distance(q.from, q.to) - distance(p.from, p.to));
  return longest === undefined ? [1, 0] : unit(sub(longest.to, longest.from));
};

/** 0 up to 180 degrees. */
const leanOf = ([x, y]: Vec2): number => {
  const deg = (Math.atan2(y, x) * 180) / Math.PI;
  const lean = deg - 180 * Math.floor(deg / 180 + NOISE_DEG);
  return Math.max(0, lean);
};

/** The smaller and the larger size, along its longest straight edge and across that. */
const sizeAlong = (loop: Loop): readonly [number, number] => {
  const [c, s] = wayOf(loop);
  const box = loopExtents(moveLoop({ c, s: -s, x: 0, y: 0 }, loop)) ?? {
    minX: 0,
    minY: 0,
    maxX: 0,
    maxY: 0,
  };
  const sizes = [box.maxX - box.minX, box.maxY - box.minY].toSorted((a, b) => a - b) as [
    number,
    number,
  ];
  return sizes;
};
