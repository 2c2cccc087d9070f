import { fromMemory, practice, published } from './sourced.ts';

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

/**
 * Gaps in which square edges are welded, mm, up to a thickness of sheet, mm: wire and gas, one run
 * only with something behind it.
 */
export const SQUARE_EDGE_GAPS = published(
  [
    { upToMm: 4.8, gapMm: [0, 0.8] },
    { upToMm: 6.4, gapMm: [0.8, 2.4] },
  ] as const,
  'a MIG handbook of a maker of welding consumables: square edges up to 4.8 and up to 6.4 mm',
);

/**
 * What is laid behind a seam of aluminium that is welded from one side, in thicknesses t of the
 * sheet and mm, of plate under 6 mm: a bar that is taken away has a groove, a strip stays.
 */
export const ALUMINIUM_BACKING = published(
  { thinnerThanMm: 6, groove: { wideT: 2, deepT: 0.25 }, strip: { wideMm: [30, 35], upToMm: 10 } },
  'The welding of aluminium and its alloys, figure 5.12',
);
