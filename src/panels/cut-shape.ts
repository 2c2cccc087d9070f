import type { CommonValues } from '../forms/common.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { pieceOf } from '../geometry/piece.ts';
import { selfCrossing } from '../geometry/self-crossing.ts';
import { subtract } from '../geometry/subtract.ts';
import { NOISE_MM, SAME_POINT_MM } from '../geometry/tolerance.ts';
import { along, distance, dot, leftOf, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { cornerMm, roundFreeCorners } from '../kit/free-corners.ts';
import type { Finding } from '../model/finding.ts';
import type { FoldSide } from '../model/part.ts';
import type { Stretch } from './piece.ts';
import type { Shape } from './shape.ts';

/** A stretch of an edge that is folded, along the way round the outline. */
export interface Folded {
  readonly edge: string;
  /** Nothing for the whole edge. */
  readonly stretch: Stretch | undefined;
  /** What the bend takes of the edges beside it, mm. */
  readonly setbackMm: number;
}

/** The stretch of an edge as it lies on the way round the outline. */
export const roundTheLoop = (
  { outline, backwards }: Shape,
  edge: string,
  stretch: Stretch | undefined,
): Stretch | undefined => {
  if (stretch === undefined || !backwards.has(edge)) return stretch;
  const long = lengthOf(outline, indexOf(outline, edge));
  return [long - stretch[1], long - stretch[0]];
};

const indexOf = (outline: Loop, edge: string): number =>
  outline.findIndex((vertex) => vertex.edge === edge);

const lengthOf = (outline: Loop, index: number): number => {
  const { from, to } = pieceOf(outline, index);
  return distance(from, to);
};

type Corners = Pick<CommonValues, 'cornerRadiusMm' | 'cornerChamferMm'>;

/**
 * The outline with those of its corners taken off that no fold reaches: all of a base, those at the
 * end of a flange.
 */
export const withCornersOff = (
  shape: Shape,
  folded: readonly Folded[],
  corners: Corners,
): { readonly outline: Loop; readonly findings: readonly Finding[]; readonly count: number } => {
  const { outline } = shape;
  if (cornerMm(corners) === 0) return { outline, findings: [], count: 0 };
  const spans = outline.map(({ edge }, i) => spanOf(outline, i, folded, edge));
  const free = outline.flatMap((_, i) => {
    const before = (i + outline.length - 1) % outline.length;
    const [at, last] = [spans[i], spans[before]];
    const isTaken =
      (at !== undefined && at[0] < SAME_POINT_MM) ||
      (last !== undefined && last[1] > lengthOf(outline, before) - SAME_POINT_MM);
    return isTaken ? [] : [i];
  });
  if (free.length === 0) return { outline, findings: [], count: 0 };
  // What a bend at one end of an edge takes of it has to stay straight, and so has what is folded.
  const keepMm = outline.map((_, i) => {
    const [before, after] = [(i + outline.length - 1) % outline.length, (i + 1) % outline.length];
    const [last, own, next] = [spans[before], spans[i], spans[after]];
    const isTakenAtStart =
      last !== undefined && last[1] > lengthOf(outline, before) - SAME_POINT_MM;
    const isTakenAtEnd = next !== undefined && next[0] < SAME_POINT_MM;
    return (
      (own === undefined ? 0 : own[1] - own[0]) +
      (isTakenAtStart ? last[2] : 0) +
      (isTakenAtEnd ? next[2] : 0)
    );
  });
  const rounded = roundFreeCorners(shape.id, outline, free, corners, keepMm);
  return { ...rounded, count: free.length };
};

/** From the first to the last of what is folded on an edge, and the largest setback there. */
const spanOf = (
  outline: Loop,
  index: number,
  folded: readonly Folded[],
  edge: string | undefined,
): readonly [from: number, to: number, setbackMm: number] | undefined => {
  const own = folded.filter((f) => f.edge === edge);
  if (own.length === 0) return undefined;
  const long = lengthOf(outline, index);
  return [
    Math.min(...own.map(({ stretch }) => stretch?.[0] ?? 0)),
    Math.max(...own.map(({ stretch }) => stretch?.[1] ?? long)),
    Math.max(...own.map(({ setbackMm }) => setbackMm)),
  ];
};

/**
 * Where a stretch of an edge of a shape lies on what is left of its outline; nothing where a corner
 * or a notch took some of it.
 */
export const sideOn = (
  shape: Shape,
  outline: Loop,
  { edge, stretch }: Pick<Folded, 'edge' | 'stretch'>,
): Omit<FoldSide, 'panel'> | undefined => {
  const index = indexOf(shape.outline, edge);
  if (outline === shape.outline)
    return { edge: index, ...(stretch !== undefined && { from: stretch[0], to: stretch[1] }) };
  const whole = pieceOf(shape.outline, index);
  const dir = unit(sub(whole.to, whole.from));
  const [from, to] = stretch ?? [0, distance(whole.from, whole.to)];
  const [p, q] = [along(whole.from, dir, from), along(whole.from, dir, to)];
  for (const [i, vertex] of outline.entries()) {
    if (vertex.edge !== edge || vertex.bulge !== 0) continue;
    const piece = pieceOf(outline, i);
    const long = distance(piece.from, piece.to);
    const [a, b] = [dot(sub(p, piece.from), dir), dot(sub(q, piece.from), dir)];
    if (Math.abs(dot(leftOf(dir), sub(p, piece.from))) > SAME_POINT_MM) continue;
    if (a < -SAME_POINT_MM || b > long + SAME_POINT_MM) continue;
    return a < NOISE_MM && b > long - NOISE_MM
      ? { edge: i }
      : { edge: i, from: Math.max(0, a), to: Math.min(long, b) };
  }
  return undefined;
};

/**
 * Stretches of an edge that are left on an outline, along the way round it from where the edge
 * began.
 */
export const leftOfEdge = (shape: Shape, outline: Loop, edge: string): Stretch[] => {
  const whole = pieceOf(shape.outline, indexOf(shape.outline, edge));
  const dir = unit(sub(whole.to, whole.from));
  return outline.flatMap((vertex, i): Stretch[] => {
    if (vertex.edge !== edge || vertex.bulge !== 0) return [];
    const { from, to } = pieceOf(outline, i);
    return [[dot(sub(from, whole.from), dir), dot(sub(to, whole.from), dir)]];
  });
};

export type Notched =
  | { readonly kind: 'inside' }
  | { readonly kind: 'across a fold' }
  | { readonly kind: 'apart' }
  /** It touches the outline in a point, where it neither opens it nor leaves metal. */
  | { readonly kind: 'touching'; readonly at: Vec2 }
  | { readonly kind: 'notch'; readonly outline: Loop };

/**
 * A cut-out against the outline of its panel: one that lies within stays a cut-out, one that reaches
 * over free edges is a notch of the outline, one that reaches over a fold is cut in the flat.
 */
export const notched = (
  shape: Shape,
  outline: Loop,
  cut: Loop,
  folded: readonly Folded[],
): Notched => {
  const onCut = ([x, y]: readonly [number, number], bulge: number): Vertex => ({ x, y, bulge });
  const parts = subtract(outline, cut, onCut);
  if (parts === undefined || parts.length === 0) return { kind: 'apart' };
  const [left] = parts as [Loop];
  if (parts.length === 1 && left === outline) return { kind: 'inside' };
  const touching = parts.length === 1 ? selfCrossing(left) : undefined;
  if (touching !== undefined) return { kind: 'touching', at: touching.at };
  const holds = (part: Loop): boolean =>
    folded.every(
      (f) => sideOn(shape, outline, f) === undefined || sideOn(shape, part, f) !== undefined,
    );
  if (parts.length > 1) return { kind: parts.some(holds) ? 'apart' : 'across a fold' };
  return holds(left) ? { kind: 'notch', outline: left } : { kind: 'across a fold' };
};
