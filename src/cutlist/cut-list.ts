import { grouped } from '../text/grouped.ts';
import { fitsTurned } from '../geometry/fit.ts';
import type { FlatPattern } from '../model/flat.ts';
import {
  cutterFor,
  type Cutter,
  type CutRate,
  type MaterialFamily,
  type Shop,
} from '../model/shop.ts';
import { isOfSheet, type SheetSize } from '../model/sheets.ts';
import type { PartResult } from '../contract/part.ts';
import { leastSheets } from './sheet-bound.ts';
import { silhouetteOf } from './silhouette.ts';
import type { CutGroup, CutRow, LaidOn } from '../contract/cut-list.ts';

/** A blank of a job, as the list counts it. */
export interface ListedBlank {
  readonly result: PartResult;
  readonly materialFamily: MaterialFamily;
  /** Its flat pattern, needed to estimate how many sheets it takes. */
  readonly flat?: FlatPattern | undefined;
}

/** What the blanks of a material and thickness are laid on, where that is known. */
export type LaidOnOf = (
  material: string,
  thicknessMm: number,
  blanks: readonly ListedBlank[],
) => LaidOn | null;

/** What a job needs cut, by material and thickness. Blanks that cannot be made are left out. */
export function cutList(
  blanks: readonly ListedBlank[],
  shop: Shop,
  laidOn: LaidOnOf = () => null,
): CutGroup[] {
  return grouped(blanks, ({ result: { material } }) => `${material.id} ${material.thicknessMm}`)
    .map((group) => groupOf(group, shop, laidOn))
    .toSorted((a, b) =>
      a.material === b.material ? a.thicknessMm - b.thicknessMm : a.material < b.material ? -1 : 1,
    );
}

function groupOf(blanks: readonly ListedBlank[], shop: Shop, laidOn: LaidOnOf): CutGroup {
  const [
    {
      result: {
        material: { id, thicknessMm },
      },
      materialFamily,
    },
  ] = blanks as readonly [ListedBlank];
  const cutter = cutterFor(shop, thicknessMm);
  const rate = cutter === undefined ? undefined : rateOf(cutter, materialFamily, thicknessMm);
  const rows = blanks.flatMap(({ result }) => rowOf(result, rate));
  const sum = (of: (row: CutRow) => number): number =>
    rows.reduce((total, row) => total + row.quantity * of(row), 0);
  const minutes = rate === undefined ? null : sum((row) => row.minutes ?? 0);
  return {
    material: id,
    thicknessMm,
    rows,
    total: {
      quantity: sum(() => 1),
      areaMm2: sum((r) => r.areaMm2),
      massKg: sum((r) => r.massKg),
      cutLengthMm: sum((r) => r.cutLengthMm),
      pierces: sum((r) => r.pierces),
      folds: sum((r) => r.folds),
    },
    cutter: cutter?.name ?? null,
    minutes,
    cuttingCost:
      minutes === null || cutter?.pricePerHour === undefined
        ? null
        : (minutes / 60) * cutter.pricePerHour,
    laid: laidOn(id, thicknessMm, blanks),
    ...sheetsFor(
      shop.sheets.filter((s) => isOfSheet(s, { id, family: materialFamily }, thicknessMm)),
      blanks,
    ),
  };
}

const rowOf = (
  { name, family, hand, quantity, blank, bends }: PartResult,
  rate: CutRate | undefined,
): CutRow[] => {
  if (blank === null) return [];
  const { widthMm, heightMm, areaMm2, massKg, cutLengthMm, pierces } = blank;
  const size = { widthMm, heightMm, areaMm2, massKg, cutLengthMm, pierces };
  const minutes =
    rate === undefined ? null : cutLengthMm / rate.speed + (pierces * rate.pierce) / 60;
  return [{ name, family, hand, quantity, ...size, folds: bends.length, minutes }];
};

/**
 * The rate of the nearest thicker row, since thick sheet is cut more slowly. Rows of the material
 * come before those for any material.
 */
const rateOf = (
  { rates = [] }: Cutter,
  family: MaterialFamily,
  thicknessMm: number,
): CutRate | undefined => {
  const thicker = rates
    .filter((row) => row.thickness >= thicknessMm)
    .toSorted((a, b) => a.thickness - b.thickness);
  return (
    thicker.find((row) => row.material === family) ??
    thicker.find((row) => row.material === undefined)
  );
};

const sheetsFor = (
  stock: readonly SheetSize[],
  blanks: readonly ListedBlank[],
): Pick<CutGroup, 'sheets' | 'tooLarge' | 'otherSheets'> => {
  const laid = blanks.flatMap(({ result: { name, quantity }, flat }) =>
    flat === undefined ? [] : [{ name, quantity, shape: silhouetteOf(flat) }],
  );
  const goesOn = laid.map(({ shape }) =>
    stock.map(({ length, width }) => fitsTurned(shape.hull, length, width)),
  );
  const going = (sheet: number): number => goesOn.filter((each) => each[sheet]).length;
  const best = stock.reduce((most, _, i) => (going(i) > going(most) ? i : most), 0);
  const sheet = stock[best];
  if (sheet === undefined || laid.length === 0)
    return { sheets: null, tooLarge: [], otherSheets: [] };
  const { length, width, price } = sheet;
  const count = leastSheets(
    laid.filter((_, i) => goesOn[i]?.[best]),
    length,
    width,
  );
  return {
    sheets:
      count === 0
        ? null
        : {
            lengthMm: length,
            widthMm: width,
            count,
            cost: price === undefined ? null : count * price,
          },
    tooLarge: laid.filter((_, i) => goesOn[i]?.every((goes) => !goes)).map(({ name }) => name),
    otherSheets: laid.flatMap(({ name }, i) => {
      const other = goesOn[i]?.[best] === false ? stock[goesOn[i].indexOf(true)] : undefined;
      return other === undefined ? [] : [{ name, lengthMm: other.length, widthMm: other.width }];
    }),
  };
};
