import { cosDeg, sinDeg } from '../geometry/degrees.ts';
import { sub, type Vec2 } from '../geometry/vec2.ts';
import type { Vec3 } from '../geometry/vec3.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { arcsAlong } from '../geometry/arcs-along.ts';
import { circle } from '../geometry/shapes.ts';
import { CURVE_ARC_MM, wholeUp } from '../geometry/tolerance.ts';
import type { RollMark, RulingLine } from '../model/rolled.ts';
import type { RolledMiddle, RolledWish } from '../model/wish.ts';
import { wallBump } from '../bending/bump.ts';
import type { ReportFigure } from '../contract/report.ts';
import { figure } from '../text/figures.ts';

/** A stretch of a wall that is rolled to one radius on the middle of the sheet, mm. */
export interface RolledSpan {
  readonly lengthMm: number;
  readonly radiusMm: number;
}

/** A wall that stands upright on its blank, from x = 0, between two heights at each x. */
export interface UprightWall {
  readonly spans: readonly RolledSpan[];
  /** Where an upright line begins and ends. */
  readonly reach: (x: number) => readonly [low: number, high: number];
}

/** Degrees between lines of a rolled wall; models take fewer. */
const LINE_DEG = 2.5;

/** The lines of an upright wall, each some degree of its turn from the last. */
export const uprightLines = ({ spans, reach }: UprightWall): RulingLine[] => {
  const whole = spans.reduce((sum, s) => sum + s.lengthMm, 0);
  const turn = spans.reduce((sum, s) => sum + turnOf(s), 0);
  const count = linesFor(turn);
  return Array.from({ length: count - 1 }, (_, i): RulingLine => {
    const x = (whole * (i + 1)) / count;
    const [low, high] = reach(x);
    return {
      from: [x, low],
      to: [x, high],
      turnDeg: turnUpTo(spans, x + whole / count / 2) - turnUpTo(spans, x - whole / count / 2),
    };
  });
};

/** Strips of a wall that turns so far: flats of models, which have two each, end at each quarter. */
export const linesFor = (turnDeg: number): number =>
  8 * Math.max(2, wholeUp(turnDeg / (8 * LINE_DEG)));

const turnOf = ({ lengthMm, radiusMm }: RolledSpan): number =>
  ((lengthMm / radiusMm) * 180) / Math.PI;

const turnUpTo = (spans: readonly RolledSpan[], x: number): number => {
  let [turned, left] = [0, x];
  for (const span of spans) {
    const lengthMm = Math.min(left, span.lengthMm);
    turned += turnOf({ ...span, lengthMm });
    left -= lengthMm;
    if (left <= 0) break;
  }
  return turned;
};

/** An upright line that is marked for the rolls. */
export const uprightMark = (
  { reach }: Pick<UprightWall, 'reach'>,
  x: number,
  called: string,
): RollMark => {
  const [low, high] = reach(x);
  return { from: [x, low], to: [x, high], called };
};

/**
 * The opening in the flat for a straight tube that passes square to the axis through a rolled wall.
 * The cut stands square to the sheet, and so looks at the axis when the wall is rolled; the tube
 * touches it first on the inside face, where a point of the tube at the distance y beside its own
 * axis lies asin(y / Ri) round. On the middle of the sheet that is R asin(y / Ri) long (plane
 * geometry). Arcs that stay within half of what a proof allows; a plain circle where that is all the
 * same within `plainMm`.
 */
export const rolledHole = (
  centre: Vec2,
  diameterMm: number,
  {
    insideRadiusMm,
    thicknessMm,
  }: { readonly insideRadiusMm: number; readonly thicknessMm: number },
  plainMm = PLAIN_MM,
): Loop => {
  const r = diameterMm / 2;
  const middleMm = insideRadiusMm + thicknessMm / 2;
  if (2 * (middleMm * Math.asin(Math.min(1, r / insideRadiusMm)) - r) < plainMm)
    return circle(centre, r);
  const at = (deg: number) => {
    const y = (r * cosDeg(deg)) / insideRadiusMm;
    return {
      at: [centre[0] + middleMm * Math.asin(y), centre[1] + r * sinDeg(deg)] as Vec2,
      toward: [
        (-middleMm * (r / insideRadiusMm) * sinDeg(deg)) / Math.sqrt(1 - y * y),
        r * cosDeg(deg),
      ] as Vec2,
    };
  };
  return [0, 90, 180, 270].flatMap((from) =>
    arcsAlong({ from, to: from + 90, at }, CURVE_ARC_MM).map(({ from: [x, y], bulge }): Vertex => ({
      x,
      y,
      bulge,
    })),
  );
};

/** An opening that is this much off a circle at its widest is cut as one, mm. */
const PLAIN_MM = 0.05;

/**
 * A curve of the development without an inflection, as arcs that meet in the same direction, so that
 * a cut may be laid beside them. The ends of each of `least` stretches are points of the curve
 * itself, and no point is farther from it than a thousandth of a millimetre or two.
 */
export const arcsThrough = (
  at: (t: number) => Vec2,
  [from, to]: readonly [number, number],
  edge: string,
  least = 4,
): Vertex[] =>
  Array.from({ length: least }, (_, i) => {
    const stretch = {
      from: from + ((to - from) * i) / least,
      to: from + ((to - from) * (i + 1)) / least,
    };
    const step = ((to - from) / least) * NEAR_SHARE;
    const curve = (t: number) => ({ at: at(t), toward: sub(at(t + step), at(t - step)) });
    return arcsAlong({ ...stretch, at: curve }, DEVELOPED_MM).map(
      ({ from: [x, y], to, bulge }): Vertex => {
        // An arc as flat as that is a line: none beside it could be told from one.
        const rise = (Math.abs(bulge) * Math.hypot(to[0] - x, to[1] - y)) / 2;
        return { x, y, bulge: rise < DEVELOPED_MM ? 0 : bulge, edge };
      },
    );
  }).flat();

/** How far the arcs of a development may leave its curve, mm; a flat one that is drawn as a line, as far again. */
const DEVELOPED_MM = 5e-4;
/** Directions are taken between two points so near to each other, in stretches. */
const NEAR_SHARE = 1e-4;

/** What an input means on a rolled wall. */
export const rolledWish = (
  input: string,
  mm: number,
  on: {
    readonly panel: string;
    readonly frame: RolledWish['frame'];
    readonly shape: RolledMiddle;
  },
  [from, to]: readonly [Vec2, Vec2],
  plane?: { readonly at: Vec3; readonly normal: Vec3 },
): RolledWish => ({
  kind: 'rolled',
  input,
  mm,
  ...on,
  from,
  to,
  ...(plane !== undefined && { plane }),
});

/** Figures of a report about how a wall is bumped where there are no rolls. */
export const bumpFigures = (
  insideRadiusMm: number,
  thicknessMm: number,
  angleDeg: number,
): ReportFigure[] => {
  const bump = wallBump({ insideRadiusMm, thicknessMm, angleDeg });
  return [
    {
      name: 'hits to bump it',
      value: bump.hits,
      unit: '',
      about: `${figure(bump.angleDeg, 1)} deg each`,
    },
    {
      name: 'bump pitch',
      value: bump.pitchMm,
      unit: 'mm',
      about: 'from hit to hit, half of it from the start line to the first',
    },
    { name: 'facets off the round', value: bump.standOffMm, unit: 'mm' },
  ];
};
