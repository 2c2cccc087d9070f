/**
 * What stands in a text one behind the other, with `;` or a new line between: the same for holes,
 * points, corners and fold lines. A `;` at the end of a line or of the text is no slip, and empty
 * lines are none; an empty entry between two `;` is one and stays in. At most one more than `most`
 * is looked at.
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
