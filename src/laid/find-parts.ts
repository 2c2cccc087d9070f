import type { Loop, Vertex } from '../geometry/loop.ts';
import { perimeter, signedArea } from '../geometry/measure.ts';
import { type Motion2, motionBetween, moveLoop, movePoint } from '../geometry/motion2.ts';
import { pieceOf, startDirection } from '../geometry/piece.ts';
import { isSameLoop } from '../geometry/same-loop.ts';
import { circle } from '../geometry/shapes.ts';
import { PROOF_MM } from '../geometry/tolerance.ts';
import { distance, type Vec2 } from '../geometry/vec2.ts';
import type { Drawing } from '../model/drawing.ts';
import type { LaidPart } from '../model/laid.ts';

/** A part as it should lie: its name, its edge and its inner cuts. */
export interface Wanted {
  readonly name: string;
  readonly outline: Loop;
  readonly inner: readonly Loop[];
}

/** A part that was found: which of the closed lines are its own, and how far it lies from its place. */
export interface Found {
  readonly outline: Loop;
  readonly inner: readonly Loop[];
  /** Inner cuts that the file does not have. */
  readonly lost: number;
  /** How far it lies from where it should, the farthest of its corners, mm. */
  readonly offMm: number;
  readonly isOtherFace: boolean;
}

/** Shapes whose areas or lengths differ by more than this share are not the same. */
const ALIKE_SHARE = 1e-3;

/**
 * The cuts of a part by its own drawing, as they should lie on the sheet. It turns and moves points
 * by itself, so that it shares no mistake with what drew the sheet.
 */
export const wantedOf = ({ items }: Drawing, lies: LaidPart): Wanted => {
  const loops = items.flatMap((item): Loop[] => {
    if (item.role !== 'outline' && item.role !== 'hole' && item.role !== 'cut') return [];
    if (item.kind === 'circle') return [circle(item.centre, item.radius)];
    return item.kind === 'loop' ? [item.loop] : [];
  });
  const placed = loops.map((loop) => asLaid(loop, lies));
  const largest = placed.reduce((most, loop) => (areaOf(loop) > areaOf(most) ? loop : most), []);
  return {
    name: lies.copy === 1 ? lies.name : `${lies.name} (${lies.copy})`,
    outline: largest,
    inner: placed.filter((loop) => loop !== largest),
  };
};

const areaOf = (loop: Loop): number => (loop.length < 2 ? 0 : Math.abs(signedArea(loop)));

/** Turned over (x becomes -x), turned, moved; walked backwards where it was turned over. */
const asLaid = (loop: Loop, { turnedOver, turnDeg, xMm, yMm }: LaidPart): Loop => {
  const turn = (turnDeg * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const points = loop.map(({ x, y, bulge }): Vertex => {
    const u = turnedOver ? -x : x;
    return { x: u * c - y * s + xMm, y: u * s + y * c + yMm, bulge };
  });
  return turnedOver ? backwards(points) : points;
};

/**
 * A mirrored loop runs the other way; walked backwards, each corner has the bulge of the piece
 * before it.
 */
const backwards = (loop: Loop): Loop =>
  loop.map((_, i) => {
    const at = loop[loop.length - 1 - i] as Vertex;
    const before = loop[(2 * loop.length - 2 - i) % loop.length] as Vertex;
    return { ...at, bulge: before.bulge };
  });

/**
 * Finds the parts among the closed lines of a file by their shape, each line for one part: first
 * those that lie in their places, then the others wherever they lie, nearest first. What is left of
 * the lines belongs to no part.
 */
export const findParts = (
  wanted: readonly Wanted[],
  lines: readonly Loop[],
): { readonly found: ReadonlyMap<Wanted, Found>; readonly strays: readonly Loop[] } => {
  const left = new Set(lines);
  const found = new Map<Wanted, Found>();
  const take = (part: Wanted, outline: Loop, to: Motion2, isOtherFace: boolean): void => {
    left.delete(outline);
    const inner = (isOtherFace ? part.inner.map(overY) : part.inner).map((hole) =>
      [...left].find((line) => isSame(moveLoop(to, hole), line)),
    );
    const own = inner.filter((line) => line !== undefined);
    for (const line of own) left.delete(line);
    const start = isOtherFace ? overY(part.outline) : part.outline;
    const offMm = isOtherFace ? 0 : farthest(start, to);
    found.set(part, { outline, inner: own, lost: inner.length - own.length, offMm, isOtherFace });
  };
  for (const part of wanted) {
    const line = [...left].find((one) => isSame(part.outline, one));
    if (line !== undefined) take(part, line, { c: 1, s: 0, x: 0, y: 0 }, false);
  }
  for (const isOtherFace of [false, true])
    for (const part of wanted) {
      if (found.has(part)) continue;
      const shape = isOtherFace ? overY(part.outline) : part.outline;
      const places = [...left]
        .map((line) => ({ line, to: motionOnto(shape, line) }))
        .flatMap(({ line, to }) =>
          to === undefined ? [] : [{ line, to, off: farthest(shape, to) }],
        )
        .toSorted((a, b) => a.off - b.off);
      const [nearest] = places;
      if (nearest !== undefined) take(part, nearest.line, nearest.to, isOtherFace);
    }
  return { found, strays: [...left] };
};

const overY = (loop: Loop): Loop => backwards(loop.map((v) => ({ ...v, x: -v.x })));

const farthest = (loop: Loop, to: Motion2): number =>
  Math.max(...loop.map(({ x, y }) => distance([x, y], movePoint(to, [x, y]))));

const isSame = (a: Loop, b: Loop): boolean => isAlike(a, b) && isSameLoop(a, b, PROOF_MM);

const isAlike = (a: Loop, b: Loop): boolean =>
  Math.abs(areaOf(a) - areaOf(b)) <= ALIKE_SHARE * areaOf(a) + PROOF_MM &&
  Math.abs(perimeter(a) - perimeter(b)) <= ALIKE_SHARE * perimeter(a) + PROOF_MM;

/** The motion that lays a shape onto a line, of several the one that moves it least. */
const motionOnto = (shape: Loop, line: Loop): Motion2 | undefined => {
  if (!isAlike(shape, line)) return undefined;
  const longest = shape.reduce(
    (best, _, i) => (lengthAt(shape, i) > lengthAt(shape, best) ? i : best),
    0,
  );
  const [at, way] = [pointAt(shape, longest), startDirection(pieceOf(shape, longest))];
  const fits = line
    .map((_, i) => motionBetween(at, way, pointAt(line, i), startDirection(pieceOf(line, i))))
    .filter((to) => isSameLoop(moveLoop(to, shape), line, PROOF_MM));
  return fits.toSorted((a, b) => farthest(shape, a) - farthest(shape, b))[0];
};

const pointAt = (loop: Loop, i: number): Vec2 => [loop[i]?.x ?? 0, loop[i]?.y ?? 0];

const lengthAt = (loop: Loop, i: number): number => {
  const { from, to } = pieceOf(loop, i);
  return distance(from, to);
};
