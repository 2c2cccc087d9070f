import { cosDeg, sinDeg, tanDeg } from '../../geometry/degrees.ts';

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

/** Chords that a weld round a tube is added up of: they leave less than a ten-thousandth of it out. */
const CHORDS = 720;

/**
 * Length of the weld round a mitre, mm: of the ellipse in which a plane cuts the tube's outside, half
 * axes r and r / cos(cut), by its chords.
 */
export const mitreRoundMm = (diameterMm: number, cutDeg: number): number => {
  const [across, along] = [diameterMm / 2, diameterMm / 2 / cosDeg(cutDeg)];
  const at = (i: number): readonly [number, number] => [
    along * cosDeg((360 * i) / CHORDS),
    across * sinDeg((360 * i) / CHORDS),
  ];
  return Array.from({ length: CHORDS }, (_, i) => {
    const [[ax, ay], [bx, by]] = [at(i), at(i + 1)];
    return Math.hypot(bx - ax, by - ay);
  }).reduce((sum, mm) => sum + mm, 0);
};

export type MitreFlaw = {
  readonly kind: 'pieces' | 'turn' | 'tight';
  readonly given: number;
  readonly limit: number;
};

export type MitreMade =
  | { readonly ok: true; readonly mitre: CutMitre }
  | { readonly ok: false; readonly flaw: MitreFlaw };

/** A cut of more than this is longer than the tube is thick, and no longer a mitre. */
export const MOST_MITRE_DEG = 45;
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
  if (!(turnDeg > 0) || !(cutDeg <= MOST_MITRE_DEG))
    return {
      ok: false,
      flaw: { kind: 'turn', given: turnDeg, limit: MOST_MITRE_DEG * 2 * (pieces - 1) },
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
