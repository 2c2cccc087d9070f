import { setbackMm } from '../../src/template.ts';
import type { CommonValues } from '../../src/template.ts';
import { type Cavity, slopeDeg } from './volume.ts';
import type { Tank } from './inputs.ts';

export type TankPanel = Tank['fillerOn'];

export type FittingName = 'filler' | 'outlet' | 'return' | 'sender' | 'breather' | 'link';
export const FITTINGS: readonly FittingName[] = [
  'filler',
  'outlet',
  'return',
  'sender',
  'breather',
  'link',
];

/** A tank and what follows from its figures, mm. */
export interface TankSizes {
  readonly cavity: Cavity;
  /**
   * How far the wrap reaches beyond the inside of the plates at its sides: their thickness, or
   * their flanges.
   */
  readonly beyondMm: number;
  /** Bends of the wrap from its floor into the deep and the shallow end, degrees. */
  readonly deepBendDeg: number;
  readonly shallowBendDeg: number;
  /**
   * Distance from an inside corner of floor and end to the outside one, along either of them: t
   * tan(A / 2).
   */
  readonly deepCornerMm: number;
  readonly shallowCornerMm: number;
  /**
   * How far the top's edges stand back from the outside of the walls; below 0 where they stand over
   * them.
   */
  readonly topSetbackMm: number;
}

const halfTan = (angleDeg: number): number => Math.tan((angleDeg * Math.PI) / 360);

/**
 * Sizes of a tank. Outside dimensions are over the walls, the floor and the top sheet; both faces
 * of the floor have the same slope.
 */
export const tankSizes = (v: Tank): TankSizes => {
  const t = v.thicknessMm;
  const beyondMm = v.ends === 'flush' ? t : outsideFlangeMm(v);
  const asked: Cavity = {
    lengthMm: v.length,
    widthMm: v.width,
    deepMm: v.height,
    shallowMm: v.heightShallow ?? v.height,
    floorRadiusMm: v.insideRadiusMm,
  };
  const slope = slopeDeg(asked);
  const [deepBendDeg, shallowBendDeg] = [90 + slope, 90 - slope];
  const [deepCornerMm, shallowCornerMm] = [t * halfTan(deepBendDeg), t * halfTan(shallowBendDeg)];
  const cavity: Cavity =
    v.measure === 'inside'
      ? asked
      : {
          ...asked,
          lengthMm: asked.lengthMm - 2 * t,
          widthMm: asked.widthMm - 2 * beyondMm,
          deepMm: asked.deepMm - t - deepCornerMm,
          shallowMm: asked.shallowMm - t - shallowCornerMm,
        };
  return {
    cavity,
    beyondMm,
    deepBendDeg,
    shallowBendDeg,
    deepCornerMm,
    shallowCornerMm,
    topSetbackMm: v.topSetback ?? t / 2,
  };
};

/** Height of the flanges of the plates at the sides, over their outside. */
export const outsideFlangeMm = (v: Tank): number =>
  v.endFlange + (v.measure === 'inside' ? v.thicknessMm : 0);

/** Distance from the inside corner of floor and end to where the bend of the wrap begins. */
export const bendReachMm = (v: CommonValues, angleDeg: number): number =>
  v.insideRadiusMm * halfTan(angleDeg);

/**
 * Difference between a leg to the crossing of the inside faces and a leg as measured, to the
 * innermost tangent of a bend over 90 degrees.
 */
export const pastTangentMm = (v: CommonValues, angleDeg: number): number =>
  bendReachMm(v, angleDeg) - setbackMm(angleDeg, v.insideRadiusMm, v.thicknessMm, 'inside');
