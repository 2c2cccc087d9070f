import type { AddedRemnant } from '../../contract/stock.ts';
import { loopExtents } from '../../geometry/extents.ts';
import type { Loop } from '../../geometry/loop.ts';
import { movedRegion } from '../../geometry/region.ts';
import type { LaidSheet } from '../../model/laid.ts';
import { isCircle } from '../../geometry/shapes.ts';
import type { Grain, Remnant, RemnantHole } from '../../model/sheets.ts';
import type { KeptPiece } from '../../stock/remnants.ts';
import { figure } from '../../text/figures.ts';

/** A remnant as it is told, and as it stands in the shop file. */
export interface NewRemnant {
  readonly told: AddedRemnant;
  readonly entry: Remnant;
}

/** A piece that is kept of a sheet, under a name. A rectangle lies with its longer side along x. */
export const newRemnant = (
  name: string,
  sheet: LaidSheet,
  { box, isRectangle, ...region }: KeptPiece,
): NewRemnant => {
  const { minX, minY } = box;
  const [wide, high] = [box.maxX - minX, box.maxY - minY].map(rounded) as [number, number];
  const isUpright = isRectangle && high > wide;
  const { outline, holes } = movedRegion(region, [-minX, -minY]);
  const metal = { material: sheet.stock.material ?? sheet.material, thickness: sheet.thicknessMm };
  const sides = { length: Math.max(wide, high), width: Math.min(wide, high) };
  const text = pointsOf(outline);
  return {
    entry: {
      name,
      ...metal,
      ...(isRectangle ? sides : { outline: text }),
      ...(holes.length > 0 && { holes: holes.map(holeEntry) }),
      ...(sheet.stock.grain !== undefined && {
        grain: grainOf((sheet.stock.grain === 'x') !== isUpright),
      }),
    },
    told: {
      name,
      material: metal.material,
      thicknessMm: metal.thickness,
      from: sheet.stock.name,
      sheet: sheet.name,
      lengthMm: isRectangle ? sides.length : wide,
      widthMm: isRectangle ? sides.width : high,
      outline: isRectangle ? null : text,
      xMm: rounded(minX),
      yMm: rounded(minY),
    },
  };
};

const holeEntry = (hole: Loop): RemnantHole => {
  const box = isCircle(hole) ? loopExtents(hole) : undefined;
  return box === undefined
    ? { outline: pointsOf(hole) }
    : {
        x: rounded((box.minX + box.maxX) / 2),
        y: rounded((box.minY + box.maxY) / 2),
        diameter: rounded(box.maxX - box.minX),
      };
};

const grainOf = (isAlong: boolean): Grain => (isAlong ? 'along' : 'across');

const rounded = (mm: number): number => Math.round(mm * 1000) / 1000;

const pointsOf = (loop: Loop): string =>
  loop.map(({ x, y }) => `${figure(x, 1)},${figure(y, 1)}`).join('; ');
