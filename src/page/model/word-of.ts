/** A value of a file as a word, where it is one; a list or a section is none. */
export const wordOf = (value: unknown): string =>
  typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean'
    ? String(value)
    : '';
