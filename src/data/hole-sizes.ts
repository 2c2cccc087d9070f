import type { ParsedNumber } from '../text/units.ts';

/**
 * Clearance holes for metric screws, mm: fine, medium, coarse. Source: ISO 273; fine and medium
 * read in two reprints, coarse in one up to M16, coarse M18 and M20 from memory.
 */
const CLEARANCE: Readonly<Record<string, readonly [fine: number, medium: number, coarse: number]>> =
  {
    M3: [3.2, 3.4, 3.6],
    'M3.5': [3.7, 3.9, 4.2],
    M4: [4.3, 4.5, 4.8],
    M5: [5.3, 5.5, 5.8],
    M6: [6.4, 6.6, 7.0],
    M7: [7.4, 7.6, 8.0],
    M8: [8.4, 9.0, 10.0],
    M10: [10.5, 11.0, 12.0],
    M12: [13.0, 13.5, 14.5],
    M14: [15.0, 15.5, 16.5],
    M16: [17.0, 17.5, 18.5],
    M18: [19.0, 20.0, 21.0],
    M20: [21.0, 22.0, 24.0],
  };

const FITS = ['fine', 'medium', 'coarse'] as const;

const LOOKED_UP = /^\s*m\s*(\d{1,2}(?:\.5)?)\s*$/i;

/** Clearance hole after ISO 273 for a thread such as `M8`, mm. */
export const clearanceHoleMm = (
  thread: string,
  fit: (typeof FITS)[number] = 'medium',
): ParsedNumber => {
  const size = LOOKED_UP.exec(thread)?.[1];
  const key = `M${size ?? ''}`;
  const value = Object.hasOwn(CLEARANCE, key) ? CLEARANCE[key]?.[FITS.indexOf(fit)] : undefined;
  return value === undefined
    ? { ok: false, reason: `the threads known are ${Object.keys(CLEARANCE).join(', ')}` }
    : { ok: true, value };
};

/**
 * Coarse threads: pitch and the drill for a tapped hole, mm. Source: reprints of tapping drill
 * tables after ISO 261 and ISO 2306, read in two places that agree but for M12 (10.3 in one); the
 * drill is the nominal size less the pitch, rounded to a stocked drill.
 */
const TAPPED: Readonly<Record<string, readonly [pitch: number, drill: number]>> = {
  M3: [0.5, 2.5],
  'M3.5': [0.6, 2.9],
  M4: [0.7, 3.3],
  M5: [0.8, 4.2],
  M6: [1, 5],
  M7: [1, 6],
  M8: [1.25, 6.8],
  M10: [1.5, 8.5],
  M12: [1.75, 10.2],
  M14: [2, 12],
  M16: [2, 14],
  M18: [2.5, 15.5],
  M20: [2.5, 17.5],
};

/**
 * Finest pitch of a thread. Pitches of fine threads go by steps, and none is coarser than the
 * coarse thread's.
 */
const FINEST_PITCH_MM = 0.35;

/** A tapped hole: the screw, its pitch and the hole before tapping, mm. */
export interface TappedHole {
  readonly screw: string;
  readonly pitchMm: number;
  readonly drillMm: number;
}

/**
 * The hole to be tapped with a thread such as `M8`, or `M8x1` for a fine one, whose hole is the
 * size less the pitch.
 */
export const tappedHole = (
  thread: string,
):
  | { readonly ok: true; readonly value: TappedHole }
  | { readonly ok: false; readonly reason: string } => {
  const [, size, fine] =
    /^\s*m\s*(\d{1,2}(?:\.5)?)\s*(?:[x×]\s*(\d+(?:\.\d+)?))?\s*$/i.exec(thread) ?? [];
  const screw = `M${size ?? ''}`;
  const coarse = Object.hasOwn(TAPPED, screw) ? TAPPED[screw] : undefined;
  if (coarse === undefined)
    return { ok: false, reason: `the threads known are ${Object.keys(TAPPED).join(', ')}` };
  const [pitchMm, drillMm] = coarse;
  if (fine === undefined || Number(fine) === pitchMm)
    return { ok: true, value: { screw, pitchMm, drillMm } };
  if (Number(fine) < FINEST_PITCH_MM || Number(fine) > pitchMm)
    return {
      ok: false,
      reason: `the pitch of a fine ${screw} is from ${FINEST_PITCH_MM} to ${pitchMm} mm`,
    };
  return {
    ok: true,
    value: { screw, pitchMm: Number(fine), drillMm: Number(size) - Number(fine) },
  };
};

