import { bulgeOf } from './arc.ts';
import type { Loop, Vertex } from './loop.ts';
import { NOISE_MM } from './tolerance.ts';
import { cross, dot, sub, unit, type Vec2 } from './vec2.ts';

export type Rounded =
  { readonly ok: true; readonly loop: Loop } | { readonly ok: false; readonly largestMm: number };

/**
 * What takes the place of a corner: an arc of the given radius, or a straight cut that takes the
 * given length off both its edges.
 */
export type CornerCut = 'round' | 'chamfer';

/**
 * Replaces corners between straight pieces by tangent arcs of one radius, mm, which are true arcs
 * at inward corners as well; or by chamfers that begin that far from the corner. `corners` are
 * vertex indices; `keepMm[i]` is how much of piece `i` must stay straight (default 0). When a piece
 * is too short for what is cut at its ends, the answer is the largest size that fits all of the
 * corners asked for. Pieces keep their names; a piece that the cuts at its ends use up is gone.
 *
 * An arc of radius r in a corner that turns by w begins r tan(w / 2) before the corner (any table
 * of plane figures).
 */
export function roundCorners(
  loop: Loop,
  corners: readonly number[],
  radiusMm: number,
  keepMm: readonly number[] = [],
  cut: CornerCut = 'round',
): Rounded {
  const turns = loop.map((_, i) => (radiusMm > 0 && corners.includes(i) ? turnAt(loop, i) : 0));
  const reach = turns.map((turn) =>
    cut === 'round' ? Math.abs(Math.tan(turn / 2)) : Number(turn !== 0),
  );
  const spare = loop.map((_, i) => pieceLength(loop, i) - (keepMm[i] ?? 0));
  const share = loop.map((_, i) => value(reach, i) + value(reach, next(loop, i)));
  const largestMm = Math.max(
    0,
    Math.min(
      ...loop.map((_, i) => (value(share, i) > 0 ? value(spare, i) / value(share, i) : Infinity)),
    ),
  );
  if (radiusMm > largestMm + NOISE_MM) return { ok: false, largestMm };

  const rounded: Vertex[] = [];
  for (const [i, corner] of loop.entries()) {
    const turn = value(turns, i);
    const [before, after] = [direction(loop, previous(loop, i)), direction(loop, i)];
    const back = radiusMm * value(reach, i);
    if (turn !== 0)
      rounded.push({
        x: corner.x - before[0] * back,
        y: corner.y - before[1] * back,
        bulge: cut === 'round' ? bulgeOf(turn) : 0,
      });
    const left = pieceLength(loop, i) - radiusMm * value(share, i);
    if (left <= NOISE_MM) continue;
    rounded.push(
      turn === 0
        ? corner
        : { ...corner, x: corner.x + after[0] * back, y: corner.y + after[1] * back },
    );
  }
  return { ok: true, loop: rounded };
}

const value = (list: readonly number[], i: number): number => list[i] ?? 0;
const next = (loop: Loop, i: number): number => (i + 1) % loop.length;
const previous = (loop: Loop, i: number): number => (i + loop.length - 1) % loop.length;

const chord = (loop: Loop, i: number): Vec2 => {
  const [a, b] = [loop[i] as Vertex, loop[next(loop, i)] as Vertex];
  return sub([b.x, b.y], [a.x, a.y]);
};

const pieceLength = (loop: Loop, i: number): number => Math.hypot(...chord(loop, i));
const direction = (loop: Loop, i: number): Vec2 => unit(chord(loop, i));

/**
 * The turn at a corner, radians, positive to the left; 0 where an arc begins or ends, because such
 * a corner is left as it is.
 */
const turnAt = (loop: Loop, i: number): number => {
  if (loop[i]?.bulge !== 0 || loop[previous(loop, i)]?.bulge !== 0) return 0;
  const [before, after] = [direction(loop, previous(loop, i)), direction(loop, i)];
  return Math.atan2(cross(before, after), dot(before, after));
};
