import { cosDeg, figure } from '../../src/template.ts';
import type { Elbow } from './inputs.ts';

/** An elbow on the middle of its sheet; mm and degrees. */
export interface ElbowSizes {
  readonly middleMm: number;
  readonly insideMm: number;
  readonly outsideMm: number;
  /** Radius of the bend at the middle line of the duct. */
  readonly centreMm: number;
  /**
   * Angle between the end of a segment and a plane square to it. An end counts for one half of a
   * segment, so n segments have 2 (n - 1) halves: turn / (2 (n - 1)) (Longfield, Sheet Metal
   * Drafting, p. 59).
   */
  readonly backsetDeg: number;
  readonly backset: number;
}

/** Radius of the bend where none is given, in diameters (common practice). */
const USUAL_DIAMETERS = 1.5;

const RAD = Math.PI / 180;

export const elbowSizes = (v: Elbow): ElbowSizes => {
  const t = v.thicknessMm;
  const middleMm = v.diameter / 2 + { inside: t / 2, outside: -t / 2, middle: 0 }[v.diameterOf];
  const backsetDeg = v.angle / (2 * (v.segments - 1));
  return {
    middleMm,
    insideMm: middleMm - t / 2,
    outsideMm: middleMm + t / 2,
    centreMm: v.centreRadius ?? 2 * USUAL_DIAMETERS * middleMm,
    backsetDeg,
    backset: Math.tan(backsetDeg * RAD),
  };
};

/** One kind of segment, or one piece of it. */
export interface Segment {
  readonly id: string;
  readonly quantity: number;
  readonly isEnd: boolean;
  /** Where the seam that it begins at lies: 0 at the back of the elbow, 180 at its throat. */
  readonly seamDeg: number;
}

/** How far round a segment each of its pieces goes. */
export const pieceDeg = ({ pieces }: Elbow): number => 360 / pieces;

/** The segments by kinds, in the order of the first of each, piece by piece. */
export const segmentsOf = (v: Elbow): Segment[] => {
  const kinds = new Map<string, Segment>();
  for (let i = 0; i < v.segments; i++) {
    const isEnd = i === 0 || i === v.segments - 1;
    for (let piece = 0; piece < v.pieces; piece++) {
      const seamDeg = (seamOf(v, i) + piece * pieceDeg(v)) % 360;
      const id = idOf(v, isEnd, seamDeg);
      kinds.set(id, { id, isEnd, seamDeg, quantity: (kinds.get(id)?.quantity ?? 0) + 1 });
    }
  }
  return [...kinds.values()];
};

/** A piece is called by where it lies: from which degree round to which. */
const idOf = (v: Elbow, isEnd: boolean, seamDeg: number): string => {
  const kind = isEnd ? 'end' : 'segment';
  if (v.pieces === 1) return `${kind}-seam-${seamDeg === 0 ? 'back' : 'throat'}`;
  const end = seamDeg + pieceDeg(v);
  return `${kind}-${figure(seamDeg, 0)}-to-${figure(end > 360 ? end - 360 : end, 0)}`;
};

/** Of one piece, seams in turn lie opposite; of more, half a piece on, where no two meet either. */
const seamOf = (v: Elbow, i: number): number => {
  if (v.seamPlace === 'back') return 0;
  return v.seamPlace === 'throat' || i % 2 === 0 ? 180 : 180 + pieceDeg(v) / 2;
};

/**
 * How far a mitred end stands beyond the middle of the bend's own radius at an angle round the
 * segment: (R + r cos a) tan(backset), 0 degrees at the back (plane geometry).
 */
export const riseMm = (s: ElbowSizes, deg: number): number =>
  (s.centreMm + s.middleMm * cosDeg(deg)) * s.backset;

/** The length round a blank, its seam allowed for. */
export const aroundMm = (v: Elbow, s: ElbowSizes): number =>
  (2 * Math.PI * s.middleMm) / v.pieces + (v.seam === 'lap' ? v.lap : -v.cornerGapMm);

/** Where on a blank the seam's own line would be: half the gap before its left edge. */
export const startMm = (v: Elbow): number => (v.seam === 'lap' ? 0 : -v.cornerGapMm / 2);

/** Degrees round the segment, from the back, at x on its blank. */
export const degAt = (v: Elbow, s: ElbowSizes, { seamDeg }: Segment, x: number): number =>
  seamDeg + (x - startMm(v)) / s.middleMm / RAD;
