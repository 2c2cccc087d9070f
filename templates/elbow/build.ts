import {
  arcsThrough,
  assemble,
  type Built,
  type Loop,
  NO_FLAT_MM,
  type Piece,
  type Rolled,
  rolledWish,
  uprightLines,
  uprightMark,
  type Vertex,
  type Wish,
} from '../../src/template.ts';
import { impossibleElbow, remarks } from './limits.ts';
import { reportOf, said } from './report.ts';
import {
  aroundMm,
  degAt,
  elbowSizes,
  type ElbowSizes,
  pieceDeg,
  riseMm,
  type Segment,
  segmentsOf,
  startMm,
} from './sizes.ts';
import type { Elbow } from './inputs.ts';

/** An elbow of mitred segments, a blank for each kind of them. */
export const elbow = (v: Elbow): Built => {
  const s = elbowSizes(v);
  const findings = impossibleElbow(v, s);
  if (findings.length > 0) return { findings };
  const segments = segmentsOf(v);
  return {
    pieces: segments.map((segment): Piece => ({
      id: segment.id,
      quantity: segment.quantity,
      part: partOf(v, s, segment),
    })),
    findings: [...remarks(s), said(v, s)],
    report: reportOf(v, s),
  };
};

/** Heights of both ends of a segment over the lowest place of its blank, at x on it. */
const reachOf = (v: Elbow, s: ElbowSizes, segment: Segment) => {
  const middle = baseMm(v, s, segment);
  return (x: number): readonly [number, number] => {
    const rise = riseMm(s, degAt(v, s, segment, x));
    return [segment.isEnd ? 0 : middle - rise, middle + rise];
  };
};

/**
 * Height of the plane that an end of the elbow would have without its stub, or of the middle of a
 * segment between.
 */
const baseMm = (v: Elbow, s: ElbowSizes, { isEnd }: Segment): number =>
  isEnd ? v.stub : riseMm(s, 0);

const outlineOf = (v: Elbow, s: ElbowSizes, segment: Segment): Loop => {
  const reach = reachOf(v, s, segment);
  const long = aroundMm(v, s);
  const corner = (x: number, end: 0 | 1, edge: string): Vertex => ({
    x,
    y: reach(x)[end],
    bulge: 0,
    edge,
  });
  // The curves turn their bend half way between back and throat; that near to an end it is none.
  const bends = [90, 270, 450, 630]
    .map((deg) => startMm(v) + ((deg - segment.seamDeg) * Math.PI * s.middleMm) / 180)
    .filter((x) => x > NO_FLAT_MM && x < long - NO_FLAT_MM);
  const ends = [0, ...bends, long];
  const along = (end: 0 | 1, places: readonly number[], edge: string): Vertex[] =>
    places
      .slice(1)
      .flatMap((x, i) => arcsThrough((at) => [at, reach(at)[end]], [places[i] as number, x], edge));
  const lower = segment.isEnd ? [corner(0, 0, 'lower')] : along(0, ends, 'lower');
  return [
    ...lower,
    corner(long, 0, 'right'),
    ...along(1, ends.toReversed(), 'upper'),
    corner(0, 1, 'left'),
  ];
};

const partOf = (v: Elbow, s: ElbowSizes, segment: Segment) =>
  assemble(v, {
    root: 'wall',
    panels: [{ id: 'wall', outline: outlineOf(v, s, segment), cutouts: [] }],
    folds: [],
    rolled: rolledOf(v, s, segment),
    wishes: wishesOf(v, s, segment),
  });

/** Lines by which segments are set against each other, by quarters from the back. */
const NAMED = ['back', 'side', 'throat', 'side'] as const;

const rolledOf = (v: Elbow, s: ElbowSizes, segment: Segment): Rolled => {
  const long = aroundMm(v, s);
  const wall = { spans: [{ lengthMm: long, radiusMm: s.middleMm }], reach: reachOf(v, s, segment) };
  const xOf = (deg: number): number =>
    startMm(v) + ((deg - segment.seamDeg) * Math.PI * s.middleMm) / 180;
  const named = Array.from({ length: 2 * NAMED.length }, (_, i) => 90 * i).filter(
    (deg) => deg > segment.seamDeg && deg < segment.seamDeg + pieceDeg(v),
  );
  return {
    panel: 'wall',
    direction: v.faceOut === 'lower' ? 'up' : 'down',
    lines: uprightLines(wall),
    marks: [
      ...named.map((deg) => uprightMark(wall, xOf(deg), NAMED[(deg / 90) % 4] as string)),
      ...(named.length === 0 ? [uprightMark(wall, long / 2, 'middle')] : []),
      ...(v.seam === 'lap' ? [uprightMark(wall, long - v.lap, 'lap from here')] : []),
    ],
    sizes: {
      insideRadiusMm: [s.insideMm, s.insideMm],
      angleDeg: (long / s.middleMm / Math.PI) * 180,
      aroundMm: [long, long],
    },
  };
};

/**
 * Both ends in their planes when the segment is rolled up, and the seam as it was given. In space
 * the back of the elbow is at x: an end is the plane z = base +- (R + x) tan(backset).
 */
const wishesOf = (v: Elbow, s: ElbowSizes, segment: Segment): Wish[] => {
  const long = aroundMm(v, s);
  const reach = reachOf(v, s, segment);
  const [left, right] = [reach(0), reach(long)];
  const on = {
    panel: 'wall',
    frame: {
      at: [startMm(v) - (segment.seamDeg * Math.PI * s.middleMm) / 180, 0],
      round: [1, 0],
      axis: [0, 1],
    },
    shape: { kind: 'cylinder', radiusMm: s.middleMm },
  } as const;
  const over = (360 - (long / s.middleMm / Math.PI) * 180) / 2;
  const apart = (end: 0 | 1): number =>
    Math.hypot(2 * s.middleMm * Math.sin((over * Math.PI) / 180), left[end] - right[end]);
  const rad = (s.backsetDeg * Math.PI) / 180;
  const plane = (sign: 1 | -1) => ({
    at: [0, 0, baseMm(v, s, segment) + sign * s.centreMm * s.backset] as const,
    normal: [-sign * Math.sin(rad), 0, Math.cos(rad)] as const,
  });
  const square = { at: [0, 0, 0] as const, normal: [0, 0, 1] as const };
  return [
    rolledWish('diameter, seam at the lower end', apart(0), on, [
      [0, left[0]],
      [long, right[0]],
    ]),
    rolledWish('diameter, seam at the upper end', apart(1), on, [
      [0, left[1]],
      [long, right[1]],
    ]),
    rolledWish(
      segment.isEnd ? 'stub, square end in its plane' : 'centreRadius, lower end in its plane',
      0,
      on,
      [
        [0, left[0]],
        [long, right[0]],
      ],
      segment.isEnd ? square : plane(-1),
    ),
    rolledWish(
      'angle, mitred end in its plane',
      0,
      on,
      [
        [long, right[1]],
        [0, left[1]],
      ],
      plane(1),
    ),
  ];
};
