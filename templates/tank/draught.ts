import { lowestMm } from './holes.ts';
import type { TankSizes } from './sizes.ts';
import type { Tank } from './inputs.ts';
import { grossLitres, litresBelow } from './volume.ts';

/** A hole's lower edge over the inside corner at the deep end, and what one tank holds below it. */
export interface Level {
  readonly levelMm: number;
  readonly belowL: number;
}

/**
 * Volumes that can be filled in and drawn off again, litres. They are those of one tank, but for
 * `drawableL`, which is that of the pair where there is one.
 */
export interface Draught {
  readonly grossL: number;
  readonly usableL: number;
  readonly outlet: Level | undefined;
  readonly link: Level | undefined;
  /** Volume that remains in the tank of a pair that is not drawn from. */
  readonly trappedL: number;
  readonly drawableL: number;
}

/**
 * Levels at which drawing stops: the outlet's lower edge, or the end of its pickup pipe. One tank
 * of a pair is drawn from; the other follows through the link pipe down to the pipe's lower edge,
 * or to the outlet where that is higher.
 */
export const drawnFrom = (v: Tank, s: TankSizes): Draught => {
  const { cavity } = s;
  const level = (levelMm: number | undefined): Level | undefined =>
    levelMm === undefined ? undefined : { levelMm, belowL: litresBelow(cavity, levelMm) };
  const grossL = grossLitres(cavity);
  const usableL = (grossL * v.fillLimit) / 100;
  const outlet = level(
    v.outlet.length > 0 && v.outletOn === 'top' ? v.pickup : lowestMm(v, s, 'outlet'),
  );
  const link = level(lowestMm(v, s, 'link'));
  const ownL = Math.max(0, usableL - (outlet?.belowL ?? 0));
  const trappedL = Math.min(usableL, Math.max(outlet?.belowL ?? 0, link?.belowL ?? 0));
  return {
    grossL,
    usableL,
    outlet,
    link,
    trappedL,
    drawableL: v.pair ? ownL + usableL - trappedL : ownL,
  };
};
