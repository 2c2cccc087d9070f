import type { Loop, Vertex } from '../../geometry/loop.ts';
import { pieceOf } from '../../geometry/piece.ts';
import { along, cross, distance, dot, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import { type Finding, note } from '../../model/finding.ts';
import type { FlatBend } from '../../model/flat.ts';

/** A V cut into the edge, mm. */
export interface NickSize {
  readonly widthMm: number;
  readonly depthMm: number;
  /** Least straight edge on either side of it. */
  readonly besideMm: number;
}

/**
 * Wide enough for the cut to turn in, deep enough to be felt with a square, clear of corners
 * (common practice).
 */
export const nickFor = (kerfMm: number): NickSize => ({
  widthMm: Math.max(1, 1.5 * kerfMm),
  depthMm: Math.max(1.5, 2 * kerfMm),
  besideMm: Math.max(0.5, kerfMm),
});

/** A blank's outline with its nicks, and the folds that lack one at an end. */
export interface Nicked {
  readonly outline: Loop;
  readonly without: readonly string[];
}

/**
 * The edge of the metal with a nick at both ends of every bend, pointing along its line; its width
 * is measured square to that line. An end that lies on no straight edge long enough, in a relief
 * for one, gets none, nor does one whose nick leaves an outline that `canCut` refuses.
 */
export const withNicks = (
  outline: Loop,
  bends: readonly FlatBend[],
  size: NickSize,
  canCut: (loop: Loop) => boolean,
): Nicked => {
  let nickedSoFar = outline;
  const without: string[] = [];
  for (const {
    id,
    centreLine: [a, b],
  } of bends) {
    for (const [end, other] of [
      [a, b],
      [b, a],
    ] as const) {
      const next = nicked(nickedSoFar, end, unit(sub(other, end)), size);
      if (next !== undefined && canCut(next)) nickedSoFar = next;
      else if (!without.includes(id)) without.push(id);
    }
  }
  return { outline: nickedSoFar, without };
};

/** What is said of folds that have no nick at an end. */
export const nickFindings = ({ without }: Nicked): readonly Finding[] =>
  without.length === 0
    ? []
    : [
        note(
          'fold-without-nick',
          `${without.length === 1 ? 'Fold' : 'Folds'} ${without.join(', ')}: an end has no nick, for it lies in a relief or on no straight edge long enough. Mark it by the relief or by the sizes on the sheet.`,
        ),
      ];

/** How far an end may lie off the edge it belongs to, mm. */
const SLACK_MM = 0.01;

/**
 * A fold line that makes a smaller angle with the edge, about 12 degrees, runs along it rather than
 * across it.
 */
const LEAST_ACROSS = 0.2;

const nicked = (
  loop: Loop,
  end: Vec2,
  inward: Vec2,
  { widthMm, depthMm, besideMm }: NickSize,
): Loop | undefined => {
  for (const [i] of loop.entries()) {
    const { from, to, bulge } = pieceOf(loop, i);
    const long = distance(from, to);
    if (bulge !== 0 || long <= widthMm) continue;
    const dir = unit(sub(to, from));
    const reach = dot(sub(end, from), dir);
    const at = along(from, dir, reach);
    // The edge must be crossed, not run along; its metal lies on the left.
    const across = cross(dir, inward);
    const half = widthMm / 2 / across;
    if (
      across < LEAST_ACROSS ||
      distance(at, end) > SLACK_MM ||
      reach < half + besideMm ||
      reach > long - half - besideMm
    )
      continue;
    const corner = ([x, y]: Vec2): Vertex => ({ x, y, bulge: 0 });
    const v = [along(at, dir, -half), along(at, inward, depthMm), along(at, dir, half)].map(corner);
    return [...loop.slice(0, i + 1), ...v, ...loop.slice(i + 1)];
  }
  return undefined;
};
