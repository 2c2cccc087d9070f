import { type Extents, loopExtents } from '../geometry/extents.ts';
import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { pieceOf, pointOn } from '../geometry/piece.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import { type Chain, loopOf } from './contours.ts';

/** A closed contour, and how many others lie round it: none round a part, one round a hole. */
export interface Contour {
  readonly chain: Chain;
  readonly loop: Loop;
  readonly box: Extents;
  readonly areaMm2: number;
  readonly depth: number;
  /** The smallest contour round it, by its number. */
  readonly within: number | undefined;
}

export interface Nested {
  readonly contours: readonly Contour[];
  /** False when there were too many to sort out. */
  readonly isComplete: boolean;
}

/** Corners looked at in all; more takes longer than a person waits. */
const MOST_STEPS = 10_000_000;

type Bare = Omit<Contour, 'depth' | 'within'>;

/** Sorts closed chains out: which lies in which. They are gone through from left to right, so that few are compared. */
export const nestingOf = (chains: readonly Chain[]): Nested => {
  const bare = chains.filter((c) => c.closed).map((chain): Bare => {
    const loop = loopOf(chain.pieces);
    return { chain, loop, box: loopExtents(loop) as Extents, areaMm2: Math.abs(signedArea(loop)) };
  });
  const order = bare.map((_, i) => i).sort((a, b) => (bare[a] as Bare).box.minX - (bare[b] as Bare).box.minX);
  const round: number[][] = bare.map(() => []);
  let open: number[] = [];
  let steps = 0;
  for (const i of order) {
    const inner = bare[i] as Bare;
    open = open.filter((o) => (bare[o] as Bare).box.maxX > inner.box.minX);
    steps += open.length;
    for (const o of open) {
      const outer = bare[o] as Bare;
      steps += boxHolds(outer.box, inner.box) ? outer.loop.length : boxHolds(inner.box, outer.box) ? inner.loop.length : 0;
      if (holds(outer, inner)) round[i]?.push(o);
      else if (holds(inner, outer)) round[o]?.push(i);
    }
    open.push(i);
    if (steps > MOST_STEPS) return { contours: bare.map((b) => ({ ...b, depth: 0, within: undefined })), isComplete: false };
  }
  const area = (i: number): number => (bare[i] as Bare).areaMm2;
  const smallest = (all: readonly number[]): number | undefined => (all.length === 0 ? undefined : all.reduce((a, b) => (area(a) <= area(b) ? a : b)));
  return { contours: bare.map((b, i) => ({ ...b, depth: (round[i] as number[]).length, within: smallest(round[i] as number[]) })), isComplete: true };
};

const boxHolds = (a: Extents, b: Extents): boolean => a.minX <= b.minX && a.minY <= b.minY && a.maxX >= b.maxX && a.maxY >= b.maxY;

const holds = (outer: Bare, inner: Bare): boolean => outer.areaMm2 > inner.areaMm2 && boxHolds(outer.box, inner.box) && isInside(outer.loop, pointOf(inner.loop));

/** The middle of a side: corners are where contours touch. */
const pointOf = (loop: Loop): Vec2 => pointOn(pieceOf(loop, 0), 0.5);
