import type { StripResult } from '../../contract/lay.ts';
import { polygon, rectangle } from '../../geometry/loop.ts';
import { moveLoop, turnedBy } from '../../geometry/motion2.ts';
import { layoutFaults } from '../../laid/check-layout.ts';
import type { Strip } from '../../lay/strip-task.ts';

/** How far items may be in each other, as a share of the strip's width: the noise of sums. */
const SOUND_SHARE = 1e-6;

/**
 * Throws where the search is at fault: an item that lies in another or beyond the strip, by the
 * outlines as they were given.
 */
export const assertSound = (strip: Strip, { placements, usedLength }: StripResult): void => {
  const outlines = new Map(strip.items.map((item) => [item.id, polygon(...item.polygon)]));
  const lying = placements.map(({ item, x, y, turnDeg }, i) => ({
    name: `item ${item}, number ${i}`,
    outline: moveLoop(turnedBy(turnDeg, x, y), outlines.get(item) ?? []),
    holes: [],
  }));
  const faults = layoutFaults(
    lying,
    { outline: rectangle(0, 0, usedLength, strip.width), holes: [] },
    { gapMm: 0, edgeMm: 0, withinMm: SOUND_SHARE * strip.width },
  );
  if (faults.length > 0) throw new Error(JSON.stringify(faults));
};
