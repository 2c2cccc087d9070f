import { NOISE_MM, NOISE_SHARE } from './tolerance.ts';
import type { Loop, Vertex } from './loop.ts';
import { levelCrossings, partBulge, pieceOf, pointOn } from './piece.ts';
import type { Vec2 } from './vec2.ts';

/**
 * What is left of a counter-clockwise loop on the side `normal . p >= level`: every part of it,
 * each a closed loop. `onCut` makes the new straight pieces along the cut from the point where they
 * start. Pieces that are cut keep the rest of their vertex. An uncut loop is returned unchanged.
 */
export const clip = <V extends Vertex>(
  loop: Loop<V>,
  normal: Vec2,
  level: number,
  onCut: (at: Vec2) => V,
): Loop<V>[] => {
  const height = (x: number, y: number): number => normal[0] * x + normal[1] * y - level;
  if (loop.every((v, i) => height(v.x, v.y) >= -NOISE_MM && staysAbove(loop, i, normal, level)))
    return [loop];
  const bits = loop.flatMap((_, i) => bitsOf(loop, i, normal, level));
  const gap = bits.findIndex((bit) => !bit.isKept);
  if (gap < 0) return [loop];
  const alongCut = (p: Vec2): number => normal[1] * p[0] - normal[0] * p[1];
  return joinAlongCut(runsOf([...bits.slice(gap), ...bits.slice(0, gap)], alongCut), onCut);
};

const staysAbove = (loop: Loop, i: number, normal: Vec2, level: number): boolean =>
  loop[i]?.bulge === 0 || levelCrossings(pieceOf(loop, i), normal, level - NOISE_MM).length === 0;

/** A stretch of one piece that lies wholly on one side of the cut. */
interface Bit<V> {
  readonly vertex: V;
  readonly from: Vec2;
  readonly to: Vec2;
  readonly isKept: boolean;
}

/** One piece, cut at every crossing. */
const bitsOf = <V extends Vertex>(
  loop: Loop<V>,
  i: number,
  normal: Vec2,
  level: number,
): Bit<V>[] => {
  const piece = pieceOf(loop, i);
  const v = loop[i] as V;
  const cuts = [
    0,
    ...levelCrossings(piece, normal, level).filter((t) => t > NOISE_SHARE && t < 1 - NOISE_SHARE),
    1,
  ];
  return cuts.slice(1).map((t1, c) => {
    const t0 = cuts[c] as number;
    const [from, to, mid] = [pointOn(piece, t0), pointOn(piece, t1), pointOn(piece, (t0 + t1) / 2)];
    const vertex = { ...v, x: from[0], y: from[1], bulge: partBulge(v.bulge, t0, t1) };
    return { vertex, from, to, isKept: normal[0] * mid[0] + normal[1] * mid[1] >= level };
  });
};

/**
 * Kept bits in a row, with the places along the cut where they enter the kept side and leave it.
 */
interface Run<V> {
  readonly vertices: V[];
  readonly enters: number;
  leaves: number;
  end: Vec2;
}

/**
 * The runs of kept bits. The bits begin with one that is not kept, so no run continues past their
 * end.
 */
const runsOf = <V>(bits: readonly Bit<V>[], alongCut: (p: Vec2) => number): Run<V>[] => {
  const runs: Run<V>[] = [];
  bits.forEach((bit, i) => {
    if (!bit.isKept) return;
    if (bits[i - 1]?.isKept !== true)
      runs.push({ vertices: [], enters: alongCut(bit.from), leaves: 0, end: bit.to });
    const run = runs[runs.length - 1] as Run<V>;
    run.vertices.push(bit.vertex);
    run.leaves = alongCut(bit.to);
    run.end = bit.to;
  });
  return runs;
};

/**
 * Joins the runs into closed loops. The metal lies on the left, so a run that leaves the kept side
 * is followed along the cut, in the direction that keeps the metal on the left, to the nearest
 * place where a run enters.
 */
const joinAlongCut = <V extends Vertex>(
  runs: readonly Run<V>[],
  onCut: (at: Vec2) => V,
): Loop<V>[] => {
  const loops: Loop<V>[] = [];
  const used = new Set<number>();
  for (let i = 0; i < runs.length; i++) {
    if (used.has(i)) continue;
    const joined: V[] = [];
    for (let at = i; !used.has(at); at = nextRun(runs, at)) {
      used.add(at);
      const { vertices, end } = runs[at] as Run<V>;
      joined.push(...vertices, onCut(end));
    }
    loops.push(joined);
  }
  return loops;
};

const nextRun = <V>(runs: readonly Run<V>[], at: number): number => {
  const { leaves } = runs[at] as Run<V>;
  let best = at;
  let least = Infinity;
  runs.forEach((run, j) => {
    const way = run.enters - leaves;
    if (way > -NOISE_MM && way < least) {
      least = way;
      best = j;
    }
  });
  return best;
};
