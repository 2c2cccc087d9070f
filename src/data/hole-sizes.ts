import type { ParsedNumber } from '../units.ts';

/**
 * Clearance holes for metric screws, mm: fine, medium, coarse. Source: ISO 273; fine and medium read in two reprints,
 * coarse in one up to M16, coarse M18 and M20 from memory.
 */
const CLEARANCE: Readonly<Record<string, readonly [fine: number, medium: number, coarse: number]>> = {
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

/** The threads that clearance holes are known for, the smallest first. */
export const THREADS: readonly string[] = Object.keys(CLEARANCE);

const FITS = ['fine', 'medium', 'coarse'] as const;

const LOOKED_UP = /^\s*m\s*(\d{1,2}(?:\.5)?)\s*$/i;

/** Clearance hole after ISO 273 for a thread such as `M8`, mm. */
export const clearanceHoleMm = (thread: string, fit: (typeof FITS)[number] = 'medium'): ParsedNumber => {
  const size = LOOKED_UP.exec(thread)?.[1];
  const key = `M${size ?? ''}`;
  const value = Object.hasOwn(CLEARANCE, key) ? CLEARANCE[key]?.[FITS.indexOf(fit)] : undefined;
  return value === undefined ? { ok: false, reason: `the threads known are ${Object.keys(CLEARANCE).join(', ')}` } : { ok: true, value };
};

/**
 * Holes for round-bodied blind rivet nuts, mm, by thread size. Common practice: no open standard was found, and makers
 * differ (some M8 bodies take 10.5 or 10.8, some M10 bodies 12), so the maker's sheet goes before these.
 */
const RIVET_NUT: Readonly<Record<number, number>> = { 3: 5.0, 4: 6.0, 5: 7.0, 6: 9.0, 8: 11.0, 10: 13.0 };

/** Hole for a rivet nut such as `RN6`, mm. */
export const rivetNutHoleMm = (nut: string): ParsedNumber => {
  const size = Number(/^\s*rn\s*(\d{1,2})\s*$/i.exec(nut)?.[1]);
  const value = Object.hasOwn(RIVET_NUT, size) ? RIVET_NUT[size] : undefined;
  const known = Object.keys(RIVET_NUT).map((n) => `RN${n}`);
  return value === undefined ? { ok: false, reason: `the rivet nuts known are ${known.join(', ')}` } : { ok: true, value };
};
