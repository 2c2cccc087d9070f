import type { Vec2 } from '../../geometry/vec2.ts';
import { throughFitPoints } from './fit-points.ts';
import { type Primitive, type Spline } from './primitive.ts';
import { type DxfRecord, numberAt, numbersAt, rowsAt } from './records.ts';
import {
  type Doubt,
  type Drawn,
  lines,
  lying,
  OTHER_PLANE,
  piece,
  planeOf,
  RISE,
  spread,
} from './lying.ts';
import { heavyPolyline, isWide, lightPolyline } from './polyline.ts';

/**
 * A smaller turn, in radians or degrees, is no turn; where the file means an arc it is a whole
 * turn.
 */
const NO_TURN = 1e-9;

/** A whole turn that a program rounded is off by no more than this share of it. */
const FULL_TURN_SHARE = 1e-5;

/**
 * A point of a spline that weighs less than this, or more than the inverse, makes its curve noise.
 */
const LEAST_SPLINE_WEIGHT = 1e-9;

/**
 * Reads the lines of one entity, in units of the file; a heavy polyline comes with its vertices.
 */
export const drawnBy = (r: DxfRecord, vertices: readonly DxfRecord[]): Drawn => {
  switch (r.type) {
    case 'LINE':
      return line(r);
    case 'CIRCLE':
    case 'ARC':
      return lying(r, round(r), numberAt(r, 30));
    case 'ELLIPSE':
      return ellipse(r);
    case 'SPLINE':
      return spline(r);
    case 'LWPOLYLINE':
      return lying(r, lightPolyline(r), numberAt(r, 38), isWide(r));
    case 'POLYLINE':
      return heavyPolyline(r, vertices);
    default:
      return { kind: 'none' };
  }
};

const line = (r: DxfRecord): Drawn => {
  const [low, high] = [numberAt(r, 30), numberAt(r, 31)];
  const [from, to]: [Vec2, Vec2] = [
    [numberAt(r, 10), numberAt(r, 20)],
    [numberAt(r, 11), numberAt(r, 21)],
  ];
  return lines(
    [piece(from, to)],
    Math.abs(high - low) > RISE && 'not flat',
    low === high && Math.abs(low) > RISE && 'above the sheet',
  );
};

/**
 * The turn from one angle to another, counter-clockwise; a whole turn where both are the same.
 * Programs round the end of a whole turn as well, so a turn that is whole to within a share which
 * no line is as short as counts as whole.
 */
const turnBetween = (from: number, to: number, full: number): number => {
  const turn = to - from - full * Math.floor((to - from) / full);
  return turn < NO_TURN ||
    turn > full - NO_TURN ||
    Math.abs(to - from - full) < FULL_TURN_SHARE * full
    ? full
    : turn;
};

const circlePieces = ([x, y]: Vec2, radius: number): Primitive[] => {
  const [right, left]: [Vec2, Vec2] = [
    [x + radius, y],
    [x - radius, y],
  ];
  return [piece(right, left, 1), piece(left, right, 1)];
};

/** An arc runs counter-clockwise from its first angle to its second. */
const round = (r: DxfRecord): Primitive[] => {
  const [centre, radius]: [Vec2, number] = [[numberAt(r, 10), numberAt(r, 20)], numberAt(r, 40)];
  const [start, end] = [numberAt(r, 50), numberAt(r, 51)];
  const sweep = turnBetween(start, end, 360);
  if (r.type === 'CIRCLE' || sweep === 360) return circlePieces(centre, radius);
  const at = (deg: number): Vec2 => [
    centre[0] + radius * Math.cos((deg * Math.PI) / 180),
    centre[1] + radius * Math.sin((deg * Math.PI) / 180),
  ];
  if (sweep <= 180) return [piece(at(start), at(end), Math.tan((sweep * Math.PI) / 720))];
  const bulge = Math.tan((sweep * Math.PI) / 1440);
  return [
    piece(at(start), at(start + sweep / 2), bulge),
    piece(at(start + sweep / 2), at(end), bulge),
  ];
};

/**
 * Group 11 leads from the centre to the end of the long axis. The short axis is on its left, seen
 * from the ellipse's own z axis.
 */
