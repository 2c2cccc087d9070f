import { type Loop, type Vertex, vertexAt } from '../geometry/loop.ts';
import { levelCrossings, partBulge, pieceOf, pointOn } from '../geometry/piece.ts';
import { distance, dot, leftOf, scale, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { NOISE_SHARE } from '../geometry/tolerance.ts';

/** A line across the blank. */
export interface Chord {
  readonly id: string;
  readonly from: Vec2;
  readonly to: Vec2;
}

/** A fold between two regions; seen along `dir` the first lies on the left. */
export interface Crease {
  readonly id: string;
  readonly parent: number;
  readonly child: number;
  readonly at: Vec2;
  readonly dir: Vec2;
  /** The ends of the fold line. */
  readonly ends: readonly [Vec2, Vec2];
}

/** The blank cut at its fold lines; a parent comes before its children. */
export interface Split {
  readonly regions: readonly Loop[];
  readonly creases: readonly Crease[];
}

/** One end of a chord on the outline: the index of the piece plus the share of it. */
interface End {
  readonly chord: number;
  readonly at: Vec2;
  readonly u: number;
  /** The same value for all ends that lie at one point. */
  base: number;
}

/** Fold lines that run into one corner end no farther apart than this, mm. */
const SAME_CORNER_MM = 0.02;

/**
 * Chords that do not cross cut a loop as brackets cut a line of text: on the way round, each opens
 * a region at its first end and closes it at its second. Where that fails the result is the name of
 * a fold, which crosses another one.
 */
export const splitAtFolds = (
  outline: Loop,
  chords: readonly Chord[],
): Split | { readonly crossing: string } => {
  const ends = orderedEnds(outline, chords);
  const open = new Map<number, { parent: number; end: End }>();
  const regions: Vertex[][] = [[]];
  const creases: Crease[] = [];
  const inside: number[] = [];
  let [current, at] = [0, ends[0]?.u ?? 0];
  for (const end of ends) {
    regions[current] = [
      ...(regions[current] as Vertex[]),
      ...stretch(outline, at, end.u),
      { x: end.at[0], y: end.at[1], bulge: 0 },
    ];
    at = end.u;
    const chord = chords[end.chord] as Chord;
    const start = open.get(end.chord);
    if (start === undefined) {
      open.set(end.chord, { parent: current, end });
      inside.push(end.chord);
      regions.push([]);
      current = regions.length - 1;
      continue;
    }
    if (inside.pop() !== end.chord) return { crossing: chord.id };
    const along = unit(sub(chord.to, chord.from));
    const dir = dot(along, sub(end.at, start.end.at)) < 0 ? scale(along, -1) : along;
    creases.push({
      id: chord.id,
      parent: start.parent,
      child: current,
      at: chord.from,
      dir,
      ends: [chord.from, chord.to],
    });
    current = start.parent;
  }
  const last = ends.length === 0 ? outline.length : (ends[0] as End).u + outline.length;
  regions[0] = [...(regions[0] as Vertex[]), ...stretch(outline, at, last)];
  // A region is numbered when it is opened, so a parent has a smaller number than its children.
  return { regions, creases: creases.sort((a, b) => a.child - b.child) };
};

const orderedEnds = (outline: Loop, chords: readonly Chord[]): End[] => {
  const n = outline.length;
  const ends = chords.flatMap((c, chord) =>
    [c.from, c.to].map((p): End => ({
      chord,
      ...onOutline(outline, p, sub(c.to, c.from)),
      base: 0,
    })),
  );
  ends.sort((a, b) => a.u - b.u);
  ends.forEach((end, i) => {
    const before = ends[i - 1];
    end.base =
      before !== undefined && distance(before.at, end.at) < SAME_CORNER_MM ? before.base : end.u;
  });
  const [first, last] = [ends[0], ends.at(-1)];
  // This is a corner that the numbering of the outline starts in the middle of.
  if (
    first !== undefined &&
    last !== undefined &&
    first.base !== last.base &&
    distance(first.at, last.at) < SAME_CORNER_MM
  ) {
    for (const end of ends) if (end.base === last.base) end.base = first.base;
  }
  const other = (end: End): End => ends.find((e) => e !== end && e.chord === end.chord) as End;
  // Chords at one point close before others open. First comes the one that opened last, then the
  // one that closes last.
  const key = (end: End): number => (((end.base - other(end).base) % n) + n) % n;
  const keys = new Map(ends.map((end) => [end, key(end)]));
  return ends
    .sort((a, b) => a.base - b.base || (keys.get(a) as number) - (keys.get(b) as number))
    .map((e) => ({ ...e, u: e.base }));
};

/**
 * The place where the line of a fold meets the outline nearest to its end; the nearest corner where
 * it meets none.
 */
const onOutline = (outline: Loop, p: Vec2, dir: Vec2): { at: Vec2; u: number } => {
  const normal = leftOf(unit(dir));
  const level = dot(normal, p);
  let best = { at: p, u: 0, far: Infinity };
  const offer = (at: Vec2, u: number, extra: number): void => {
    const far = distance(at, p) + extra;
    if (far < best.far) best = { at, u, far };
  };
  for (let i = 0; i < outline.length; i++) {
    const piece = pieceOf(outline, i);
    offer(piece.from, i, SAME_CORNER_MM);
    for (const t of levelCrossings(piece, normal, level))
      offer(pointOn(piece, t), (i + t) % outline.length, 0);
  }
  return best;
};

/** The vertices of the outline from one place on it up to a later one, without that one. */
const stretch = (outline: Loop, from: number, to: number): Vertex[] => {
  const vertices: Vertex[] = [];
  for (let u = from; u < to - NOISE_SHARE;) {
    const i = Math.floor(u + NOISE_SHARE);
    const [t0, t1] = [Math.max(0, u - i), Math.min(1, to - i)];
    const piece = pieceOf(outline, i);
    const [x, y] = t0 === 0 ? [vertexAt(outline, i).x, vertexAt(outline, i).y] : pointOn(piece, t0);
    vertices.push({ x, y, bulge: partBulge(piece.bulge, t0, t1) });
    u = i + 1;
  }
  return vertices;
};
