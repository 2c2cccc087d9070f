import { arcOf, pointAfterTurn } from './arc.ts';
import { type Loop, type Vertex, vertexAt } from './loop.ts';

/** Fewer chords than this do not tell an arc from a few straight pieces. */
const LEAST_CHORDS = 5;

/**
 * A loop with chords in place of its arcs. The ends of the chords lie on the arc, their middles no
 * farther than `sagMm` from it. A chord over the angle w on the radius R leaves the arc by R (1 -
 * cos(w / 2)).
 */
export const withChords = (loop: Loop, sagMm: number): Loop =>
  loop.flatMap((v, i): Vertex[] => {
    if (v.bulge === 0) return [v];
    const next = vertexAt(loop, i + 1);
    const { radius, sweepRad } = arcOf([v.x, v.y], [next.x, next.y], v.bulge);
    const turn = Math.abs(sweepRad);
    const count = Math.max(
      LEAST_CHORDS,
      Math.ceil(turn / (2 * Math.acos(Math.max(0, 1 - sagMm / radius)))),
    );
    return Array.from({ length: count }, (_, k): Vertex => {
      const [x, y] =
        k === 0
          ? [v.x, v.y]
          : pointAfterTurn([v.x, v.y], [next.x, next.y], v.bulge, (turn * k) / count);
      return { x, y, bulge: 0 };
    });
  });
