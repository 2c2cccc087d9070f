import type { Vec2 } from '../../geometry/vec2.ts';
import { type Affine, scaling } from './affine.ts';
import { mapped, type Primitive, type Spline } from './primitive.ts';
import { type DxfRecord, numberAt, numbersAt, rowsAt, toNumber } from './records.ts';

/** What one entity is to a cutter. */
export type Drawn =
  | {
      readonly kind: 'lines';
      readonly primitives: readonly Primitive[];
      readonly doubts: readonly Doubt[];
    }
  /** Known not to be a line: text, hatch, dimension, body. */
  | { readonly kind: 'none' }
  /** A line that cannot be told from what stands in the file. */
  | { readonly kind: 'bad'; readonly why: string };

/** What an entity loses when it is laid flat. */
export type Doubt = 'not flat' | 'above the sheet' | 'wide';

/** What is said of a line that would have to be turned in space first. */
export const OTHER_PLANE = 'lies in a plane that is not that of the sheet';

/** Lines in space are flat when they rise by less than this, in units of the file. */
const RISE = 1e-6;

/** A smaller turn, in radians or degrees, is none; or all round, where the file means an arc. */
const NO_TURN = 1e-9;

/** A whole turn that a program rounded is off by no more than this share of it. */
const FULL_TURN_SHARE = 1e-5;

/** A point of a spline that weighs less, or that many times more, makes its curve noise. */
const LEAST_SPLINE_WEIGHT = 1e-9;

/**
 * Reads the lines of one entity, in units of the file; heavy polylines come with their vertices.
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

/**
 * Of entities in a plane of their own: which way its z axis points. Only two of them lie flat (DXF
 * Reference, arbitrary axis algorithm).
 */
export const planeOf = (r: DxfRecord): Affine | undefined => {
  const [x, y, z] = [numberAt(r, 210), numberAt(r, 220), numberAt(r, 230, 1)];
  if (!(Math.abs(x) < RISE * Math.abs(z) && Math.abs(y) < RISE * Math.abs(z))) return undefined;
  return scaling(z < 0 ? -1 : 1, 1);
};

const lines = (primitives: readonly Primitive[], ...doubts: readonly (Doubt | false)[]): Drawn => ({
  kind: 'lines',
  primitives,
  doubts: doubts.filter((d) => d !== false),
});

const lying = (
  r: DxfRecord,
  primitives: readonly Primitive[],
  height: number,
  isWide = false,
): Drawn => {
  const plane = planeOf(r);
  if (plane === undefined) return { kind: 'bad', why: OTHER_PLANE };
  return lines(
    primitives.map((p) => mapped(plane, p)),
    Math.abs(height) > RISE && 'above the sheet',
    isWide && 'wide',
  );
};

const piece = (from: Vec2, to: Vec2, bulge = 0): Primitive => ({
  kind: 'piece',
  piece: { from, to, bulge },
});

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
 * How far it is round from one angle to another, counter-clockwise; all round where both are the
 * same. Programs round the end of a whole turn too: what is that by its figures, within a share of
 * a turn that no line is as short as, is one.
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
 * Group 11 leads from the centre to the end of the long axis; the short one stands on its left,
 * seen from its own z axis.
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
  const [degree, knots] = [numberAt(r, 71, 3), numbersAt(r, 40)];
  if (rows.length === 0) return { kind: 'bad', why: 'is a spline without control points' };
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
  const heights = rows.map((row) => row[2] as number);
  const isFlat = Math.max(...spread(heights)) - Math.min(...spread(heights)) <= RISE;
  const made: Spline = {
    kind: 'spline',
    degree,
    knots,
    weights,
    points: rows.map(([x, y]): Vec2 => [x as number, y as number]),
  };
  return lines(
    [made],
    !isFlat && 'not flat',
    isFlat && Math.abs(heights[0] as number) > RISE && 'above the sheet',
  );
};

/** The least and the largest: a spline may have more points than a call takes. */
const spread = (values: readonly number[]): [number, number] => [
  values.reduce((a, b) => Math.min(a, b)),
  values.reduce((a, b) => Math.max(a, b)),
];

interface PolyVertex {
  readonly at: Vec2;
  readonly bulge: number;
}

/** Group 43 of the whole, 40 and 41 of one of its sides. */
const isWide = ({ codes, values }: DxfRecord): boolean =>
  codes.some(
    (code, i) => (code === 43 || code === 40 || code === 41) && toNumber(values[i] ?? '') > 0,
  );

/** Each corner begins with its x; the bulge that follows is its own. */
const lightPolyline = (r: DxfRecord): Primitive[] => {
  const corners: { at: [number, number]; bulge: number }[] = [];
  let last: (typeof corners)[number] | undefined;
  for (let i = 0; i < r.codes.length; i++) {
    const code = r.codes[i];
    if (code !== 10 && code !== 20 && code !== 42) continue;
    const value = toNumber(r.values[i] ?? '');
    if (code === 10) corners.push((last = { at: [value, 0], bulge: 0 }));
    else if (last !== undefined && code === 20) last.at[1] = value;
    else if (last !== undefined) last.bulge = value;
  }
  return joined(corners, isClosed(r));
};

const isClosed = (r: DxfRecord): boolean => (numberAt(r, 70) & 1) === 1;

const joined = (vertices: readonly PolyVertex[], closes: boolean): Primitive[] => {
  const pieces: Primitive[] = [];
  for (let i = 0; i < vertices.length; i++) {
    const v = vertices[i] as PolyVertex;
    const next = vertices[i + 1] ?? (closes ? vertices[0] : undefined);
    if (next !== undefined && (v.at[0] !== next.at[0] || v.at[1] !== next.at[1]))
      pieces.push(piece(v.at, next.at, v.bulge));
  }
  return pieces;
};

/**
 * Bits of group 70: 1 closed, 4 with a spline's frame, 8 in space, 16 a mesh of rows, 64 a mesh of
 * faces; of a vertex 16 is a frame's point.
 */
const heavyPolyline = (r: DxfRecord, records: readonly DxfRecord[]): Drawn => {
  const flags = numberAt(r, 70);
  if ((flags & 80) !== 0) return { kind: 'none' };
  const shown = records.filter((v) => (numberAt(v, 70) & 16) === 0);
  const primitives = joined(
    shown.map((v) => ({
      at: [numberAt(v, 10), numberAt(v, 20)],
      bulge: (flags & 8) === 0 ? numberAt(v, 42) : 0,
    })),
    isClosed(r),
  );
  if ((flags & 8) === 0)
    return lying(
      r,
      primitives,
      numberAt(r, 30),
      records.some((v) => numberAt(v, 40) > 0 || numberAt(v, 41) > 0) || numberAt(r, 40) > 0,
    );
  const heights = shown.map((v) => numberAt(v, 30));
  if (heights.length === 0) return lines([]);
  const [low, high] = spread(heights);
  return lines(
    primitives,
    high - low > RISE && 'not flat',
    high - low <= RISE && Math.abs(low) > RISE && 'above the sheet',
  );
};

/** Whether every number of a line is one, and none is farther than `most`. */
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
