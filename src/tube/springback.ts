/**
 * Springback of a tube bender: what the tube turns back by when it is let go. It has a part that is
 * the same at every angle (play of clamp and former) and one that grows with the angle.
 */
export interface TubeSpringback {
  readonly fixedDeg: number;
  /** Degrees for each degree that stays. */
  readonly share: number;
}

/** A bend that was made to find it: what the bender's scale said, and what stayed. */
export interface TestBend {
  readonly pulledDeg: number;
  readonly stayedDeg: number;
}

/**
 * What the bender is pulled to for an angle: a + fixed + share a (article by a maker of tube benders:
 * wanted 90, fixed 1.5, share 0.05, bent to 96).
 */
export const pullToDeg = (angleDeg: number, { fixedDeg, share }: TubeSpringback): number =>
  angleDeg + fixedDeg + share * angleDeg;

/**
 * Both constants out of two test bends or more, by least squares of what sprang back against what
 * stayed (the same article: two bends, of some 20 and 120 degrees). `undefined` where the angles are
 * one and the same, which tell nothing of how it grows.
 */
export function springbackOf(
  tests: readonly TestBend[],
): (TubeSpringback & { readonly spreadDeg: number | null }) | undefined {
  const points = tests.map(({ pulledDeg, stayedDeg }) => ({
    x: stayedDeg,
    y: pulledDeg - stayedDeg,
  }));
  const mean = (of: (p: { x: number; y: number }) => number): number =>
    points.reduce((sum, p) => sum + of(p), 0) / points.length;
  const [x0, y0] = [mean(({ x }) => x), mean(({ y }) => y)];
  const across = mean(({ x }) => (x - x0) ** 2);
  if (points.length < 2 || across < SAME_ANGLE_DEG2) return undefined;
  const share = mean(({ x, y }) => (x - x0) * (y - y0)) / across;
  const fixedDeg = y0 - share * x0;
  const left = points.reduce((sum, { x, y }) => sum + (y - fixedDeg - share * x) ** 2, 0);
  const spreadDeg = points.length < 3 ? null : Math.sqrt(left / (points.length - 2));
  return { fixedDeg, share, spreadDeg };
}

/** Test bends whose angles scatter by less than this, degrees squared, count as one angle. */
const SAME_ANGLE_DEG2 = 1;

/**
 * A first guess, until a test bend is made: springback for each degree = 4 s R / (pi E r), with yield
 * strength s, modulus E, radius R of the bend and r of the tube's wall (own derivation: thin round
 * tube without hardening, M = 4 s r^2 t on I = pi r^3 t). Real benders give more, 1 to 4 degrees in
 * 90, so it is never taken for a measured figure.
 */
export const guessedSpringback = (
  { diameterMm, wallMm }: { readonly diameterMm: number; readonly wallMm: number },
  radiusMm: number,
  { yieldMpa, modulusMpa }: { readonly yieldMpa: number; readonly modulusMpa: number },
): TubeSpringback => ({
  fixedDeg: 0,
  share: (4 * yieldMpa * radiusMm) / (Math.PI * modulusMpa * ((diameterMm - wallMm) / 2)),
});

/**
 * Centre-line radius that a bend has when it has sprung back: the arc keeps its length while its angle
 * gets less, so R = former x pulled / stayed.
 */
export const openedRadiusMm = (formerMm: number, pulledDeg: number, stayedDeg: number): number =>
  (formerMm * pulledDeg) / stayedDeg;

/** How much shorter the way round a bend is than over its corner: R (2 tan(a / 2) - a). */
export const gainMm = (radiusMm: number, angleDeg: number): number =>
  radiusMm * gainOfUnit(angleDeg);

/** Centre-line radius out of a gain that was measured: legs to the corner, less the length that was cut. */
export const radiusOfGainMm = (gain: number, angleDeg: number): number =>
  gain / gainOfUnit(angleDeg);

const gainOfUnit = (angleDeg: number): number => {
  const rad = (angleDeg * Math.PI) / 180;
  return 2 * Math.tan(rad / 2) - rad;
};
