import type { BuyResult, LayGroupResult, LayResult, LaySheetResult } from '../../contract/lay.ts';
import type { TakenStock } from '../../contract/stock.ts';
import { type Extents, loopExtents } from '../../geometry/extents.ts';
import type { Region } from '../../geometry/region.ts';
import { layoutFaults } from '../../laid/check-layout.ts';
import type { Filled, LaidOnStock } from '../../lay/sheets/request.ts';
import type { LaidSheet } from '../../model/laid.ts';
import type { StockPiece } from '../../model/stock.ts';
import { laidRegion } from '../../stock/left.ts';
import { shearedPieces } from '../../stock/sheared.ts';
import { grouped } from '../../text/grouped.ts';
import { safeName } from '../../text/safe-name.ts';
import type { LaidFiles } from '../laid/laid-files.ts';
import { laidSheetResult } from '../laid/laid-result.ts';
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
  found.flatMap(({ group, laid }) => laid.filled.map((filled) => pieceOf(group, filled)));

/**
 * The sheets of all groups, named, the whole ones before the remnants; each with its piece of stock
 * as it was given, whatever of it was left for the group.
 */
export const laidSheets = (found: readonly FoundLayout[]): LaidSheet[] =>
  found.flatMap(({ group, laid }) =>
    laid.filled
      .toSorted((a, b) => Number(pieceOf(group, a).isRemnant) - Number(pieceOf(group, b).isRemnant))
      .map((filled, n) => {
        const { name } = pieceOf(group, filled);
        return {
          name: safeName(`${group.material.id}-${group.thicknessMm}-${n + 1}`),
          stock: group.stock.find((piece) => piece.name === name) as StockPiece,
          material: group.material.id,
          thicknessMm: group.thicknessMm,
          gapMm: group.request.gapMm,
          edgeMm: group.request.edgeMm,
          clampsMm: group.request.clampsMm,
          parts: filled.parts,
        };
      }),
  );

const pieceOf = ({ request }: LayGroup, { piece }: Pick<Filled, 'piece'>): StockPiece =>
  request.pieces[piece] as StockPiece;

/**
 * Throws where the search is at fault: parts nearer to each other or to the edge than asked, by
 * their true outlines, or a part that is neither laid nor told to be left.
 */
export const assertLaid = (
  { groups, outlines }: ToLay,
  sheets: readonly LaidSheet[],
  left: LayResult['left'],
): void => {
  const faults = sheets
    .flatMap((sheet) => shearedPieces(sheet, outlines))
    .flatMap(({ stock, parts, gapMm, edgeMm, clampsMm }) =>
      layoutFaults(
        parts.map((part) => ({
          name: `${part.name} ${part.copy}`,
          ...laidRegion(part, outlines.get(part.name) as Region),
        })),
        stock,
        { gapMm, edgeMm, clampsMm, withinMm: WITHIN_MM },
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

/** The files of a laid sheet, and what is told of it. */
export type FilesOfSheet = Pick<LaidFiles, 'usedPercent' | 'clean' | 'findings'> & {
  /** Where its files are, as far as they were written. */
  readonly paths: readonly string[];
};

/** What came of it, for programs. */
export const layResult = (
  toLay: ToLay,
  found: readonly FoundLayout[],
  filesOf: ReadonlyMap<string, FilesOfSheet>,
  taken: TakenStock | null,
): LayResult => {
  const sheets = laidSheets(found);
  return {
    sheets: sheets.map((sheet) => sheetResult(sheet, filesOf.get(sheet.name) as FilesOfSheet)),
    buy: boughtOf(found),
    left: leftOf(toLay, found),
    groups: found.map(groupResult),
    findings: [
      ...toLay.groups.flatMap(({ findings }) => findings),
      ...[...filesOf.values()].flatMap(({ findings }) => findings),
    ],
    taken,
  };
};

/** What is not laid, or cannot be made. */
export const leftOf = (toLay: ToLay, found: readonly FoundLayout[]): LayResult['left'] => [
  ...toLay.left,
  ...found.flatMap(({ laid }) => laid.left),
];

const sheetResult = (
  sheet: LaidSheet,
  { usedPercent, clean, paths }: FilesOfSheet,
): LaySheetResult => {
  const { maxX, minX, maxY, minY } = loopExtents(sheet.stock.outline) as Extents;
  return {
    ...laidSheetResult(sheet),
    widthMm: maxX - minX,
    heightMm: maxY - minY,
    usedPercent,
    clean:
      clean === undefined
        ? null
        : {
            x: clean.minX,
            y: clean.minY,
            widthMm: clean.maxX - clean.minX,
            heightMm: clean.maxY - clean.minY,
          },
    files: paths,
  };
};

const boughtOf = (found: readonly FoundLayout[]): BuyResult[] =>
  found.flatMap(({ group, laid }) =>
    grouped(
      laid.filled
        .map((filled) => pieceOf(group, filled))
        .filter(({ isRemnant, count }) => !isRemnant && count === undefined),
      ({ name }) => name,
    ).map((same) => {
      const { name, price } = same[0] as StockPiece;
      return {
        stock: name,
        material: group.material.id,
        thicknessMm: group.thicknessMm,
        count: same.length,
        price: price === undefined ? null : price * same.length,
      };
    }),
  );

const groupResult = ({ group, laid, seed }: FoundLayout): LayGroupResult => {
  const remnants = laid.filled.filter((filled) => pieceOf(group, filled).isRemnant).length;
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
