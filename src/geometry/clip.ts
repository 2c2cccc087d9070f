import { NOISE_MM } from './tolerance.ts';
import type { Loop, Vertex } from './loop.ts';
import { levelCrossings, partBulge, pieceOf, pointOn } from './piece.ts';
import type { Vec2 } from './vec2.ts';

interface Run<V> {
  /** Vertices of the kept run; the last one is only where it ends, its bulge is 0. */
  readonly vertices: V[];
  readonly enters: number;
  readonly leaves: number;
}

/**
 * What is left of a counter-clockwise loop on the side `normal . p >= level`: every part of it, each a closed loop.
 * New straight pieces along the cut are made by `onCut` from the point where they start. Pieces that are cut keep
 * the rest of their vertex. An uncut loop comes back as it is.
 */
export const clip = <V extends Vertex>(loop: Loop<V>, normal: Vec2, level: number, onCut: (at: Vec2) => V): Loop<V>[] => {
  const height = (x: number, y: number): number => normal[0] * x + normal[1] * y - level;
  if (loop.every((v, i) => height(v.x, v.y) >= -NOISE_MM && staysAbove(loop, i, normal, level))) return [loop];
  return joinAlongCut(keptRuns(loop, normal, level), onCut);
};

const staysAbove = (loop: Loop, i: number, normal: Vec2, level: number): boolean =>
  loop[i]?.bulge === 0 || levelCrossings(pieceOf(loop, i), normal, level - NOISE_MM).length === 0;

/** Cuts the loop at every crossing and gathers the stretches above the line, in order. */
const keptRuns = <V extends Vertex>(loop: Loop<V>, normal: Vec2, level: number): Run<V>[] => {
  const alongCut = (p: Vec2): number => normal[1] * p[0] - normal[0] * p[1];
  const runs: Run<V>[] = [];
  let open: V[] | undefined;
  let enters = 0;
  let firstOpen: V[] | undefined;
  for (let i = 0; i < loop.length; i++) {
    const piece = pieceOf(loop, i);
    const v = loop[i] as V;
    const cuts = [0, ...levelCrossings(piece, normal, level).filter((t) => t > 1e-12 && t < 1 - 1e-12), 1];
    for (let c = 0; c + 1 < cuts.length; c++) {
      const [t0, t1] = [cuts[c] as number, cuts[c + 1] as number];
      const mid = pointOn(piece, (t0 + t1) / 2);
      const [start, end] = [pointOn(piece, t0), pointOn(piece, t1)];
      if (normal[0] * mid[0] + normal[1] * mid[1] - level < 0) {
        if (open !== undefined) {
          close(open, start, v);
        }
        open = undefined;
        continue;
      }
      if (open === undefined) {
        open = [];
        enters = alongCut(start);
        if (i === 0 && c === 0) firstOpen = open;
        runs.push({ vertices: open, enters, leaves: 0 });
      }
      open.push({ ...v, x: start[0], y: start[1], bulge: partBulge(v.bulge, t0, t1) });
      const last = runs.length - 1;
      runs[last] = { ...(runs[last] as Run<V>), leaves: alongCut(end) };
      if (i === loop.length - 1 && t1 === 1 && firstOpen !== undefined && runs.length > 1) return mergeFirstAndLast(runs);
      if (i === loop.length - 1 && t1 === 1) close(open, end, v);
    }
  }
  return runs;
};

const close = <V extends Vertex>(run: V[], end: Vec2, like: V): void => {
  run.push({ ...like, x: end[0], y: end[1], bulge: 0 });
};

/** The loop started inside a kept stretch: what came last runs on into what came first. */
const mergeFirstAndLast = <V extends Vertex>(runs: Run<V>[]): Run<V>[] => {
  const first = runs[0] as Run<V>;
  const last = runs[runs.length - 1] as Run<V>;
  const merged = { vertices: [...last.vertices, ...first.vertices], enters: last.enters, leaves: first.leaves };
  return [merged, ...runs.slice(1, -1)];
};

/**
 * With the metal on the left, a run that leaves the kept side is followed along the cut, in the direction that keeps
 * the metal on the left, to the nearest place where a run enters.
 */
const joinAlongCut = <V extends Vertex>(runs: Run<V>[], onCut: (at: Vec2) => V): Loop<V>[] => {
  const loops: Loop<V>[] = [];
  const used = new Set<number>();
  for (let i = 0; i < runs.length; i++) {
    if (used.has(i)) continue;
    const joined: V[] = [];
    for (let at = i; !used.has(at); at = nextRun(runs, at)) {
      used.add(at);
      const { vertices } = runs[at] as Run<V>;
      const end = vertices[vertices.length - 1] as V;
      joined.push(...vertices.slice(0, -1), onCut([end.x, end.y]));
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
