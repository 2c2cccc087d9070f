/** The name of an input as words: `legA` is leg A. */
export const wordsOf = (name: string): string =>
  name.replace(/([A-Z])/g, (c, _, at: number) =>
    at === name.length - 1 ? ` ${c}` : ` ${c.toLowerCase()}`,
  );
