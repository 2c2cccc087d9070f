import { distance, middle, type Vec2 } from '../geometry/vec2.ts';
import type { Chain, CutPiece } from './contours.ts';
import { lengthOf } from './lengths.ts';
import { PointIndex } from './point-index.ts';

/** Two loose ends that were meant to be one point. */
export interface Gap {
  readonly at: Vec2;
  readonly sizeMm: number;
  readonly layer: string;
  /** Numbers of the chains, and which end of each. */
  readonly ends: readonly [LooseEnd, LooseEnd];
}

/** Ends as thick as this are hatching: what is left over is told as open. */
const MOST_PAIRS = 1_000_000;

interface LooseEnd {
  readonly chain: number;
  readonly isStart: boolean;
}

/** Pairs loose ends that lie no farther apart than `withinMm`, the nearest first; each has one partner. */
export const gapsOf = (chains: readonly Chain[], withinMm: number): Gap[] => {
  const ends = looseEnds(chains);
  const index = new PointIndex(withinMm);
  for (const { at } of ends) index.add(at);
  /** Both ends of one chain that is hardly longer than the gap: it is no contour, but a short piece on its own. */
  const isCrumb = (i: number, j: number): boolean => {
    const chain = (ends[i] as Placed).chain;
    return chain === (ends[j] as Placed).chain && lengthOf((chains[chain] as Chain).pieces) < 4 * withinMm;
  };
  const pairs: { i: number; j: number; sizeMm: number }[] = [];
  let count = 0;
  for (let i = 0; i < ends.length && count < MOST_PAIRS; i++) {
    const { at } = ends[i] as Placed;
    const near = index.near(at);
    count += near.length;
    for (const j of near) if (j > i && !isCrumb(i, j)) pairs.push({ i, j, sizeMm: distance(at, (ends[j] as Placed).at) });
  }
  const taken = new Set<number>();
  return pairs.toSorted((a, b) => a.sizeMm - b.sizeMm).flatMap(({ i, j, sizeMm }) => {
    if (taken.has(i) || taken.has(j)) return [];
    taken.add(i).add(j);
    const [a, b] = [ends[i], ends[j]] as [Placed, Placed];
    return [{ at: middle(a.at, b.at), sizeMm, layer: a.layer, ends: [a, b] }];
  });
};

interface Placed extends LooseEnd {
  readonly at: Vec2;
  readonly layer: string;
}

const looseEnds = (chains: readonly Chain[]): Placed[] =>
  chains.flatMap(({ closed, pieces }, chain) => {
    const [first, last] = [pieces[0], pieces.at(-1)];
    if (closed || first === undefined || last === undefined) return [];
    return [{ chain, isStart: true, at: first.from, layer: first.layer }, { chain, isStart: false, at: last.to, layer: last.layer }];
  });

/** The pieces of some chains with gaps closed: both ends move to the middle between them. */
export const closeGaps = (chains: readonly Chain[], gaps: readonly Gap[]): CutPiece[] => {
  const moved = chains.map(({ pieces }) => [...pieces]);
  for (const { at, ends } of gaps) {
    for (const { chain, isStart } of ends) {
      const pieces = moved[chain] as CutPiece[];
      const i = isStart ? 0 : pieces.length - 1;
      pieces[i] = { ...(pieces[i] as CutPiece), ...(isStart ? { from: at } : { to: at }) };
    }
  }
  return moved.flat();
};