const ellipse = (r: DxfRecord): Drawn => {
  const plane = planeOf(r);
  if (plane === undefined || Math.abs(numberAt(r, 31)) > RISE)
    return { kind: 'bad', why: OTHER_PLANE };
  const [u, ratio]: [Vec2, number] = [
    [numberAt(r, 11), numberAt(r, 21)],
    plane.a * numberAt(r, 40, 1),
  ];
  const [from, end] = [numberAt(r, 41), numberAt(r, 42, 2 * Math.PI)];
  const to = from + turnBetween(from, end, 2 * Math.PI);
  return lines(
    [
      {
        kind: 'conic',
        centre: [numberAt(r, 10), numberAt(r, 20)],
        u,
        v: [-ratio * u[1], ratio * u[0]],
        from,
        to,
      },
    ],
    Math.abs(numberAt(r, 30)) > RISE && 'above the sheet',
  );
};

const MOST_DEGREE = 10;

const spline = (r: DxfRecord): Drawn => {
  const rows = rowsAt(r, 10, 20, 30);
  if (rows.length === 0) return throughPoints(r);
  const [degree, knots] = [numberAt(r, 71, 3), numbersAt(r, 40)];
  if (
    !Number.isInteger(degree) ||
    degree < 1 ||
    degree > MOST_DEGREE ||
    rows.length <= degree ||
    knots.length !== rows.length + degree + 1
  ) {
    return {
      kind: 'bad',
      why: `is a spline of degree ${degree} with ${rows.length} points and ${knots.length} knots, which do not belong together`,
    };
  }
  if (knots.some((k, i) => i > 0 && !(k >= (knots[i - 1] as number))))
    return { kind: 'bad', why: 'is a spline whose knots do not rise' };
  const given = numbersAt(r, 41);
  const weights = given.length === rows.length ? given : rows.map(() => 1);
  if (weights.some((w) => !(w > 0)))
    return { kind: 'bad', why: 'is a spline with weights that are not over 0' };
  return atHeights({ kind: 'spline', degree, knots, weights, points: rows.map(flatOf) }, rows);
};

/** A spline given by the points that it passes alone, and by its directions at the ends. */
const throughPoints = (r: DxfRecord): Drawn => {
  const rows = rowsAt(r, 11, 21, 31);
  const direction = (code: number): Vec2 | undefined => {
    const [x, y]: Vec2 = [numberAt(r, code), numberAt(r, code + 10)];
    const long = Math.hypot(x, y);
    return long > 0 ? [x / long, y / long] : undefined;
  };
  const made = rows.flat().every(Number.isFinite)
    ? throughFitPoints(rows.map(flatOf), {
        start: direction(12),
        end: direction(13),
        isClosed: (numberAt(r, 70) & 1) === 1,
      })
    : undefined;
  return made === undefined
    ? { kind: 'bad', why: 'is a spline without control points, and without points to pass through' }
    : atHeights(made, rows, 'by points');
};

const flatOf = ([x, y]: readonly number[]): Vec2 => [x as number, y as number];

/** A spline with the doubts that its heights leave. */
const atHeights = (
  made: Spline,
  rows: readonly (readonly number[])[],
  ...doubts: readonly Doubt[]
): Drawn => {
  const heights = rows.map((row) => row[2] as number);
  const [low, high] = spread(heights);
  const isFlat = high - low <= RISE;
  return lines(
    [made],
    !isFlat && 'not flat',
    isFlat && Math.abs(low) > RISE && 'above the sheet',
    ...doubts,
  );
};

/** Whether every number of a line is finite and none is beyond `most`. */
export const isSound = (p: Primitive, most: number): boolean => {
  const near = ([x, y]: Vec2): boolean => Math.abs(x) <= most && Math.abs(y) <= most;
  switch (p.kind) {
    case 'piece':
      return near(p.piece.from) && near(p.piece.to) && Math.abs(p.piece.bulge) < 1e6;
    case 'conic':
      return near(p.centre) && near(p.u) && near(p.v) && near([p.from, p.to]);
    case 'spline':
      return (
        p.points.every(near) &&
        p.knots.every(Number.isFinite) &&
        p.weights.every((w) => w > LEAST_SPLINE_WEIGHT && w < 1e9)
      );
  }
};
