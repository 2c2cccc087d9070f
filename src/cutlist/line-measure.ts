import { farthestApart, reachAlong } from '../geometry/fit.ts';
import { dot, type Vec2 } from '../geometry/vec2.ts';
import type { Extents } from '../geometry/extents.ts';

/** What the measure needs to know of a blank: its hull, and a rectangle inside its metal. */
export interface Lying {
  readonly hull: readonly Vec2[];
  readonly core: Extents;
}

/**
 * The least total length that a blank covers on a set of lines across a sheet `alongMm` x
 * `acrossMm`, however it is turned and wherever it lies. The `lines` lines run across the sheet and
 * divide its length into equal parts. Blanks on one sheet have no metal in common, so together they
 * cover no more than the length of the lines. The result may be slightly too small, and is never
 * too large.
 */
export const leastOnLines = (
  blank: Lying,
  alongMm: number,
  acrossMm: number,
  lines: number,
): number => {
  const reach = farthestApart(blank.hull);
  const spacing = alongMm / (lines + 1);
  if (reach < spacing) return 0;
  const question: Question = { ...blank, ...rectangleOf(blank), alongMm, acrossMm, lines, reach };
  const slackMm = SLACK_SHARE * Math.min(question.longMm, question.wideMm);
  const open = Array.from({ length: STARTS }, (_, i): Turns => ({
    middle: ((i + 0.5) * Math.PI) / STARTS,
    half: Math.PI / STARTS / 2,
  }));
  let least = Math.min(
    ...[0, Math.PI / 2, ...open.map(({ middle }) => middle)].map((rad) =>
      leastAbout(question, rad, 0),
    ),
  );
  let sure = Infinity;
  for (let turns = open.pop(); turns !== undefined && least > slackMm; turns = open.pop()) {
    const atLeast = leastAbout(question, turns.middle, turns.half);
    if (atLeast >= least - slackMm) continue;
    if (turns.half < SMALLEST_RAD) {
      sure = Math.min(sure, atLeast);
      continue;
    }
    for (const side of [-1, 1]) {
      const middle = turns.middle + (side * turns.half) / 2;
      open.push({ middle, half: turns.half / 2 });
      least = Math.min(least, leastAbout(question, middle, 0));
    }
  }
  return Math.max(0, Math.min(sure, least - slackMm));
};

/** Turns within `half` of `middle`, radians. */
interface Turns {
  readonly middle: number;
  readonly half: number;
}

const STARTS = 64;

/** Turns closer together than this count as one, radians. */
const SMALLEST_RAD = 2e-4;

/**
 * How much of the answer is given up so that the search ends, as a share of the narrower side of
 * the rectangle.
 */
const SLACK_SHARE = 0.004;

interface Question extends Lying {
  readonly alongMm: number;
  readonly acrossMm: number;
  readonly lines: number;
  /** Greatest distance between two points of the hull. */
  readonly reach: number;
  readonly centre: Vec2;
  readonly longMm: number;
  readonly wideMm: number;
}

const rectangleOf = ({
  core: { minX, minY, maxX, maxY },
}: Lying): Pick<Question, 'centre' | 'longMm' | 'wideMm'> => ({
  centre: [(minX + maxX) / 2, (minY + maxY) / 2],
  longMm: maxX - minX,
  wideMm: maxY - minY,
});

/**
 * A lower bound of what the blank covers of the lines at any turn within `half` of `rad`. While the
 * blank turns by `half`, no point moves against another by more than `half` times their distance;
 * the stretch over which it may lie is widened by that much. The result is infinite where the blank
 * does not lie on the sheet in any of these turns.
 */
const leastAbout = (
  { hull, centre, longMm, wideMm, alongMm, acrossMm, lines, reach }: Question,
  rad: number,
  half: number,
): number => {
  const u: Vec2 = [Math.cos(rad), -Math.sin(rad)];
  const give = reach * half;
  const room = alongMm - reachAlong(hull, u) + give;
  if (room < 0 || acrossMm - reachAlong(hull, [-u[1], u[0]]) + give < 0) return Infinity;
  const chord = chordOf(longMm, wideMm, rad, half);
  // The rectangle's centre may stand between these places along the sheet.
  const from = dot(centre, u) - Math.min(...hull.map((p) => dot(p, u))) - give;
  const to = from + room + 2 * give;
  const places = Array.from({ length: lines }, (_, i) => ((i + 1) * alongMm) / (lines + 1));
  const tries = [
    from,
    to,
    ...places.flatMap((x) => chord.bends.map((d) => x - d)).filter((at) => at > from && at < to),
  ];
  return Math.min(...tries.map((at) => places.reduce((sum, x) => sum + chord.at(x - at), 0)));
};

/**
 * Lengths of the chords that a turned rectangle has square to a direction, by their distance from
 * its centre: constant at first, then falling evenly to nothing. `bends` are the distances where
 * that changes. The result is a lower bound for all turns within `half`: neither the end of the
 * constant stretch nor the end of the rectangle moves by more than `half` times half a diagonal,
 * and a slope that falls evenly to a nearer end lies below the true one.
 */
const chordOf = (
  longMm: number,
  wideMm: number,
  rad: number,
  half: number,
): { readonly at: (distance: number) => number; readonly bends: readonly number[] } => {
  const [c, s] = [Math.abs(Math.cos(rad)), Math.abs(Math.sin(rad))];
  const nearer = (Math.hypot(longMm, wideMm) * half) / 2;
  const end = Math.max(0, (longMm * c + wideMm * s) / 2 - nearer);
  const level = Math.max(0, Math.abs(longMm * c - wideMm * s) / 2 - nearer);
  const most = Math.min(longMm / Math.min(1, s + half), wideMm / Math.min(1, c + half));
  const at = (distance: number): number => {
    const d = Math.abs(distance);
    if (d >= end) return 0;
    return d <= level ? most : (most * (end - d)) / (end - level);
  };
  return { at, bends: [-end, -level, level, end] };
};
