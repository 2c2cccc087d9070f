import type { BuyResult, LaidSheetResult, LayGroupResult, LayResult } from '../../contract/lay.ts';
import { type Extents, loopExtents } from '../../geometry/extents.ts';
import { signedArea } from '../../geometry/measure.ts';
import type { Region } from '../../geometry/region.ts';
import { layoutFaults } from '../../laid/check-layout.ts';
import type { LaidOnStock } from '../../lay/sheets/request.ts';
import type { LaidSheet } from '../../model/laid.ts';
import type { StockPiece } from '../../model/stock.ts';
import { laidRegion } from '../../stock/left.ts';
import { cleanRectangle } from '../../stock/remnants.ts';
import { safeName } from '../../text/safe-name.ts';
import { grouped } from '../../text/grouped.ts';
import type { LayGroup, ToLay } from './lay-groups.ts';

/** How far a distance may be less than asked, mm. */
const WITHIN_MM = 0.01;

/** What the search found for one group, and with which seed. */
export interface FoundLayout {
  readonly group: LayGroup;
  readonly laid: LaidOnStock;
  readonly seed: number;
}

/** The pieces of stock that are cut from, each as often as it is. */
export const usedBy = (found: readonly FoundLayout[]): readonly StockPiece[] =>
  found.flatMap(({ group, laid }) =>
    laid.filled.map(({ piece }) => group.request.pieces[piece] as StockPiece),
  );

/** The sheets of all groups, named, the whole ones before the remnants. */
export const laidSheets = (found: readonly FoundLayout[]): LaidSheet[] =>
  found.flatMap(({ group: { material, thicknessMm, request }, laid }) =>
    laid.filled
      .toSorted((a, b) => Number(isRemnantIn(request, a)) - Number(isRemnantIn(request, b)))
      .map(({ piece, parts }, n) => ({
        name: safeName(`${material.id}-${thicknessMm}-${n + 1}`),
        stock: request.pieces[piece] as StockPiece,
        material: material.id,
        thicknessMm,
        gapMm: request.gapMm,
        edgeMm: request.edgeMm,
        parts,
      })),
  );

const isRemnantIn = ({ pieces }: LayGroup['request'], { piece }: { piece: number }): boolean =>
  (pieces[piece] as StockPiece).isRemnant;

/**
 * Throws where the search is at fault: parts nearer to each other or to the edge than asked, by
 * their true outlines, or a part that is neither laid nor told to be left.
 */
export const assertLaid = (
  { groups, outlines }: ToLay,
  sheets: readonly LaidSheet[],
  left: LayResult['left'],
): void => {
  const faults = sheets.flatMap(({ stock, parts, gapMm, edgeMm }) =>
    layoutFaults(
      parts.map((part) => ({
        name: `${part.name} ${part.copy}`,
        ...laidRegion(part, outlines.get(part.name) as Region),
      })),
      stock,
      { gapMm, edgeMm, withinMm: WITHIN_MM },
    ),
  );
  if (faults.length > 0) throw new Error(JSON.stringify(faults));
  const laid = sheets.flatMap(({ parts }) => parts.map(({ name }) => name));
  for (const { name, quantity } of groups.flatMap(({ request }) => request.parts)) {
    const out = left.reduce((sum, l) => sum + (l.name === name ? l.count : 0), 0);
    if (laid.filter((n) => n === name).length + out !== quantity)
      throw new Error(`of ${name} there are not ${quantity}`);
  }
};

/** What came of it, for programs. Files of a sheet are named by `filesOf`. */
export const layResult = (
  toLay: ToLay,
  found: readonly FoundLayout[],
  filesOf: ReadonlyMap<string, readonly string[]>,
): LayResult => {
  const sheets = laidSheets(found);
  const left = [...toLay.left, ...found.flatMap(({ laid }) => laid.left)];
  assertLaid(toLay, sheets, left);
  return {
    sheets: sheets.map((sheet) => sheetResult(sheet, toLay, filesOf.get(sheet.name) ?? [])),
    buy: boughtOf(sheets),
    left,
    groups: found.map(groupResult),
  };
};

const sheetResult = (
  sheet: LaidSheet,
  { outlines }: ToLay,
  files: readonly string[],
): LaidSheetResult => {
  const { name, stock, material, thicknessMm, gapMm, edgeMm, parts } = sheet;
  const { maxX, minX, maxY, minY } = loopExtents(stock.outline) as Extents;
  const metal = parts.reduce((sum, part) => sum + areaOf(outlines.get(part.name) as Region), 0);
  const clean = cleanRectangle(sheet, outlines);
  return {
    name,
    stock: stock.name,
    isRemnant: stock.isRemnant,
    material,
    thicknessMm,
    widthMm: maxX - minX,
    heightMm: maxY - minY,
    usedPercent: (100 * metal) / areaOf(stock),
    cleanMm:
      clean === undefined
        ? null
        : {
            x: clean.minX,
            y: clean.minY,
            widthMm: clean.maxX - clean.minX,
            heightMm: clean.maxY - clean.minY,
          },
    gapMm,
    edgeMm,
    parts: parts.map(({ name: part, copy, xMm, yMm, turnDeg, turnedOver }) => ({
      name: part,
      copy,
      x: xMm,
      y: yMm,
      turnDeg,
      turnedOver,
    })),
    files,
    piece: stock,
  };
};

const areaOf = ({ outline, holes }: Region): number =>
  Math.abs(signedArea(outline)) - holes.reduce((sum, hole) => sum + Math.abs(signedArea(hole)), 0);

const boughtOf = (sheets: readonly LaidSheet[]): BuyResult[] =>
  grouped(
    sheets.filter(({ stock }) => stock.count === undefined),
    ({ stock, material, thicknessMm }) => `${stock.name} ${material} ${thicknessMm}`,
  ).map((same) => {
    const { stock, material, thicknessMm } = same[0] as LaidSheet;
    return {
      stock: stock.name,
      material,
      thicknessMm,
      count: same.length,
      price: stock.price === undefined ? null : stock.price * same.length,
    };
  });

const groupResult = ({ group, laid, seed }: FoundLayout): LayGroupResult => {
  const remnants = laid.filled.filter((filled) => isRemnantIn(group.request, filled)).length;
  return {
    material: group.material.id,
    thicknessMm: group.thicknessMm,
    sheets: laid.filled.length - remnants,
    remnants,
    isLeast: laid.isProved,
    seed,
    steps: laid.steps,
  };
};
