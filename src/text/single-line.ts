/**
 * One line of text: breaks, tabs and other control characters become single spaces, and none are
 * left at the ends.
 */
export const singleLine = (text: string): string =>
  text
    .replace(/\p{Cf}+/gu, '')
    .replace(/[\p{Cc}\p{Z}]+/gu, ' ')
    .trim();
