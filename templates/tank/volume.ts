import { clip, signedArea, LITRES_PER_MM3, SETTLED_MM } from '../../src/template.ts';
import type { Loop, Vertex } from '../../src/template.ts';
import { type PlateCorner, plateOutline } from '../baffle/plate.ts';
import { type BaffleSection, cornerDeg, insetCorners, tangentMm } from '../baffle/section.ts';

/**
 * The inside of a tank, mm: a box, or a wedge whose floor rises evenly from the deep end to the
 * shallow one under a level roof. It is the same all across its width. Seen from the right side the
 * deep end is at the left; the origin is the inside corner of floor and deep end, as if it were not
 * rounded.
 */
export interface Cavity {
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly deepMm: number;
  readonly shallowMm: number;
  /** Inside radius of the bends from the floor into both ends. */
  readonly floorRadiusMm: number;
}

/** How far the shallow end of the floor lies above the deep one. */
export const riseMm = ({ deepMm, shallowMm }: Cavity): number => deepMm - shallowMm;

/** Slope of the floor, degrees. */
export const slopeDeg = (c: Cavity): number => (Math.atan2(riseMm(c), c.lengthMm) * 180) / Math.PI;

/** Length of the floor along its slope, from inside corner to inside corner. */
export const floorMm = (c: Cavity): number => Math.hypot(c.lengthMm, riseMm(c));

/** Inside depth at a distance from the deep end. */
export const depthAtMm = (c: Cavity, fromDeepMm: number): number =>
  c.deepMm - (riseMm(c) * fromDeepMm) / c.lengthMm;

/**
 * The long section, with the deep end at the left: a section of its own kind, with rounded corners
 * at its floor alone.
 */
export const profileSection = (c: Cavity): BaffleSection => ({
  widthMm: c.lengthMm,
  leftDepthMm: c.deepMm,
  rightDepthMm: c.shallowMm,
  floorRadiusMm: c.floorRadiusMm,
  roofRadiusMm: 0,
  floorSlopeDeg: 0,
});

/** The edges of a long section, in their order round it. */
export const PROFILE_EDGES = ['floor', 'shallow', 'roof', 'deep'] as const;

/**
 * The long section drawn in by a gap on all four sides, its rounded corners about the same centres.
 */
export const profileOutline = (c: Cavity, gapMm: number): Loop => {
  const corners = insetCorners(profileSection(c), gapMm);
  const made = corners.map((_, i): PlateCorner => {
    const angleDeg = cornerDeg(corners, i);
    const roundMm = i < 2 ? Math.max(0, c.floorRadiusMm - gapMm) : 0;
    return { angleDeg, roundMm, cutMm: 0, tangentMm: tangentMm(roundMm, angleDeg) };
  });
  return plateOutline({ corners, made }, PROFILE_EDGES);
};

const cutPoint = ([x, y]: readonly [number, number]): Vertex => ({ x, y, bulge: 0 });

/** Volume of the tank brim-full, litres: its long section times its width. */
export const grossLitres = (c: Cavity): number => litresOver(c, profileOutline(c, 0));

/**
 * Volume up to a level over the inside corner at the deep end, litres. It is exact, since the long
 * section is made of lines and arcs: the part of it below the level, times the width.
 */
export const litresBelow = (c: Cavity, levelMm: number): number =>
  // At the floor itself only the noise of the arithmetic would be left.
  levelMm <= 0
    ? 0
    : clip(profileOutline(c, 0), [0, -1], -levelMm, cutPoint).reduce(
        (sum, loop) => sum + litresOver(c, loop),
        0,
      );

const litresOver = (c: Cavity, section: Loop): number =>
  signedArea(section) * c.widthMm * LITRES_PER_MM3;

/** Volume between two distances from the deep end, litres, brim-full. */
export const litresBetween = (c: Cavity, fromMm: number, toMm: number): number =>
  clip(profileOutline(c, 0), [1, 0], fromMm, cutPoint)
    .flatMap((loop) => clip(loop, [-1, 0], -toMm, cutPoint))
    .reduce((sum, loop) => sum + litresOver(c, loop), 0);

/** The level of a volume in litres, mm, to within a thousandth. */
export const levelOf = (c: Cavity, litres: number): number => {
  let [low, high] = [0, c.deepMm];
  while (high - low > SETTLED_MM) {
    const middle = (low + high) / 2;
    if (litresBelow(c, middle) < litres) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};
