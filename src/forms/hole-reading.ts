/** What was read, or all that is wrong with it. */
export type Reading<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly reasons: readonly string[] };

export const good = <T>(value: T): Reading<T> => ({ ok: true, value });
export const bad = (...reasons: string[]): { ok: false; reasons: readonly string[] } => ({
  ok: false,
  reasons,
});

/** All reasons why several readings cannot be used. */
export const reasonsOf = (...readings: readonly Reading<unknown>[]): readonly string[] =>
  readings.flatMap((r) => (r.ok ? [] : r.reasons));
