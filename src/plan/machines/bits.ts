/** Sets as the bits of a number: of folds that are made, of fingers that are taken. */

/** How many are in a set. */
export const bitCount = (set: number): number => {
  let count = 0;
  for (let left = set; left !== 0; left &= left - 1) count += 1;
  return count;
};
