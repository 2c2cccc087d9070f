import { cosDeg, tanDeg } from '../../geometry/degrees.ts';

/** A bend that is made of straight pieces of tube, welded at mitres. Lengths in mm. */
export interface Mitre {
  readonly diameterMm: number;
  /** How far the whole bend turns, degrees. */
  readonly turnDeg: number;
  /** Pieces, with the two at its ends: 2 is a single mitre. */
  readonly pieces: number;
  /** Of the centre line; the axes of all pieces touch an arc of it. */
  readonly radiusMm: number;
}

export interface CutMitre {
  /** Each cut leans this far from square to the axis: half of the turn at a joint. */
  readonly cutDeg: number;
  /** How far each joint lies round the bend, from the plane that it begins in. */
  readonly jointsDeg: readonly number[];
  /** Along the axis: of an end piece from the bend's first plane, and of one between. */
  readonly endMm: number;
  readonly middleMm: number;
  /** How much longer half a cut is on the outside of the bend than on the axis, mm. */
  readonly cutBackMm: number;
  /** Length of an end piece at a place round it, 0 degrees on the outside of the bend. */
  readonly endLengthMm: (roundDeg: number) => number;
}

export type MitreFlaw = {
  readonly kind: 'pieces' | 'turn' | 'tight';
  readonly given: number;
  readonly limit: number;
};

export type MitreMade =
  | { readonly ok: true; readonly mitre: CutMitre }
  | { readonly ok: false; readonly flaw: MitreFlaw };

/** A cut of more than this is longer than the tube is thick, and no longer a mitre. */
const MOST_CUT_DEG = 45;
const MOST_PIECES = 100;

/**
 * Each of the n - 1 joints turns by turn / (n - 1), half of it on either piece; with b half of
 * that, an end piece is (R + r cos(a)) tan(b) long and one between twice that (pipe fitters'
 * practice; worked examples in `tests/published/cope.json`).
 */
export function mitreOf({ diameterMm, turnDeg, pieces, radiusMm }: Mitre): MitreMade {
  if (!Number.isInteger(pieces) || pieces < 2 || pieces > MOST_PIECES)
    return { ok: false, flaw: { kind: 'pieces', given: pieces, limit: 2 } };
  const cutDeg = turnDeg / (pieces - 1) / 2;
  if (!(turnDeg > 0) || !(cutDeg <= MOST_CUT_DEG))
    return {
      ok: false,
      flaw: { kind: 'turn', given: turnDeg, limit: MOST_CUT_DEG * 2 * (pieces - 1) },
    };
  const r = diameterMm / 2;
  // Inside the bend the pieces would have no length left.
  if (!(radiusMm > r)) return { ok: false, flaw: { kind: 'tight', given: radiusMm, limit: r } };
  const slope = tanDeg(cutDeg);
  return {
    ok: true,
    mitre: {
      cutDeg,
      jointsDeg: Array.from({ length: pieces - 1 }, (_, i) => (2 * i + 1) * cutDeg),
      endMm: radiusMm * slope,
      middleMm: 2 * radiusMm * slope,
      cutBackMm: r * slope,
      endLengthMm: (roundDeg) => (radiusMm + r * cosDeg(roundDeg)) * slope,
    },
  };
}
