/** Chance that repeats itself: the same seed gives the same figures on every machine. */
export interface Random {
  /** The next figure, from 0 up to and without 1. */
  readonly next: () => number;
  /** The next whole number below `n`. */
  readonly below: (n: number) => number;
}

/** Spreads the bits of one seed over the four words that the generator begins with. */
const GOLDEN = 0x9e3779b9;

/**
 * A generator of 128 bits of state, sums and shifts of whole numbers only (C. Doty-Humphrey,
 * PractRand's sfc32, in the public domain; cited from memory), so that engines cannot differ.
 */
export const randomFrom = (seed: number): Random => {
  let [a, b, c, count] = [seed | 0, (seed / 2 ** 32) | 0, GOLDEN | 0, 1];
  const next = (): number => {
    const sum = (((a + b) | 0) + count) | 0;
    count = (count + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + sum) | 0;
    return (sum >>> 0) / 2 ** 32;
  };
  // The first figures of seeds that are much alike are alike too.
  for (let i = 0; i < 15; i++) next();
  return { next, below: (n) => Math.floor(next() * n) };
};
