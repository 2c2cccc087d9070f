import { closedBy, joined, JOINED_MM, loopOf } from '../dxf/contours/join.ts';
import { commonStretches, type Doubled, once, SAME_MM, without } from '../dxf/contours/overlap.ts';
import { PointIndex } from '../dxf/contours/point-index.ts';
import { layerKey } from '../dxf/read/layers.ts';
import { loopExtents } from '../geometry/extents.ts';
import type { Loop } from '../geometry/loop.ts';
import type { Piece } from '../geometry/piece.ts';
import { isSameLoop } from '../geometry/same-loop.ts';
import { distance, type Vec2 } from '../geometry/vec2.ts';
import { byKey } from '../grouped.ts';

/** A straight line or an arc to be cut, with what it comes from. */
export interface CutPiece extends Piece {
  readonly layer: string;
  readonly entity: number;
  /** Its number among the pieces as they are drawn; parts of one piece share it. */
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
 * Which contours some pieces make. What one entity closes by itself is a contour. The rest is joined layer by layer, so
 * that a fold line that ends in two corners of an outline does not cut it in two; what is left over then is joined across
 * layers. A contour that is drawn twice counts once; an edge that two contours share belongs to both.
 */
export const understood = (pieces: readonly CutPiece[], doubled: readonly Doubled[]): Understood => {
  const entities = [...byKey(pieces, (p) => p.entity).values()].map((all) => (isRound(all) ? closedBy(all) : { closed: [], open: all.map((p) => [p]) }));
  const loose = entities.flatMap((e) => e.open.flat());
  const layers = [...byKey(loose, (p) => layerKey(p.layer)).values()].map((all) => joined(onceOf(all, doubled)));
  const closed = distinct([...entities, ...layers].flatMap((j) => j.closed));
  const left = besides(layers.flatMap((j) => j.open.flat()), closed, doubled);
  const across = joined(left);
  return { closed: distinct([...closed, ...across.closed]), open: across.open };
};

const isRound = (pieces: readonly CutPiece[]): boolean => {
  const [first, last] = [pieces[0] as CutPiece, pieces.at(-1) as CutPiece];
  return pieces.length > 1 && distance(first.from, last.to) <= JOINED_MM && pieces.every((p, i) => i === 0 || distance((pieces[i - 1] as CutPiece).to, p.from) <= JOINED_MM);
};

/** Some of the pieces, no stretch of them twice. */
const onceOf = (some: readonly CutPiece[], doubled: readonly Doubled[]): CutPiece[] => {
  if (doubled.length === 0) return [...some];
  const own = new Map(some.map((p, i) => [p.source, i]));
  return once(some, doubled.flatMap((d) => {
    const [kept, piece] = [own.get(d.kept), own.get(d.piece)];
    return kept === undefined || piece === undefined ? [] : [{ ...d, kept, piece }];
  }));
};

/** Contours that are drawn twice, but for the first of each. */
const distinct = (chains: readonly Chain[]): Chain[] => {
  const index = new PointIndex(2 * SAME_MM);
  const kept: Loop[] = [];
  return chains.filter((chain) => {
    const loop = loopOf(chain);
    const at = middleOf(loop);
    if (index.near(at).some((i) => isSameLoop(kept[i] as Loop, loop, SAME_MM))) return false;
    index.add(at);
    kept.push(loop);
    return true;
  });
};

const middleOf = (loop: Loop): Vec2 => {
  const box = loopExtents(loop);
  return box === undefined ? [0, 0] : [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
};

/** What is left of loose pieces without the stretches that contours, or earlier ones of them, draw already. */
const besides = (loose: readonly CutPiece[], closed: readonly Chain[], doubled: readonly Doubled[]): CutPiece[] => {
  if (doubled.length === 0) return [...loose];
  const inContours = byKey(closed.flat(), (p) => p.source);
  const inLoose = byKey(loose, (p) => p.source);
  const partners = byKey(doubled.flatMap(({ kept, piece }) => [{ of: kept, is: piece }, { of: piece, is: kept }]), (pair) => pair.of);
  return loose.flatMap((p) => {
    const others = (partners.get(p.source) ?? []).flatMap(({ is: s }) => [...(inContours.get(s) ?? []), ...(s < p.source ? (inLoose.get(s) ?? []) : [])]);
    return without(p, others.flatMap((other) => commonStretches(other, p)));
  });
};
