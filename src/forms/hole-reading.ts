import { parseLength } from '../text/units.ts';

/** What was read, or all that is wrong with it. */
export type Reading<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly reasons: readonly string[] };

export const good = <T>(value: T): Reading<T> => ({ ok: true, value });
export const bad = (...reasons: string[]): { ok: false; reasons: readonly string[] } => ({
  ok: false,
  reasons,
});

const LARGEST_MM = 3000;

/** A length of a hole, more than 0. */
export function readExtent(which: string, text: string): Reading<number> {
  const parsed = parseLength(text);
  if (!parsed.ok) return bad(`${which}: ${parsed.reason}`);
  if (parsed.value > 0 && parsed.value <= LARGEST_MM) return parsed;
  return bad(`${which}: must be more than 0 and at most ${LARGEST_MM} mm`);
}

/** All reasons why several readings cannot be used. */
export const reasonsOf = (...readings: readonly Reading<unknown>[]): readonly string[] =>
  readings.flatMap((r) => (r.ok ? [] : r.reasons));
