import { arcOf, halfBulge, middleOf } from '../../geometry/arc.ts';
import type { Loop, Vertex } from '../../geometry/loop.ts';
import { FILE_STEP_MM, NOISE_MM, PROOF_MM } from '../../geometry/tolerance.ts';
import { distance, type Vec2 } from '../../geometry/vec2.ts';
import { fileBulge } from './numbers.ts';
import { fileNumber } from '../../text/file-number.ts';

/**
 * A loop as it goes into a file: rounded, every bulge between -1 and 1, and no piece shorter than
 * half of the error that a file may have (0.005 mm). If it has any straight piece, a straight one
 * is last, because some readers ignore the bulge of the last vertex of a closed polyline. A loop of
 * arcs alone keeps them all. Undefined if nothing is left.
 */
export const fileLoop = (loop: Loop): Loop | undefined => {
  const rounded = withoutShortPieces(halved(loop).map(roundedVertex)).map(flattened);
  const [a, b] = rounded;
  if (a === undefined || b === undefined) return undefined;
  // A way there and back along one line or arc encloses nothing.
  if (rounded.length === 2 && a.bulge + b.bulge === 0) return undefined;
  return straightLast(rounded);
};

/**
 * The circle that a loop is made of, if all its pieces are arcs of one circle, run through once.
 */
export const circleOf = (
  loop: Loop,
): { readonly centre: Vec2; readonly radius: number } | undefined => {
  const direction = Math.sign(loop[0]?.bulge ?? 0);
  if (direction === 0 || loop.some((v) => Math.sign(v.bulge) !== direction)) return undefined;
  const arcs = loop.map((v, i) => {
    const next = nextVertex(loop, i);
    return arcOf([v.x, v.y], [next.x, next.y], v.bulge);
  });
  const [first, ...others] = arcs;
  if (first === undefined || others.length === 0) return undefined;
  const { centre, radius } = first;
  const same = others.every(
    (a) => distance(a.centre, centre) < NOISE_MM && Math.abs(a.radius - radius) < NOISE_MM,
  );
  const turns = arcs.reduce((sum, a) => sum + Math.abs(a.sweepRad), 0) / (2 * Math.PI);
  return same && Math.abs(turns - 1) * radius < NOISE_MM ? { centre, radius } : undefined;
};

const nextVertex = (loop: Loop, i: number): Vertex => loop[i + 1] ?? (loop[0] as Vertex);

/** The loop with each arc of more than half a circle split in two. */
const halved = (loop: Loop): Vertex[] => {
  const pieces: Vertex[] = [];
  for (let i = 0; i < loop.length; i++) {
    const v = loop[i] as Vertex;
    if (Math.abs(fileBulge(v.bulge)) <= 1) {
      pieces.push(v);
      continue;
    }
    const next = nextVertex(loop, i);
    const [x, y] = middleOf([v.x, v.y], [next.x, next.y], v.bulge);
    const bulge = halfBulge(v.bulge);
    pieces.push({ x: v.x, y: v.y, bulge }, { x, y, bulge });
  }
  return pieces;
};

const roundedVertex = (v: Vertex): Vertex => ({
  x: fileNumber(v.x),
  y: fileNumber(v.y),
  bulge: fileBulge(v.bulge),
});

const gap = (a: Vertex, b: Vertex): number => Math.hypot(b.x - a.x, b.y - a.y);

/**
 * Leaving a piece out moves the corners beside it, and they may be no farther off than a file may
 * be wrong.
 */
export const SHORTEST_MM = PROOF_MM / 2;

/**
 * Leaves out each vertex that lies too close to the last one kept; the piece that ran on from it
 * then starts at the one kept.
 */
const withoutShortPieces = (loop: readonly Vertex[]): Vertex[] => {
  const kept: Vertex[] = [];
  for (const v of loop) {
    const last = kept.at(-1);
    if (last !== undefined && gap(last, v) < SHORTEST_MM)
      kept[kept.length - 1] = { ...last, bulge: v.bulge };
    else kept.push(v);
  }
  while (kept.length > 1 && gap(kept.at(-1) as Vertex, kept[0] as Vertex) < SHORTEST_MM) kept.pop();
  return kept;
};

/** An arc that rises from its chord by less than half the file's step is a straight line. */
const flattened = (v: Vertex, i: number, loop: Loop): Vertex =>
  v.bulge !== 0 && Math.abs(v.bulge) * gap(v, nextVertex(loop, i)) < FILE_STEP_MM
    ? { ...v, bulge: 0 }
    : v;

const straightLast = (loop: readonly Vertex[]): readonly Vertex[] => {
  if (loop.at(-1)?.bulge === 0) return loop;
  const start = loop.findIndex((v) => v.bulge === 0) + 1;
  return start === 0 ? loop : [...loop.slice(start), ...loop.slice(0, start)];
};
