import { farthestApart, reachAlong } from '../geometry/fit.ts';
import { dot, type Vec2 } from '../geometry/vec2.ts';
import type { Extents } from '../geometry/extents.ts';

/**
 * How a blank lies on a sheet, as far as lines across the sheet are asked: its hull, and a
 * rectangle of its metal.
 */
export interface Lying {
  readonly hull: readonly Vec2[];
  readonly core: Extents;
}

/**
 * The least length that a blank takes of evenly spaced lines over a sheet `alongMm` x `acrossMm`,
 * all together, however it is turned and wherever it lies: of `lines` lines that part the length
 * into equal lengths and run across. Blanks that share a sheet have no metal in common, so that
 * what they take of such lines adds up to no more than the lines are long. What is given may be too
 * little by a hair, and is never too much.
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

/** Turns that are closer together than this are one, radians. */
const SMALLEST_RAD = 2e-4;

/**
 * So much of the answer is given away for an end of the search, as a share of the narrower side of
 * the rectangle.
 */
const SLACK_SHARE = 0.004;

interface Question extends Lying {
  readonly alongMm: number;
  readonly acrossMm: number;
  readonly lines: number;
  /** No two points of the hull are farther apart. */
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
 * No more than the blank takes of the lines at any turn within `half` of one. While it turns by
 * `half`, no point moves more against another than `half` times their distance: so much wider is
 * the stretch taken over which it may lie. Infinite where it lies on the sheet in none of these
 * turns.
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
  // Where the rectangle's middle may stand along the sheet.
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
 * How long the chords are that a turned rectangle has square to a direction, by how far they are
 * from its middle: as long as can be over a stretch, and from there falling evenly to nothing.
 * `bends` is where that changes. Of all turns within `half`, the least: where the level stretch
 * ends and where all does moves by no more than `half` times half a diagonal, and what falls evenly
 * from a nearer end lies below.
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
