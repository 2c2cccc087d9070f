import type { InputProblem } from '../forms/problem.ts';
import { loopExtents } from '../geometry/extents.ts';
import { rectangle } from '../geometry/loop.ts';
import { movedRegion, type Region } from '../geometry/region.ts';
import type { Remnant, SheetSize } from '../model/sheets.ts';
import type { Shop } from '../model/shop.ts';
import type { StockPiece } from '../model/stock.ts';
import { regionOf } from '../shop/remnant-region.ts';
import { figure } from '../text/figures.ts';
import { type DxfRegion, regionOfDxf } from './dxf-region.ts';

/** The bytes of DXF files beside a shop file, by the names that its remnants have for them. */
export type StockDrawings = ReadonlyMap<string, Uint8Array>;

export type ReadStock =
  | { readonly ok: true; readonly stock: readonly StockPiece[] }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

/**
 * What a shop has to cut parts from: remnants in the order of its file, then sheets. No two have
 * one name. A remnant is there once; its box is moved to 0,0. Remnants whose DXF file is not among
 * `drawings`, or draws no outline, are problems.
 */
export const stockOf = (shop: Shop, drawings: StockDrawings = new Map()): ReadStock => {
  const problems: InputProblem[] = [];
  const remnants = shop.remnants.flatMap((remnant, i): StockPiece[] => {
    const region = regionFor(remnant, drawings);
    if (region.ok) return [remnantPiece(remnant, region.region)];
    problems.push({
      input: `remnants[${i}].dxf`,
      given: `${remnant.dxf ?? ''} of ${remnant.name}: ${region.why}`,
      allowed: 'a DXF file beside the shop file that draws one closed outline, with its holes',
      mend: region.mend,
    });
    return [];
  });
  return problems.length > 0
    ? { ok: false, problems }
    : { ok: true, stock: [...remnants, ...sheetPieces(shop)] };
};

const regionFor = (remnant: Remnant, drawings: StockDrawings): DxfRegion => {
  const region = regionOf(remnant);
  if (region !== undefined) return { ok: true, region };
  const bytes = drawings.get(remnant.dxf ?? '');
  return bytes === undefined
    ? { ok: false, why: 'there is no such file', mend: 'put it there, or give length and width' }
    : regionOfDxf(bytes);
};

const remnantPiece = (
  { name, material, thickness, grain, price }: Remnant,
  region: Region,
): StockPiece => {
  const box = loopExtents(region.outline) ?? { minX: 0, minY: 0 };
  return {
    name,
    material,
    thicknessMm: thickness,
    isRemnant: true,
    ...movedRegion(region, [-box.minX, -box.minY]),
    count: 1,
    ...(price !== undefined && { price }),
    ...(grain !== undefined && { grain: grain === 'along' ? 'x' : 'y' }),
  };
};

/** Sheets without a name are called by their size; of two that then share one, by a number too. */
const sheetPieces = ({ sheets, remnants }: Shop): StockPiece[] => {
  const taken = new Set(
    [...sheets, ...remnants].flatMap(({ name }) =>
      name === undefined ? [] : [name.toLowerCase()],
    ),
  );
  return sheets.map((sheet) => {
    const name = sheet.name ?? freeName(sizeOf(sheet), taken);
    taken.add(name.toLowerCase());
    return sheetPiece(name, sheet);
  });
};

const freeName = (base: string, taken: ReadonlySet<string>): string => {
  for (let n = 1; ; n += 1) {
    const name = n === 1 ? base : `${base} (${n})`;
    if (!taken.has(name.toLowerCase())) return name;
  }
};

const sizeOf = ({ length, width, thickness, material }: SheetSize): string =>
  [
    [
      Math.max(length, width),
      Math.min(length, width),
      ...(thickness === undefined ? [] : [thickness]),
    ]
      .map((mm) => figure(mm))
      .join(' x '),
    ...(material === undefined ? [] : [material]),
  ].join(' ');

const sheetPiece = (name: string, sheet: SheetSize): StockPiece => {
  const { length, width, material, thickness, count, price, grain } = sheet;
  const isLong = length >= width;
  return {
    name,
    ...(material !== undefined && { material }),
    ...(thickness !== undefined && { thicknessMm: thickness }),
    isRemnant: false,
    outline: rectangle(0, 0, Math.max(length, width), Math.min(length, width)),
    holes: [],
    ...(count !== undefined && { count }),
    ...(price !== undefined && { price }),
    ...(grain !== undefined && { grain: (grain === 'along') === isLong ? 'x' : 'y' }),
  };
};
