import { selfCrossing } from '../geometry/self-crossing.ts';
import { cross, distance, sub, type Vec2 } from '../geometry/vec2.ts';

/**
 * A counter-clockwise polygon with fewer corners round the given one: nothing of that sticks out,
 * and none of the new edges is farther than `within` from it. A corner that points inwards is
 * bridged; an edge whose ends point outwards gives way to the corner where its neighbours meet.
 * Tables of pairs grow with the product of the corners, and finely cut arcs make them explode.
 */
export const simplifiedOutward = (polygon: readonly Vec2[], within: number): readonly Vec2[] => {
  let ring = [...polygon];
  for (;;) {
    const changes = ring.flatMap((_, i) => changeAt(ring, i, within));
    if (changes.length === 0 || ring.length <= 4) break;
    ring = taken(ring, changes);
  }
  const loop = ring.map(([x, y]) => ({ x, y, bulge: 0 }));
  return selfCrossing(loop) === undefined ? ring : polygon;
};

interface Change {
  /** The corner that goes. */
  readonly at: number;
  /** Where the corner before it, and where the one after it, comes to lie in its place. */
  readonly corner: Vec2 | undefined;
  readonly cost: number;
}

const changeAt = (ring: readonly Vec2[], i: number, within: number): Change[] => {
  const at = (k: number): Vec2 => ring[(i + k + ring.length) % ring.length] as Vec2;
  const [before, here, after, beyond] = [at(-1), at(0), at(1), at(2)];
  const turn = cross(sub(here, before), sub(after, here));
  if (turn <= 0) {
    const off = Math.abs(turn) / Math.max(distance(before, after), Number.MIN_VALUE);
    return off <= within ? [{ at: i, corner: undefined, cost: off }] : [];
  }
  if (cross(sub(after, here), sub(beyond, after)) <= 0) return [];
  const corner = meeting(before, here, beyond, after);
  if (corner === undefined) return [];
  const side = distance(here, after);
  const off = Math.abs(cross(sub(after, here), sub(corner, here))) / side;
  return off <= within ? [{ at: i, corner, cost: off }] : [];
};

/** Where the line from a beyond b meets the line from c beyond d; nothing when it does not. */
const meeting = (a: Vec2, b: Vec2, c: Vec2, d: Vec2): Vec2 | undefined => {
  const [u, v] = [sub(b, a), sub(d, c)];
  const across = cross(u, v);
  if (across === 0) return undefined;
  const t = cross(sub(c, a), v) / across;
  const s = cross(sub(c, a), u) / across;
  return t > 1 && s > 1 ? [a[0] + t * u[0], a[1] + t * u[1]] : undefined;
};

/** The cheapest changes that have no corner in common; each counts from the polygon as it was. */
const taken = (ring: readonly Vec2[], changes: readonly Change[]): Vec2[] => {
  const n = ring.length;
  const isTouched = new Set<number>();
  const next: (Vec2 | undefined)[] = [...ring];
  for (const { at, corner } of changes.toSorted((a, b) => a.cost - b.cost)) {
    const near = [-1, 0, 1, 2].map((k) => (at + k + n) % n);
    if (near.some((k) => isTouched.has(k))) continue;
    if (n - isTouched.size / 4 <= 4) break;
    for (const k of near) isTouched.add(k);
    next[at] = corner;
    if (corner !== undefined) next[(at + 1) % n] = undefined;
  }
  return next.filter((p) => p !== undefined);
};
