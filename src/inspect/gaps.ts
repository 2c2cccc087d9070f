import { JOINED_MM } from '../dxf/contours/join.ts';
import { Nodes, PointIndex } from '../dxf/contours/point-index.ts';
import { endDirection, startDirection } from '../geometry/piece.ts';
import { lengthOf } from '../geometry/piece-length.ts';
import { distance, dot, middle, scale, type Vec2 } from '../geometry/vec2.ts';
import type { Chain, CutPiece } from './understand.ts';

/** Two loose ends that were meant to be one point. */
export interface Gap {
  readonly at: Vec2;
  readonly sizeMm: number;
  readonly layer: string;
  /** Numbers of the chains, and which end of each. */
  readonly ends: readonly [LooseEnd, LooseEnd];
}

/** Ends as dense as this are hatching; the remaining ones are reported as open. */
const MOST_PAIRS = 1_000_000;

interface LooseEnd {
  readonly chain: number;
  readonly isStart: boolean;
}

/**
 * Pairs loose ends of open chains that lie no farther apart than `withinMm`, the nearest first;
 * each has one partner. An end where anything else ends too is not loose, and two lines that run
 * side by side to their ends are two lines.
 */
export const gapsOf = (
  chains: readonly Chain[],
  closed: readonly Chain[],
  withinMm: number,
): Gap[] => {
  const ends = looseEnds(chains, closed);
  const index = new PointIndex(withinMm);
  for (const { at } of ends) index.add(at);
  /**
   * Both ends belong to one chain that is hardly longer than the gap; it is not a contour, but a
   * short piece on its own.
   */
  const isCrumb = (a: Placed, b: Placed): boolean =>
    a.chain === b.chain && lengthOf(chains[a.chain] as Chain) < 4 * withinMm;
  const pairs: { i: number; j: number; sizeMm: number }[] = [];
  let count = 0;
  for (let i = 0; i < ends.length && count < MOST_PAIRS; i++) {
    const end = ends[i] as Placed;
    const near = index.near(end.at);
    count += near.length;
    for (const j of near) {
      const other = ends[j] as Placed;
      if (j > i && !isCrumb(end, other) && dot(end.out, other.out) < SIDE_BY_SIDE)
        pairs.push({ i, j, sizeMm: distance(end.at, other.at) });
    }
  }
  const taken = new Set<number>();
  return pairs
    .toSorted((a, b) => a.sizeMm - b.sizeMm)
    .flatMap(({ i, j, sizeMm }) => {
      if (taken.has(i) || taken.has(j)) return [];
      taken.add(i).add(j);
      const [a, b] = [ends[i], ends[j]] as [Placed, Placed];
      return [{ at: middle(a.at, b.at), sizeMm, layer: a.layer, ends: [a, b] }];
    });
};

/** Cosine of the angle between two lines that run the same way, about 10 degrees. */
const SIDE_BY_SIDE = 0.98;

interface Placed extends LooseEnd {
  readonly at: Vec2;
  /** The direction in which the line would continue. */
  readonly out: Vec2;
  readonly layer: string;
}

const looseEnds = (chains: readonly Chain[], closed: readonly Chain[]): Placed[] => {
  const ends = chains.flatMap((pieces, chain): Placed[] => {
    const [first, last] = [pieces[0] as CutPiece, pieces.at(-1) as CutPiece];
    return [
      {
        chain,
        isStart: true,
        at: first.from,
        out: scale(startDirection(first), -1),
        layer: first.layer,
      },
      { chain, isStart: false, at: last.to, out: endDirection(last), layer: last.layer },
    ];
  });
  const nodes = new Nodes(JOINED_MM);
  const count: number[] = [];
  const at = (p: Vec2): number => {
    const node = nodes.at(p);
    count[node] = 1 + (count[node] ?? 0);
    return node;
  };
  const own = ends.map((end) => at(end.at));
  for (const { from } of closed.flat()) at(from);
  return ends.filter((_, i) => count[own[i] as number] === 1);
};

/** The pieces of some chains with gaps closed; both ends move to the middle between them. */
export const closeGaps = (chains: readonly Chain[], gaps: readonly Gap[]): CutPiece[] => {
  const moved = chains.map((pieces) => [...pieces]);
  for (const { at, ends } of gaps) {
    for (const { chain, isStart } of ends) {
      const pieces = moved[chain] as CutPiece[];
      const i = isStart ? 0 : pieces.length - 1;
      pieces[i] = { ...(pieces[i] as CutPiece), ...(isStart ? { from: at } : { to: at }) };
    }
  }
  return moved.flat();
};
