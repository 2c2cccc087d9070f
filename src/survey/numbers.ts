/**
 * Numbers from 0 up to 1 in no evident order, and the same ones every time: the multiplicative
 * generator of Park and Miller (Random number generators: good ones are hard to find, 1988; factor
 * 48271 as they later advised; from memory).
 */
export function numbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}
