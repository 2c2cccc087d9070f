import { isInside } from './inside.ts';
import type { Loop, Vertex } from './loop.ts';
import { crossings, partBulge, pieceOf, pointOn } from './piece.ts';
import type { Vec2 } from './vec2.ts';

/**
 * Takes a hole-free shape out of a loop. Both counter-clockwise. The pieces along the cut are made
 * by `onCut` from their start and bulge. Gives every part that is left; a shape that lies wholly
 * inside or outside the loop cuts nothing. A shape that only touches a vertex, or runs along a
 * piece, is grown by a hair (at most 0.001 of its size) so that the two curves really cross.
 * `undefined` for a loop that crosses itself there.
 */
export const subtract = <V extends Vertex>(
  loop: Loop<V>,
  shape: Loop,
  onCut: (at: Vec2, bulge: number) => V,
): Loop<V>[] | undefined => {
  for (const growth of GROWTHS) {
    const left = trySubtract(loop, grown(shape, growth), onCut);
    if (left !== undefined) return left;
  }
  return undefined;
};

/** Shares by which a shape is grown, the exact one first. */
const GROWTHS = [0, 1e-6, -1e-6, 1.7e-5, 1.3e-4, 1e-3];

const grown = (shape: Loop, share: number): Loop => {
  if (share === 0) return shape;
  const [x, y] = [0, 1].map(
    (k) => shape.reduce((sum, v) => sum + (k === 0 ? v.x : v.y), 0) / shape.length,
  ) as [number, number];
  return shape.map((v) => ({ ...v, x: v.x + share * (v.x - x), y: v.y + share * (v.y - y) }));
};

/** `undefined` where the curves touch without crossing and what is left does not close. */
const trySubtract = <V extends Vertex>(
  loop: Loop<V>,
  shape: Loop,
  onCut: (at: Vec2, bulge: number) => V,
): Loop<V>[] | undefined => {
  const { onLoop, onShape } = allCrossings(loop, shape);
  if (onLoop.every((cuts) => cuts.length === 0)) return [loop];
  const kept: Link<V>[] = [];
  loop.forEach((v, i) => {
    for (const part of parts('loop', loop, i, onLoop[i] ?? [])) {
      if (isInside(shape, part.middle)) continue;
      kept.push({ ...part, vertex: { ...v, x: part.at[0], y: part.at[1], bulge: part.bulge } });
    }
  });
  shape.forEach((_, j) => {
    for (const part of parts('shape', shape, j, onShape[j] ?? [])) {
      if (!isInside(loop, part.middle)) continue;
      kept.push({
        start: part.end,
        end: part.start,
        vertex: onCut(part.to, part.bulge === 0 ? 0 : -part.bulge),
      });
    }
  });
  return chain(kept);
};

/** Names of places: where a loop's own vertex stands, or where two curves cross. */
type Place = string;

interface Link<V> {
  readonly start: Place;
  readonly end: Place;
  readonly vertex: V;
}

interface Cut {
  readonly share: number;
  readonly place: Place;
  readonly at: Vec2;
}

const allCrossings = (loop: Loop, shape: Loop): { onLoop: Cut[][]; onShape: Cut[][] } => {
  const onLoop: Cut[][] = loop.map(() => []);
  const onShape: Cut[][] = shape.map(() => []);
  loop.forEach((_, i) => {
    const piece = pieceOf(loop, i);
    shape.forEach((__, j) => {
      crossings(piece, pieceOf(shape, j)).forEach((c, k) => {
        const at = pointOn(piece, c.a);
        onLoop[i]?.push({ share: c.a, place: `x${i}/${j}/${k}`, at });
        onShape[j]?.push({ share: c.b, place: `x${i}/${j}/${k}`, at });
      });
    });
  });
  for (const cuts of [...onLoop, ...onShape]) cuts.sort((a, b) => a.share - b.share);
  return { onLoop, onShape };
};

interface Part {
  readonly start: Place;
  readonly end: Place;
  readonly at: Vec2;
  readonly to: Vec2;
  readonly middle: Vec2;
  readonly bulge: number;
}

/** A piece cut at its crossings. */
const parts = (curve: 'loop' | 'shape', loop: Loop, i: number, cuts: readonly Cut[]): Part[] => {
  const piece = pieceOf(loop, i);
  const stations: Cut[] = [
    { share: 0, place: `${curve}${i}`, at: piece.from },
    ...cuts,
    { share: 1, place: `${curve}${(i + 1) % loop.length}`, at: piece.to },
  ];
  return stations.slice(1).flatMap((to, k) => {
    const from = stations[k] as Cut;
    const middle = pointOn(piece, (from.share + to.share) / 2);
    const bulge = partBulge(piece.bulge, from.share, to.share);
    return [{ start: from.place, end: to.place, at: from.at, to: to.at, middle, bulge }];
  });
};

/** Puts links end to end into closed loops; `undefined` when an end has no link to go on with. */
const chain = <V extends Vertex>(links: readonly Link<V>[]): Loop<V>[] | undefined => {
  const byStart = new Map(links.map((l) => [l.start, l]));
  if (byStart.size !== links.length) return undefined;
  const loops: Loop<V>[] = [];
  for (const first of links) {
    if (!byStart.has(first.start)) continue;
    const loop: V[] = [];
    let end = '';
    for (let at = byStart.get(first.start); at !== undefined; at = byStart.get(at.end)) {
      byStart.delete(at.start);
      loop.push(at.vertex);
      end = at.end;
    }
    if (end !== first.start) return undefined;
    loops.push(loop);
  }
  return loops;
};
