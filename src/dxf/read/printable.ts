/**
 * A text out of a file, as it may stand in a message: nothing in it steers a terminal, and it is
 * short.
 */
export const printable = (text: string): string => {
  const plain = text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu, '?').trim();
  return plain.length > 60 ? `${plain.slice(0, 57)}...` : plain;
};
