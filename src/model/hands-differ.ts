const THIS_BLANK = 'This blank';

/**
 * What is told of a blank where the right part differs from the left one: what differs, and whether
 * the blank does.
 */
export const handsDifferText = (told: string, hand: 'left' | 'right', isSame: boolean): string =>
  `The right part differs from the left one: ${told}. ${THIS_BLANK} ${
    isSame
      ? 'does not.'
      : `is of the ${hand} hand alone: cut it from its own file, and mark its hand on it.`
  }`;

/** What differs between the hands, out of what is told of one blank. */
export const differenceIn = (text: string): string =>
  text.slice(0, text.lastIndexOf(THIS_BLANK)).trim();