/**
 * Greatest diameter of the heads of countersunk screws with a hexagon socket, mm. They are the
 * largest heads, so a countersink of this diameter takes any countersunk metric screw flush.
 * Source: ISO 10642, theoretical sharp diameter, from memory.
 */
const COUNTERSUNK_HEAD: Readonly<Record<string, number>> = {
  M3: 6.72,
  M4: 8.96,
  M5: 11.2,
  M6: 13.44,
  M8: 17.92,
  M10: 22.4,
  M12: 26.88,
  M16: 33.6,
  M20: 40.32,
};

/** Diameter of the countersink for a screw such as `M6`, mm. */
export const countersinkMm = (screw: string): ParsedNumber => {
  const value = Object.hasOwn(COUNTERSUNK_HEAD, screw) ? COUNTERSUNK_HEAD[screw] : undefined;
  return value === undefined
    ? {
        ok: false,
        reason: `countersunk heads are known of ${Object.keys(COUNTERSUNK_HEAD).join(', ')}; write the diameter, such as csk 13 up`,
      }
    : { ok: true, value };
};

/** Screws that a shop keeps: the first choice of ISO 261 (from memory). */
const FIRST_CHOICE = ['M3', 'M4', 'M5', 'M6', 'M8', 'M10', 'M12', 'M16', 'M20'];

/** A hole that exceeds a screw's coarse hole by more than this, mm, is not for that screw. */
const TOO_WIDE_MM = 1;

/** Widths that differ by no more than this, mm, are the same size. */
const SAME_SIZE_MM = 0.01;

/**
 * The screw for a bolt hole that is given by its width: the one whose medium hole has that width,
 * or else the largest usual one that goes through and does not rattle.
 */
export const screwFor = (widthMm: number): string | undefined => {
  const hole = (thread: string, fit: (typeof FITS)[number]): number =>
    CLEARANCE[thread]?.[FITS.indexOf(fit)] ?? NaN;
  return (
    Object.keys(CLEARANCE).find(
      (thread) => Math.abs(hole(thread, 'medium') - widthMm) < SAME_SIZE_MM,
    ) ??
    FIRST_CHOICE.findLast(
      (thread) =>
        hole(thread, 'fine') <= widthMm + SAME_SIZE_MM &&
        widthMm <= hole(thread, 'coarse') + TOO_WIDE_MM,
    )
  );
};

/** Nominal diameter of a screw such as `M8`, mm. */
export const screwMm = (screw: string): number => Number(screw.slice(1));

/**
 * Holes for round-bodied blind rivet nuts, mm, by thread size. Common practice: no open standard
 * was found, and makers differ (some M8 bodies take 10.5 or 10.8, some M10 bodies 12), so the
 * maker's data sheet has precedence.
 */
const RIVET_NUT: Readonly<Record<number, number>> = {
  3: 5.0,
  4: 6.0,
  5: 7.0,
  6: 9.0,
  8: 11.0,
  10: 13.0,
};

/** Hole for a rivet nut such as `RN6`, mm. */
export const rivetNutHoleMm = (nut: string): ParsedNumber => {
  const size = Number(/^\s*rn\s*(\d{1,2})\s*$/i.exec(nut)?.[1]);
  const value = Object.hasOwn(RIVET_NUT, size) ? RIVET_NUT[size] : undefined;
  const known = Object.keys(RIVET_NUT).map((n) => `RN${n}`);
  return value === undefined
    ? { ok: false, reason: `the rivet nuts known are ${known.join(', ')}` }
    : { ok: true, value };
};
