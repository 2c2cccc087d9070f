import type { Loop, Vertex } from '../geometry/loop.ts';
import { pieceOf } from '../geometry/piece.ts';
import { along, distance, dot, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { FlatBend } from '../model/flat.ts';

/** A V cut into the edge, mm. */
export interface NickSize {
  readonly widthMm: number;
  readonly depthMm: number;
}

/** Wide enough for the cut to turn in, deep enough to be felt with a square (common practice). */
export const nickFor = (kerfMm: number): NickSize => ({ widthMm: Math.max(1, 1.5 * kerfMm), depthMm: Math.max(1.5, 2 * kerfMm) });

/**
 * An outline with a nick at both ends of every bend, pointing along its line. `offMm` is how far the outline runs
 * outside the metal. An end that lies on no straight edge long enough, in a relief for one, gets none.
 */
export const withNicks = (outline: Loop, bends: readonly FlatBend[], size: NickSize, offMm: number): Loop =>
  bends.flatMap(({ centreLine: [a, b] }) => [[a, b], [b, a]] as const).reduce<Loop>((loop, [end, other]) => nicked(loop, end, unit(sub(other, end)), size, offMm), outline);

/** How far an end may lie off the edge it belongs to, mm, beside the offset itself. */
const SLACK_MM = 0.01;

const nicked = (loop: Loop, end: Vec2, inward: Vec2, { widthMm, depthMm }: NickSize, offMm: number): Loop => {
  for (const [i] of loop.entries()) {
    const { from, to, bulge } = pieceOf(loop, i);
    const long = distance(from, to);
    if (bulge !== 0 || long <= widthMm) continue;
    const dir = unit(sub(to, from));
    const reach = dot(sub(end, from), dir);
    const at = along(from, dir, reach);
    // The edge must be crossed, not run along; its metal lies on the left.
    const isAcross = dir[0] * inward[1] - dir[1] * inward[0] > 0.2;
    if (!isAcross || distance(at, end) > offMm + SLACK_MM || reach < widthMm / 2 || reach > long - widthMm / 2) continue;
    const corner = ([x, y]: Vec2): Vertex => ({ x, y, bulge: 0 });
    const v = [along(at, dir, -widthMm / 2), along(at, inward, depthMm), along(at, dir, widthMm / 2)].map(corner);
    return [...loop.slice(0, i + 1), ...v, ...loop.slice(i + 1)];
  }
  return loop;
};
