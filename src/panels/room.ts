import { atMost } from '../text/figures.ts';

/** The largest figure up to `most` that `works`, in steps that messages show; nothing where none does. */
export const largestThatWorks = (
  most: number,
  works: (value: number) => boolean,
): string | undefined => {
  if (!works(0)) return undefined;
  let [low, high] = [0, most];
  for (let i = 0; i < HALVINGS; i++) {
    const half = (low + high) / 2;
    if (works(half)) low = half;
    else high = half;
  }
  return atMost(low);
};

/** A span of ten metres comes down to less than a thousandth of a millimetre. */
const HALVINGS = 34;
