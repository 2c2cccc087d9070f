import { lacks } from '../../model/measured.ts';
import { loopExtents } from '../../geometry/extents.ts';
import { offsetLoop } from '../../geometry/offset.ts';
import { figure } from '../../text/figures.ts';
import type { Loop } from '../../geometry/loop.ts';
import { type Finding, stop } from '../../model/finding.ts';
import { holeCalled } from '../../model/hole-names.ts';
import type { FlatCutout } from '../../model/flat.ts';

/** What is cut, as edges of the metal or as the lines that the middle of the tool follows. */
export interface CutLines {
  readonly outline: Loop;
  readonly cutouts: readonly FlatCutout[];
}

/**
 * The lines of the tool along the edges of a blank, for a table that does not allow for its kerf:
 * the outline half a kerf outside the metal, every hole half a kerf inside its edge. Arcs stay
 * arcs. What is no wider than the kerf cannot be cut and is told.
 */
export const cutLines = (
  { outline, cutouts }: CutLines,
  kerfMm: number,
): CutLines | readonly Finding[] => {
  const around = offsetLoop(outline, kerfMm / 2);
  const inside = cutouts.map((hole) => shrunk(hole, kerfMm));
  const lost = cutouts.filter((_, i) => inside[i] === undefined);
  if (around !== undefined && lost.length === 0)
    return { outline: around, cutouts: inside as FlatCutout[] };
  return [
    ...(around === undefined
      ? [closed('A notch or an inner corner of the outline is', kerfMm)]
      : []),
    ...lost.map((hole) => ({
      ...closed(`Hole ${holeCalled(hole)} in ${hole.panel} is, or has a corner that is,`, kerfMm),
      inputs: hole.inputs ?? [],
      panel: hole.panel,
      ...(hole.kind === 'round'
        ? { at: hole.centre, ...lacks(hole.diameterMm, kerfMm) }
        : middleOf(hole.loop)),
    })),
  ];
};

const middleOf = (loop: Loop): Pick<Finding, 'at'> => {
  const box = loopExtents(loop);
  return box === undefined ? {} : { at: [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2] };
};

const closed = (what: string, kerfMm: number): Finding =>
  stop(
    'kerf-too-wide',
    `${what} too narrow for a kerf of ${figure(kerfMm)} mm: make it wider, choose reliefs wider than the kerf (leastSlot), or cut it with a finer kerf.`,
  );

const shrunk = (hole: FlatCutout, kerfMm: number): FlatCutout | undefined => {
  if (hole.kind === 'round')
    return hole.diameterMm > kerfMm ? { ...hole, diameterMm: hole.diameterMm - kerfMm } : undefined;
  const loop = offsetLoop(hole.loop, -kerfMm / 2);
  return loop === undefined ? undefined : { ...hole, loop };
};
