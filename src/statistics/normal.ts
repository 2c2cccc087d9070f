/**
 * The share of a normal distribution that lies below `z` standard deviations. Abramowitz and Stegun
 * 26.2.17, good to 7.5e-8.
 */
export const normalBelow = (z: number): number => {
  if (z < 0) return 1 - normalBelow(-z);
  const t = 1 / (1 + 0.2316419 * z);
  const tail =
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return 1 - (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * tail;
};

/**
 * Chance that an error of this mean and standard deviation stays within `limit` to either side of
 * 0.
 */
export const chanceWithin = (limit: number, mean: number, sigma: number): number =>
  sigma === 0
    ? Number(Math.abs(mean) <= limit)
    : normalBelow((limit - mean) / sigma) - normalBelow((-limit - mean) / sigma);

/**
 * Normal deviates, the same ones for the same start: mulberry32 (public domain) and the polar form
 * of Box and Muller. They serve sampling that must give the same figures every time.
 */
export const normalDeviates = (start: number): (() => number) => {
  let state = start;
  const next = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  let spare: number | undefined;
  return () => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    for (;;) {
      const [u, v] = [2 * next() - 1, 2 * next() - 1];
      const s = u * u + v * v;
      if (s === 0 || s >= 1) continue;
      const k = Math.sqrt((-2 * Math.log(s)) / s);
      spare = v * k;
      return u * k;
    }
  };
};
