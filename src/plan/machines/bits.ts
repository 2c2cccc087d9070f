/** Sets of folds that are made, or of fingers that are taken, as the bits of a number. */

/** The number of elements in a set. */
export const bitCount = (set: number): number => {
  let count = 0;
  for (let left = set; left !== 0; left &= left - 1) count += 1;
  return count;
};
