import { arcOf } from '../geometry/arc.ts';
import type { Loop } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { pieceOf } from '../geometry/piece.ts';
import { leftOf, sub, type Vec2 } from '../geometry/vec2.ts';

/**
 * Centre of the area inside a loop, with exact arcs. A segment between an arc of radius R and sweep
 * w and its chord has the area R^2 (w - sin w) / 2, and its centre lies 4 R sin^3(w / 2) / (3 (w -
 * sin w)) from that of the circle (any table of plane figures).
 */
export const centroidOf = (loop: Loop): Vec2 => {
  const area = signedArea(loop);
  const origin = loop[0];
  if (origin === undefined || area === 0) return [origin?.x ?? 0, origin?.y ?? 0];
  let [mx, my] = [0, 0];
  for (let i = 0; i < loop.length; i++) {
    const piece = pieceOf(loop, i);
    const [ax, ay, bx, by] = [
      piece.from[0] - origin.x,
      piece.from[1] - origin.y,
      piece.to[0] - origin.x,
      piece.to[1] - origin.y,
    ];
    const twice = ax * by - ay * bx;
    mx += (twice * (ax + bx)) / 6;
    my += (twice * (ay + by)) / 6;
    if (piece.bulge === 0) continue;
    const { area: part, centre } = segment(piece.from, piece.to, piece.bulge);
    mx += part * (centre[0] - origin.x);
    my += part * (centre[1] - origin.y);
  }
  return [origin.x + mx / area, origin.y + my / area];
};

const segment = (
  from: Vec2,
  to: Vec2,
  bulge: number,
): { readonly area: number; readonly centre: Vec2 } => {
  const chord = sub(to, from);
  const out = leftOf(chord);
  if (Math.abs(bulge) < 0.02) {
    // An arc this flat is a piece of a parabola: its area is two thirds of chord times rise, and
    // its centre is at two fifths of the rise.
    const size = chord[0] ** 2 + chord[1] ** 2;
    const at = (p: 0 | 1): number => from[p] + chord[p] / 2 - (out[p] * bulge) / 5;
    return { area: (size * bulge) / 3, centre: [at(0), at(1)] };
  }
  const { centre, radius, sweepRad } = arcOf(from, to, bulge);
  const w = Math.abs(sweepRad);
  const area = (Math.sign(bulge) * radius ** 2 * (w - Math.sin(w))) / 2;
  const reach = (4 * radius * Math.sin(w / 2) ** 3) / (3 * (w - Math.sin(w)));
  const size = Math.hypot(out[0], out[1]);
  const side = -Math.sign(bulge) / size;
  return { area, centre: [centre[0] + out[0] * side * reach, centre[1] + out[1] * side * reach] };
};
