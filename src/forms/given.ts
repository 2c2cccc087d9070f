const LONGEST = 60;

/** What was given, fit for one line of a message: no control characters, never long. */
export function shown(given: unknown): string {
  const text = typeof given === 'string' ? `'${given}'` : (written(given) ?? String(given));
  const plain = text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, ' ');
  return plain.length > LONGEST ? `${plain.slice(0, LONGEST - 3)}...` : plain;
}

/** The value as JSON where that is possible, since a value from a file looked like that. */
function written(given: unknown): string | undefined {
  if (given === null) return 'nothing';
  if (typeof given === 'number' || typeof given === 'bigint') return String(given);
  try {
    return JSON.stringify(given);
  } catch {
    return 'a value that contains itself';
  }
}
