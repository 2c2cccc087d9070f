import { cosDeg, sinDeg } from './degrees.ts';
import { loopExtents } from './extents.ts';
import type { Loop } from './loop.ts';
import { moveLoop } from './motion2.ts';
import { NOISE_MM } from './tolerance.ts';

/**
 * The least turn in whole degrees, 0 to 179, after which a loop fits into a rectangle `length` x `width`; `undefined`
 * when none does. Square positions are preferred: 0, then 90.
 */
export function turnToFit(loop: Loop, length: number, width: number): number | undefined {
  const fits = (deg: number): boolean => {
    const box = loopExtents(moveLoop({ c: cosDeg(deg), s: sinDeg(deg), x: 0, y: 0 }, loop));
    return box !== undefined && box.maxX - box.minX <= length + NOISE_MM && box.maxY - box.minY <= width + NOISE_MM;
  };
  return [0, 90, ...Array.from({ length: 180 }, (_, deg) => deg)].find(fits);
}
