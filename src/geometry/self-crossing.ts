import { loopExtents } from './extents.ts';
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
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      if (!boxesMeet(boxes[i] as Box, boxes[j] as Box)) continue;
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

type Box = readonly [minX: number, minY: number, maxX: number, maxY: number];

const boxOf = (p: Piece): Box => {
  if (p.bulge !== 0) {
    // The second piece of this two-piece loop is the chord back, which adds nothing to the arc's
    // extents.
    const arc: Vertex[] = [
      { x: p.from[0], y: p.from[1], bulge: p.bulge },
      { x: p.to[0], y: p.to[1], bulge: 0 },
    ];
    const e = loopExtents(arc);
    if (e !== undefined) return [e.minX, e.minY, e.maxX, e.maxY];
  }
  return [
    Math.min(p.from[0], p.to[0]),
    Math.min(p.from[1], p.to[1]),
    Math.max(p.from[0], p.to[0]),
    Math.max(p.from[1], p.to[1]),
  ];
};

const boxesMeet = (a: Box, b: Box): boolean =>
  a[0] <= b[2] + NOISE_MM &&
  b[0] <= a[2] + NOISE_MM &&
  a[1] <= b[3] + NOISE_MM &&
  b[1] <= a[3] + NOISE_MM;

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
