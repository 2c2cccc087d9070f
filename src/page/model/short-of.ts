/** A short text that differs from that of another text, by which things kept in one browser are told apart. */
export const shortOf = (text: string): string => {
  let sum = 5381;
  for (const letter of text) sum = (sum * 33 + (letter.codePointAt(0) ?? 0)) % 4_294_967_296;
  return sum.toString(36);
};
