/** A text from a file made safe for a message: it cannot steer a terminal, and it is short. */
export const printable = (text: string): string => {
  const plain = text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu, '?').trim();
  return plain.length > 60 ? `${plain.slice(0, 57)}...` : plain;
};
