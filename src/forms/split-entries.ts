/**
 * The entries of a text, separated by `;` or a new line: the same for holes, points, corners and
 * fold lines. A `;` at the end of a line or of the text is allowed, and so are empty lines; an
 * empty entry between two `;` is a mistake and is kept. At most one entry more than `most` is read.
 */
export const entriesOf = (given: string, most: number): readonly string[] => {
  const isEmpty = (text: string): boolean => text.trim() === '';
  const lines = given.split('\n', most + 2).filter((line) => !isEmpty(line));
  return lines
    .flatMap((line) =>
      line.split(';', most + 2).filter((entry, i, all) => i < all.length - 1 || !isEmpty(entry)),
    )
    .slice(0, most + 1);
};
