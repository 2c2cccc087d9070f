import type { Loop } from '../geometry/loop.ts';
import { moveLoop, turnedBy } from '../geometry/motion2.ts';
import type { Region } from '../geometry/region.ts';
import type { LaidPart, LaidSheet } from '../model/laid.ts';
import { mirrorLoop } from '../model/mirror.ts';
import type { StockPiece } from '../model/stock.ts';
import { STOCK_CHORD_MM } from './chord.ts';
import { grown, type Paths, pathsOf, regionsOf, together, without } from './polygons.ts';

/** Outline and holes of parts by their names, each in the part's own coordinates, as it is cut. */
export type PartOutlines = ReadonlyMap<string, Region>;

/** A part where it lies on its sheet. */
export const laidRegion = (
  { turnedOver, turnDeg, xMm, yMm }: Omit<LaidPart, 'name' | 'copy'>,
  { outline, holes }: Region,
): Region => {
  const motion = turnedBy(turnDeg, xMm, yMm);
  const laid = (loop: Loop): Loop => moveLoop(motion, turnedOver ? mirrorLoop(loop) : loop);
  return { outline: laid(outline), holes: holes.map(laid) };
};

/**
 * What is left of a sheet when its parts are cut, as polygons: the sheet without the parts and the
 * gap round them. What falls out of a part is left too.
 */
export const leftPaths = ({ stock, parts, gapMm }: LaidSheet, outlines: PartOutlines): Paths => {
  const cut = parts.flatMap((part) => {
    const shape = outlines.get(part.name);
    if (shape === undefined) throw new Error(`no outline of ${part.name}`);
    return grown(pathsOf(laidRegion(part, shape)), gapMm + STOCK_CHORD_MM);
  });
  return without(groundPaths(stock), together(cut));
};

/** A piece of stock by chords, which take a little more of it than its arcs do. */
const groundPaths = ({ outline, holes }: StockPiece): Paths => {
  const [ground, gone] = [
    pathsOf({ outline, holes: [] }),
    holes.map((hole) => pathsOf({ outline: hole, holes: [] })),
  ];
  return without(
    hasArcs(outline) ? grown(ground, -STOCK_CHORD_MM) : ground,
    holes.flatMap((hole, i) =>
      hasArcs(hole) ? grown(gone[i] ?? [], STOCK_CHORD_MM) : (gone[i] ?? []),
    ),
  );
};

const hasArcs = (loop: Loop): boolean => loop.some(({ bulge }) => bulge !== 0);

/** Every piece that is left of a sheet, in the sheet's own coordinates, the largest first. */
export const leftOf = (sheet: LaidSheet, outlines: PartOutlines): readonly Region[] =>
  regionsOf(leftPaths(sheet, outlines));
