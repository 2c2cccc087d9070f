import type { Vec2 } from './vec2.ts';

/**
 * A circular arc as a pen would draw it. Angles are in radians, counter-clockwise from the x axis.
 */
export interface Arc {
  readonly centre: Vec2;
  readonly radius: number;
  /** Direction from the centre to the start, -pi to pi. */
  readonly startRad: number;
  /** Signed sweep, positive counter-clockwise, between -2 pi and 2 pi. */
  readonly sweepRad: number;
}

/**
 * The arc from one point to another with the given bulge, which must not be 0: a straight piece has
 * no centre.
 *
 * By definition the bulge is b = tan(sweep / 4) (Autodesk DXF Reference, LWPOLYLINE, group code
 * 42). With the chord c it follows that the radius is c (1 + b^2) / (4 |b|), and that the centre
 * lies c (1 - b^2) / (4 b) to the left of the chord's middle: on the right when that is negative.
 */
export const arcOf = (from: Vec2, to: Vec2, bulge: number): Arc => {
  if (bulge === 0) throw new RangeError('a straight piece (bulge 0) has no centre');
  const cx = to[0] - from[0];
  const cy = to[1] - from[1];
  const k = (1 - bulge * bulge) / (4 * bulge);
  return {
    centre: [from[0] + cx / 2 - k * cy, from[1] + cy / 2 + k * cx],
    radius: (Math.hypot(cx, cy) * (1 + bulge * bulge)) / (4 * Math.abs(bulge)),
    // The angle is taken from the chord and not from the rounded centre, so that it is right for
    // the flattest arcs too.
    startRad: Math.atan2(-cy / 2 - k * cx, -cx / 2 + k * cy),
    sweepRad: sweepOf(bulge),
  };
};

/** Signed sweep in radians of a piece with this bulge. */
export const sweepOf = (bulge: number): number => 4 * Math.atan(bulge);

/** Bulge of an arc with this signed sweep in radians. */
export const bulgeOf = (sweepRad: number): number => Math.tan(sweepRad / 4);

/**
 * The point reached after turning by `turnRad` (0 to |sweep|) from the start of a piece. It is laid
 * off as a chord from the start, so it stays exact where the arc is so flat that its centre is very
 * far away. A straight piece has no turn, so it must not be passed.
 */
export const pointAfterTurn = (from: Vec2, to: Vec2, bulge: number, turnRad: number): Vec2 => {
  // A chord over the angle w measures 2 R sin(w / 2); sin(sweep / 2) is 2 b / (1 + b^2).
  const share = (Math.sin(turnRad / 2) * (1 + bulge * bulge)) / (2 * Math.abs(bulge));
  const lean = (Math.sign(bulge) * turnRad - sweepOf(bulge)) / 2;
  const c = Math.cos(lean) * share;
  const s = Math.sin(lean) * share;
  const cx = to[0] - from[0];
  const cy = to[1] - from[1];
  return [from[0] + c * cx - s * cy, from[1] + s * cx + c * cy];
};

/**
 * The middle of a piece, straight or not: the chord's middle, moved outwards by the rise b c / 2.
 */
export const middleOf = (from: Vec2, to: Vec2, bulge: number): Vec2 => {
  const cx = to[0] - from[0];
  const cy = to[1] - from[1];
  return [from[0] + (cx + bulge * cy) / 2, from[1] + (cy - bulge * cx) / 2];
};

/**
 * Bulge of each half of a piece: tan(a / 2) = tan a / (1 + sqrt(1 + tan^2 a)). It is never over 1.
 */
export const halfBulge = (bulge: number): number => bulge / (1 + Math.sqrt(1 + bulge * bulge));
