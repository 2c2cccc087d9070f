import { sweepOf } from './arc.ts';
import { isInside } from './inside.ts';
import type { Loop, Vertex } from './loop.ts';
import { perimeter, signedArea } from './measure.ts';
import { cutWhereMet, type Stretch } from './meeting-places.ts';
import {
  backwards,
  partBulge,
  type Piece,
  pieceOf,
  pointOn,
  shareAt,
  startDirection,
} from './piece.ts';
import { NEARLY_PARALLEL_SINE, NOISE_MM } from './tolerance.ts';
import { distance, type Vec2 } from './vec2.ts';

/**
 * Takes a hole-free shape out of a loop; both run counter-clockwise. `onCut` makes the pieces along
 * the cut from their start and bulge. Returns every part that is left: parts joined in a single
 * point count as two, and a part narrower than the noise is dropped. A shape that lies inside the
 * loop without touching it cuts nothing, nor does one that lies outside. `undefined` for a loop
 * that crosses itself there.
 *
 * Both curves are cut at every place where they meet; each stretch then lies wholly inside, outside
 * or on the other. What is left is bounded by three kinds of stretch: the loop's stretches outside
 * the shape, the shape's inside the loop, walked backwards, and those on which the two run against
 * each other. (The regularised difference of any text on solid modelling; from memory.)
 */
export const subtract = <V extends Vertex>(
  loop: Loop<V>,
  shape: Loop,
  onCut: (at: Vec2, bulge: number) => V,
): Loop<V>[] | undefined => {
  const { first, second } = cutWhereMet(loop, shape);
  const shared = sharedStretches(loop, first, shape, second);
  const kept = first.flatMap((s): Link[] => {
    const along = shared.get(s);
    const isKept =
      along === undefined ? !isInside(shape, middleOf(loop, s)) : along === 'against each other';
    return isKept ? [{ ...s, curve: loop, isCut: false }] : [];
  });
  const cuts = second.flatMap((s): Link[] =>
    shared.has(s) || !isInside(loop, middleOf(shape, s))
      ? []
      : [{ ...s, start: s.end, end: s.start, curve: shape, isCut: true }],
  );
  const isUncut = kept.length === first.length && (cuts.length === 0 || !doMeet(kept, cuts));
  if (isUncut) return [loop];
  return chain([...kept, ...cuts])
    ?.map((links) => withoutSeams(links).map((link) => vertexOf(loop, link, onCut)))
    .filter((part) => signedArea(part) > NOISE_MM * perimeter(part));
};

const doMeet = (a: readonly Link[], b: readonly Link[]): boolean => {
  const places = new Set(a.map(({ start }) => start));
  return b.some(({ start }) => places.has(start));
};

/**
 * A stretch of the boundary of the parts that are left; a stretch of the shape is walked backwards.
 */
interface Link extends Stretch {
  readonly curve: Loop;
  readonly isCut: boolean;
}

const middleOf = (loop: Loop, { piece, from, to }: Stretch): Vec2 =>
  pointOn(pieceOf(loop, piece), (from + to) / 2);

/** Stretches that lie on a stretch of the other curve, and which way the two run. */
const sharedStretches = (
  loop: Loop,
  first: readonly Stretch[],
  shape: Loop,
  second: readonly Stretch[],
): ReadonlyMap<Stretch, 'the same way' | 'against each other'> => {
  const shared = new Map<Stretch, 'the same way' | 'against each other'>();
  for (const s of first)
    for (const t of second) {
      const isSame = s.start === t.start && s.end === t.end;
      if (!isSame && (s.start !== t.end || s.end !== t.start)) continue;
      if (shareAt(pieceOf(shape, t.piece), middleOf(loop, s), NOISE_MM) === undefined) continue;
      const way = isSame ? 'the same way' : 'against each other';
      shared.set(s, way).set(t, way);
    }
  return shared;
};

/** The piece that a link is, in the direction in which it is walked. */
const pieceOfLink = ({ curve, piece, from, to, isCut }: Link): Piece => {
  const whole = pieceOf(curve, piece);
  const part = {
    from: pointOn(whole, from),
    to: pointOn(whole, to),
    bulge: partBulge(whole.bulge, from, to),
  };
  return isCut ? backwards(part) : part;
};

const vertexOf = <V extends Vertex>(
  loop: Loop<V>,
  link: Link,
  onCut: (at: Vec2, bulge: number) => V,
): V => {
  const { from, bulge } = pieceOfLink(link);
  return link.isCut
    ? onCut(from, bulge)
    : { ...(loop[link.piece] as V), x: from[0], y: from[1], bulge };
};

/** Puts links end to end into closed loops; `undefined` when an end has no link to go on with. */
const chain = (links: readonly Link[]): Link[][] | undefined => {
  const waysFrom = new Map<number, Link[]>();
  for (const link of links) waysFrom.set(link.start, [...(waysFrom.get(link.start) ?? []), link]);
  const used = new Set<Link>();
  const loops: Link[][] = [];
  for (const first of links) {
    if (used.has(first)) continue;
    const loop: Link[] = [];
    let at: Link | undefined = first;
    do {
      used.add(at);
      loop.push(at);
      const ways: Link[] = waysFrom.get(at.end) ?? [];
      at = nextOf(
        at,
        ways.filter((way) => way === first || !used.has(way)),
      );
      if (at === undefined) return undefined;
    } while (at !== first);
    loops.push(loop);
  }
  return loops;
};

/**
 * The link that follows. Where loops touch in a point, it is the one that keeps to the metal on the
 * left of the link: the first one clockwise from the way back.
 */
const nextOf = (link: Link, ways: readonly Link[]): Link | undefined => {
  if (ways.length < 2) return ways[0];
  const back = backwards(pieceOfLink(link));
  return ways
    .map((way) => ({ way, turn: clockwise(back, pieceOfLink(way)) }))
    .reduce((best, other) => (other.turn < best.turn ? other : best)).way;
};

/**
 * The clockwise angle between the directions in which two pieces leave a point, radians. Pieces
 * that leave in the same direction are ordered by which bends away to the right.
 */
const clockwise = (from: Piece, to: Piece): number => {
  const [u, v] = [startDirection(from), startDirection(to)];
  const turn = Math.atan2(u[1] * v[0] - u[0] * v[1], u[0] * v[0] + u[1] * v[1]);
  if (Math.abs(turn) > NEARLY_PARALLEL_SINE) return turn < 0 ? turn + 2 * Math.PI : turn;
  return curvature(to) < curvature(from) ? 0 : 2 * Math.PI;
};

/** Curvature of a piece, per mm; positive where it bends to the left. */
const curvature = ({ from, to, bulge }: Piece): number =>
  (2 * Math.sin(sweepOf(bulge) / 2)) / distance(from, to);

/** Joins pieces again that were cut at a place where nothing changes. */
const withoutSeams = (links: readonly Link[]): Link[] => {
  const whole: Link[] = [];
  for (const link of links) {
    const before = whole.at(-1);
    const runsOn =
      before !== undefined &&
      before.curve === link.curve &&
      before.piece === link.piece &&
      (link.isCut ? before.from === link.to : before.to === link.from);
    if (!runsOn) whole.push(link);
    else if (link.isCut) whole[whole.length - 1] = { ...before, from: link.from, end: link.end };
    else whole[whole.length - 1] = { ...before, to: link.to, end: link.end };
  }
  return whole;
};
