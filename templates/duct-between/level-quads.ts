import { cosDeg, cross3, dot3, length3, sinDeg, sub3 } from '../../src/template.ts';
import type { Vec3 } from '../../src/template.ts';
import { type DuctEnds, placedAt } from './ends.ts';
import { type Round, roundAt, type Span } from './spans.ts';

/**
 * The divisions of a stretch that is round at both ends, moved a little so that each chord of the
 * one lies in one plane with that of the other: one facet in place of two with a slight fold
 * between them. Where the ends are parallel they lie so already. The divisions of both are moved by
 * the least that does it (Newton's steps of least length); stretches where that goes nowhere stay
 * as they are.
 */
export const withLevelQuads = (
  ends: DuctEnds,
  span: Span,
  grown: Readonly<Record<'near' | 'far', number | undefined>>,
): Span => {
  const parts = span.near.length - 1;
  if (parts < 2 || span.far.length !== span.near.length) return span;
  const middle = (degs: readonly number[]): number =>
    ((degs[0] as number) + (degs.at(-1) as number)) / 2;
  const near = roundAt(ends.near, middle(span.near));
  const far = roundAt(ends.far, middle(span.far));
  if (near === undefined || far === undefined) return span;
  const on: Rounds = {
    near: pointsOn(ends, 'near', { ...near, radius: grown.near ?? near.radius }),
    far: pointsOn(ends, 'far', { ...far, radius: grown.far ?? far.radius }),
  };
  let moved = span;
  for (let step = 0; step < MOST_STEPS; step++) {
    const off = span.near.slice(1).map((_, j) => twist(on, moved, j));
    if (Math.max(...off.map(Math.abs)) < LEVEL) return isInOrder(span, moved) ? moved : span;
    moved = stepped(on, moved, off);
  }
  return span;
};

type PointAt = (deg: number) => Vec3;
interface Rounds {
  readonly near: PointAt;
  readonly far: PointAt;
}

const pointsOn =
  (ends: DuctEnds, name: 'near' | 'far', { centre: [x, y], radius }: Round): PointAt =>
  (deg) =>
    placedAt(ends[name].pose, [x + radius * cosDeg(deg), y + radius * sinDeg(deg)]);

/** Newton's method doubles its figures each time; these many are never needed where it gets there. */
const MOST_STEPS = 16;

/** A twist as small as the rounding of its own products, as a sine. */
const LEVEL = 1e-13;

/**
 * How far a pair of chords is from one plane, as the sine by which the far one is turned out: from
 * the directions of both ends of the near one, and of the far one.
 */
const twistOf = ({ near, far }: Rounds, [from, to]: Degs, [start, end]: Degs): number => {
  const [a, b, c, d] = [near(from), near(to), far(start), far(end)];
  const [chord, other, up] = [sub3(b, a), sub3(d, c), sub3(c, a)];
  return dot3(cross3(chord, up), other) / (length3(chord) * length3(up) * length3(other));
};

type Degs = readonly [number, number];

const chordAt = (degs: readonly number[], j: number): Degs => [
  degs[j] as number,
  degs[j + 1] as number,
];

const twist = (on: Rounds, { near, far }: Span, j: number): number =>
  twistOf(on, chordAt(near, j), chordAt(far, j));

/** Step for derivatives, degrees: where rounding and curvature weigh alike. */
const NUDGE_DEG = 1e-4;

/**
 * One step of least length. Twist j depends on division j and j + 1 of both ends, so that the
 * normal equations have three diagonals.
 */
const stepped = (on: Rounds, span: Span, off: readonly number[]): Span => {
  const slopes = (['near', 'far'] as const).map((name) =>
    span[name].map((_, k) => {
      if (k === 0 || k === span[name].length - 1) return [0, 0] as const;
      // Of a chord the one end is moved, and nothing else.
      const slope = (j: number): number => {
        const [more, less] = [NUDGE_DEG, -NUDGE_DEG].map((by) => {
          const [from, to] = chordAt(span[name], j);
          const moved: Degs = j === k ? [from + by, to] : [from, to + by];
          return name === 'near'
            ? twistOf(on, moved, chordAt(span.far, j))
            : twistOf(on, chordAt(span.near, j), moved);
        }) as [number, number];
        return (more - less) / (2 * NUDGE_DEG);
      };
      return [slope(k - 1), slope(k)] as const;
    }),
  );
  const n = off.length;
  const sum = (of: (one: readonly (readonly [number, number])[]) => number): number =>
    slopes.reduce((total, one) => total + of(one), 0);
  const diagonal = off.map((_, j) =>
    sum((s) => (s[j] as [number, number])[1] ** 2 + (s[j + 1] as [number, number])[0] ** 2),
  );
  const beside = off
    .slice(1)
    .map((_, j) =>
      sum((s) => (s[j + 1] as [number, number])[0] * (s[j + 1] as [number, number])[1]),
    );
  const weights = solved(diagonal, beside, off);
  const move = (name: 0 | 1, degs: readonly number[]): number[] =>
    degs.map((deg, k) => {
      const [before, after] = (slopes[name] as (readonly [number, number])[])[k] as readonly [
        number,
        number,
      ];
      return deg - before * (weights[k - 1] ?? 0) - after * (k < n ? (weights[k] ?? 0) : 0);
    });
  return { near: move(0, span.near), far: move(1, span.far) };
};

/** Solves a symmetric system of three diagonals by elimination. */
const solved = (
  diagonal: readonly number[],
  beside: readonly number[],
  right: readonly number[],
): number[] => {
  const [d, r] = [[...diagonal], [...right]];
  for (let j = 1; j < d.length; j++) {
    const share = (beside[j - 1] as number) / (d[j - 1] as number);
    d[j] = (d[j] as number) - share * (beside[j - 1] as number);
    r[j] = (r[j] as number) - share * (r[j - 1] as number);
  }
  const x = Array.from({ length: d.length }, () => 0);
  for (let j = d.length - 1; j >= 0; j--)
    x[j] = ((r[j] as number) - (beside[j] ?? 0) * (x[j + 1] ?? 0)) / (d[j] as number);
  return x;
};

/** Whether all divisions still follow each other, none nearer to the next than this share of before. */
const isInOrder = (before: Span, after: Span): boolean =>
  (['near', 'far'] as const).every((name) =>
    after[name].slice(1).every((deg, k) => {
      const gap = (before[name][k + 1] as number) - (before[name][k] as number);
      return deg - (after[name][k] as number) > LEAST_SHARE * gap;
    }),
  );

const LEAST_SHARE = 1 / 3;
