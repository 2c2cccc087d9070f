import { BoxGrid } from './box-grid.ts';
import { boxOfTwo } from './boxed-loop.ts';
import { type Extents, loopExtents } from './extents.ts';
import type { Loop, Vertex } from './loop.ts';
import { crossings, type Piece, piecesOf, pointOn } from './piece.ts';
import { NOISE_MM } from './tolerance.ts';
import { distance, type Vec2 } from './vec2.ts';

/** Two pieces of a loop that meet somewhere other than at a shared end. */
export interface SelfCrossing {
  readonly first: number;
  readonly second: number;
  readonly at: Vec2;
}

/** The first place where a loop touches or crosses itself; `undefined` when it is simple. */
export const selfCrossing = (loop: Loop): SelfCrossing | undefined => {
  const n = loop.length;
  const pieces = piecesOf(loop);
  const boxes = pieces.map(boxOf);
  const grid = new BoxGrid(boxes);
  for (let i = 0; i < n; i++) {
    for (const j of grid.near(boxes[i] as Extents, 0)) {
      if (j <= i) continue;
      const at = meeting(
        pieces[i] as Piece,
        pieces[j] as Piece,
        j === i + 1,
        i === 0 && j === n - 1,
      );
      if (at !== undefined) return { first: i, second: j, at };
    }
  }
  return undefined;
};

const boxOf = (p: Piece): Extents => {
  if (p.bulge !== 0) {
    // The second piece of this two-piece loop is the chord back, which adds nothing to the arc's
    // extents.
    const arc: Vertex[] = [
      { x: p.from[0], y: p.from[1], bulge: p.bulge },
      { x: p.to[0], y: p.to[1], bulge: 0 },
    ];
    const e = loopExtents(arc);
    if (e !== undefined) return e;
  }
  return boxOfTwo(p.from, p.to);
};

/**
 * `follows`: the second piece starts where the first ends. `leads`: the first starts where the
 * second ends.
 */
const meeting = (a: Piece, b: Piece, follows: boolean, leads: boolean): Vec2 | undefined => {
  const shared = [...(follows ? [a.to] : []), ...(leads ? [a.from] : [])];
  for (const c of crossings(a, b)) {
    const at = pointOn(a, c.a);
    if (!shared.some((p) => distance(p, at) < 1e3 * NOISE_MM)) return at;
  }
  // An end of one of two pieces that run along each other lies on the other.
  const ends = [a.from, a.to]
    .filter((p) => isOn(b, p))
    .concat([b.from, b.to].filter((p) => isOn(a, p)));
  return ends.find((p) => !shared.some((q) => distance(p, q) < 1e3 * NOISE_MM));
};

const isOn = (p: Piece, at: Vec2): boolean => {
  if (p.bulge !== 0) return false;
  const [dx, dy] = [p.to[0] - p.from[0], p.to[1] - p.from[1]];
  const l2 = dx * dx + dy * dy;
  const t = ((at[0] - p.from[0]) * dx + (at[1] - p.from[1]) * dy) / l2;
  return t >= 0 && t <= 1 && distance(at, [p.from[0] + t * dx, p.from[1] + t * dy]) < NOISE_MM;
};
