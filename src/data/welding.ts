import { fromMemory, practice } from './sourced.ts';

/**
 * The torch with which the reach of seams is checked. No standard gives its size: it is that of a
 * hand torch for light sheet.
 */
export const TORCH = {
  nozzleMm: practice(
    20,
    'common practice: the gas nozzle of a hand torch for wire up to 1 mm is about 20 mm outside',
  ),
  stickOutMm: practice(15, 'common practice: 10 to 15 mm of wire between nozzle and seam'),
  straightMm: fromMemory(100, 'from memory: as much is straight before the neck bends away'),
  tiltDeg: practice(
    45,
    'common practice: a torch is led at less than 45 degrees to the middle of the joint and to its length',
  ),
  leastNozzleMm: fromMemory(10, 'from memory: the smallest usual cups are about 10 mm outside'),
} as const;
