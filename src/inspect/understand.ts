import { BoxIndex } from '../dxf/contours/box-index.ts';
import { closedBy, joined, JOINED_MM, loopOf, onRounds } from '../dxf/contours/join.ts';
import { commonStretches, once, CUT_AS_ONE_MM, without } from '../dxf/contours/overlap.ts';
import { layerKey } from '../dxf/read/layers.ts';
import { type Extents, loopExtents } from '../geometry/extents.ts';
import type { Loop } from '../geometry/loop.ts';
import type { Piece } from '../geometry/piece.ts';
import { isSameLoop } from '../geometry/same-loop.ts';
import { distance } from '../geometry/vec2.ts';
import { byKey } from '../text/grouped.ts';
import type { Meetings } from './meetings.ts';

/** A straight line or an arc to be cut, with what it comes from. */
export interface CutPiece extends Piece {
  readonly layer: string;
  readonly entity: number;
  /** Its number among the pieces as they are drawn; parts of one piece have the same number. */
  readonly source: number;
}

/** Pieces end to end. */
export type Chain = readonly CutPiece[];

export interface Understood {
  /** Each closed line once, counter-clockwise; two of them may share an edge. */
  readonly closed: readonly Chain[];
  readonly open: readonly Chain[];
}

/**
 * Which contours some pieces make. A line that one entity closes by itself is a contour. The rest
 * is joined layer by layer, so that a fold line that ends in two corners of an outline does not cut
 * it in two. A contour that is drawn twice counts once; an edge that two contours share belongs to
 * both. Each open chain is on one layer.
 */
export const understood = (pieces: readonly CutPiece[], meetings: Meetings): Understood => {
  const { doubled } = meetings;
  const entities = [...byKey(pieces, (p) => p.entity).values()].map((all) =>
    isRound(all) ? closedBy(all) : { closed: [], open: all.map((p) => [p]) },
  );
  const loose = entities.flatMap((e) => e.open.flat());
  const layers = [...byKey(loose, (p) => layerKey(p.layer)).values()].map((all) =>
    joined(onceOf(all, meetings)),
  );
  const closed = distinct([...entities, ...layers].flatMap((j) => j.closed));
  const left = besides(
    layers.flatMap((j) => j.open.flat()),
    closed,
    doubled,
  );
  const open = [...byKey(left, (p) => layerKey(p.layer)).values()].flatMap(
    (all) => joined(all).open,
  );
  return { closed, open };
};

const isRound = (pieces: readonly CutPiece[]): boolean => {
  const [first, last] = [pieces[0] as CutPiece, pieces.at(-1) as CutPiece];
  return (
    pieces.length > 1 &&
    distance(first.from, last.to) <= JOINED_MM &&
    pieces.every((p, i) => i === 0 || distance((pieces[i - 1] as CutPiece).to, p.from) <= JOINED_MM)
  );
};

/**
 * Some of the pieces, with no stretch of them twice. Those on a round are cut where they cross,
 * because rounds that cross make a plan with corners there.
 */
const onceOf = (some: readonly CutPiece[], { doubled, meetings }: Meetings): CutPiece[] => {
  const own = new Map(some.map((p, i) => [p.source, i]));
  const twice = doubled.flatMap((d) => {
    const [kept, piece] = [own.get(d.kept), own.get(d.piece)];
    return kept === undefined || piece === undefined ? [] : [{ ...d, kept, piece }];
  });
  const single = twice.length === 0 ? [...some] : once(some, twice);
  if (!meetings.some((m) => m.kind === 'cross')) return single;
  const round = new Set(onRounds(single).map((p) => p.source));
  const cuts = meetings
    .filter(
      ({ kind, a, b }) =>
        kind === 'cross' && own.has(a) && own.has(b) && round.has(a) && round.has(b),
    )
    .flatMap(({ a, b, at }) =>
      [a, b].flatMap((source) => {
        const piece = own.get(source);
        return piece === undefined ? [] : [{ piece, at }];
      }),
    );
  return cuts.length === 0 ? single : once(some, twice, cuts);
};

/** The contours, without repetitions of one that is drawn twice. */
const distinct = (chains: readonly Chain[]): Chain[] => {
  const index = new BoxIndex(CUT_AS_ONE_MM);
  const kept: Loop[] = [];
  return chains.filter((chain) => {
    const loop = loopOf(chain);
    const box = loopExtents(loop) as Extents;
    if (index.near(box).some((i) => isSameLoop(kept[i] as Loop, loop, CUT_AS_ONE_MM))) return false;
    index.add(box);
    kept.push(loop);
    return true;
  });
};

/**
 * What is left of loose pieces without the stretches that contours, or earlier pieces among them,
 * draw already.
 */
const besides = (
  loose: readonly CutPiece[],
  closed: readonly Chain[],
  doubled: Meetings['doubled'],
): CutPiece[] => {
  if (doubled.length === 0) return [...loose];
  const inContours = byKey(closed.flat(), (p) => p.source);
  const inLoose = byKey(loose, (p) => p.source);
  const partners = byKey(
    doubled.flatMap(({ kept, piece }) => [
      { of: kept, is: piece },
      { of: piece, is: kept },
    ]),
    (pair) => pair.of,
  );
  return loose.flatMap((p) => {
    const others = (partners.get(p.source) ?? []).flatMap(({ is: s }) => [
      ...(inContours.get(s) ?? []),
      ...(s < p.source ? (inLoose.get(s) ?? []) : []),
    ]);
    return without(
      p,
      others.flatMap((other) => commonStretches(other, p)),
    );
  });
};
