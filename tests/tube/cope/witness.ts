/**
 * The seat of a branch, described once more and in another frame: the header along X, the branch
 * leaning towards +X, its axis beside the header's by the offset along +Y. Nothing here is shared
 * with what it is a witness of: distances from axes, and halving.
 */
export type P = readonly [number, number, number];

const dot = (a: P, b: P): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const sub = (a: P, b: P): P => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const rad = (deg: number): number => (deg * Math.PI) / 180;

/** Distance of a point from a line through a point along a unit vector. */
export const fromAxis = (p: P, through: P, u: P): number => {
  const d = sub(p, through);
  return Math.sqrt(Math.max(0, dot(d, d) - dot(d, u) ** 2));
};

/** A point of the branch: on its layer of radius r, at a place round it, z from the node. */
export const onBranch =
  (angleDeg: number, offsetMm: number) =>
  (r: number, roundDeg: number, z: number): P => {
    const [b, a] = [rad(angleDeg), rad(roundDeg)];
    return [
      z * Math.cos(b) + r * Math.cos(a) * Math.sin(b),
      offsetMm + r * Math.sin(a),
      z * Math.sin(b) - r * Math.cos(a) * Math.cos(b),
    ];
  };

/**
 * The greatest z at which `outsideBy` (how far outside the body, less than 0 within it) is 0, for a
 * convex body: its least is found by thirds, and from there to far away the 0 by halving.
 */
export const exitOf = (outsideBy: (z: number) => number): number => {
  let [low, high] = [-1000, 1000];
  for (let i = 0; i < 200; i++) {
    const [p, q] = [low + (high - low) / 3, high - (high - low) / 3];
    if (outsideBy(p) < outsideBy(q)) high = q;
    else low = p;
  }
  high = 1000;
  for (let i = 0; i < 80; i++) {
    const mid = (low + high) / 2;
    if (outsideBy(mid) <= 0) low = mid;
    else high = mid;
  }
  return low;
};
