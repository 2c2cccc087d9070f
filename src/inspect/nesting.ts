import { BoxIndex } from '../dxf/contours/box-index.ts';
import { loopOf } from '../dxf/contours/join.ts';
import { CUT_AS_ONE_MM } from '../dxf/contours/overlap.ts';
import { type Extents, loopExtents } from '../geometry/extents.ts';
import { pointGap } from '../geometry/gap.ts';
import { isInside } from '../geometry/inside.ts';
import type { Loop } from '../geometry/loop.ts';
import { signedArea } from '../geometry/measure.ts';
import { pieceOf, pointOn } from '../geometry/piece.ts';
import { isSameLoop } from '../geometry/same-loop.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { Chain } from './understand.ts';

/** A closed contour by itself. */
export interface Bare {
  readonly chain: Chain;
  readonly loop: Loop;
  readonly box: Extents;
  readonly areaMm2: number;
}

/** A closed contour with its place among the others. */
export interface Contour extends Bare {
  /** The number of contours that surround it: 0 for the outline of a part, 1 for a hole in it. */
  readonly depth: number;
  /** Number of the smallest contour that surrounds it. */
  readonly within: number | undefined;
}

/**
 * A contour that is nearly the same as another one, which is larger or was drawn earlier; no metal
 * lies between the two.
 */
export interface Twin extends Bare {
  readonly of: Bare;
}

export interface Nested {
  readonly contours: readonly Contour[];
  readonly twins: readonly Twin[];
  /** Whether all were sorted; false when there were too many. */
  readonly isComplete: boolean;
}

/** The most corners that are examined in all, so that nobody waits for long. */
const MOST_STEPS = 10_000_000;
/**
 * Two contours that are nowhere farther apart than this, mm, are one: a cutter leaves no metal
 * between them, since kerfs are 0.1 to over 1 mm wide (common practice).
 */
export const NEARLY_MM = 0.3;

/**
 * Finds which contours lie in which. They are compared from left to right, each with those alone
 * that reach beyond its left side.
 */
export const nestingOf = (chains: readonly Chain[]): Nested => {
  const all = chains.map((chain): Bare => {
    const loop = loopOf(chain);
    return { chain, loop, box: loopExtents(loop) as Extents, areaMm2: Math.abs(signedArea(loop)) };
  });
  const twins = twinsOf(all);
  const gone = new Set<Chain>(twins.map((t) => t.chain));
  const bare = all.filter((c) => !gone.has(c.chain));
  const order = bare
    .map((_, i) => i)
    .sort((a, b) => (bare[a] as Bare).box.minX - (bare[b] as Bare).box.minX);
  const round: number[][] = bare.map(() => []);
  let open: number[] = [];
  let steps = 0;
  for (const i of order) {
    const inner = bare[i] as Bare;
    open = open.filter((o) => (bare[o] as Bare).box.maxX > inner.box.minX);
    steps += open.length;
    for (const o of open) {
      const outer = bare[o] as Bare;
      steps += boxHolds(outer.box, inner.box)
        ? outer.loop.length
        : boxHolds(inner.box, outer.box)
          ? inner.loop.length
          : 0;
      if (holds(outer, inner)) round[i]?.push(o);
      else if (holds(inner, outer)) round[o]?.push(i);
    }
    open.push(i);
    if (steps > MOST_STEPS)
      return {
        contours: bare.map((b) => ({ ...b, depth: 0, within: undefined })),
        twins,
        isComplete: false,
      };
  }
  const area = (i: number): number => (bare[i] as Bare).areaMm2;
  const smallest = (some: readonly number[]): number | undefined =>
    some.length === 0 ? undefined : some.reduce((a, b) => (area(a) <= area(b) ? a : b));
  return {
    contours: bare.map((b, i) => ({
      ...b,
      depth: (round[i] as number[]).length,
      within: smallest(round[i] as number[]),
    })),
    twins,
    isComplete: true,
  };
};

const boxHolds = (a: Extents, b: Extents): boolean =>
  a.minX <= b.minX && a.minY <= b.minY && a.maxX >= b.maxX && a.maxY >= b.maxY;

const holds = (outer: Bare, inner: Bare): boolean => {
  if (!(outer.areaMm2 > inner.areaMm2 && boxHolds(outer.box, inner.box))) return false;
  const at = pointOff(outer.loop, inner.loop);
  return at !== undefined && isInside(outer.loop, at);
};

/**
 * The middle of a side of `inner` that does not lie on `outer`: contours touch at corners, and may
 * share sides.
 */
const pointOff = (outer: Loop, inner: Loop): Vec2 | undefined => {
  const step = Math.max(1, Math.floor(inner.length / MOST_SIDES));
  for (let i = 0; i < inner.length; i += step) {
    const at = pointOn(pieceOf(inner, i), 0.5);
    if (pointGap(at, outer) > 2 * CUT_AS_ONE_MM) return at;
  }
  return undefined;
};

/** The most sides that are tried. */
const MOST_SIDES = 50;

/** Contours that are nowhere farther than `NEARLY_MM` from another one. */
const twinsOf = (all: readonly Bare[]): Twin[] => {
  const index = new BoxIndex(NEARLY_MM);
  const known: Bare[] = [];
  // The larger of two is the contour; among equal ones it is the one drawn first.
  return all
    .toSorted((a, b) => b.areaMm2 - a.areaMm2)
    .flatMap((c): Twin[] => {
      const of = index
        .near(c.box)
        .map((i) => known[i] as Bare)
        .find((k) => areNearly(k, c));
      if (of !== undefined) return [{ ...c, of }];
      index.add(c.box);
      known.push(c);
      return [];
    });
};

const areNearly = (a: Bare, b: Bare): boolean =>
  (['minX', 'minY', 'maxX', 'maxY'] as const).every(
    (side) => Math.abs(a.box[side] - b.box[side]) <= NEARLY_MM,
  ) && isSameLoop(a.loop, b.loop, NEARLY_MM);
