/**
 * Normal deviates: sums of twelve even numbers from xorshift32 (Marsaglia), a different generator
 * from the tool's own.
 */
export const deviates = (start: number): (() => number) => {
  let x = start;
  const next = (): number => {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    return (x >>> 0) / 2 ** 32;
  };
  return () => Array.from({ length: 12 }, next).reduce((sum, v) => sum + v, -6);
};
