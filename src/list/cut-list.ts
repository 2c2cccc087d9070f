import { grouped } from '../grouped.ts';
import { cutterFor, type Cutter, type CutRate, type MaterialFamily, type SheetSize, type Shop } from '../model/shop.ts';
import type { PartResult } from '../result.ts';

/** A blank of a job, as the list counts it. */
export interface ListedBlank {
  readonly result: PartResult;
  readonly materialFamily: MaterialFamily;
}

/** Everything of one material and thickness. */
export interface CutGroup {
  readonly material: string;
  readonly thicknessMm: number;
  readonly rows: readonly CutRow[];
  readonly total: Totals;
  /** The cutter of the shop that takes the sheet; `null` where none does. */
  readonly cutter: string | null;
  /** Cutting and piercing, of all blanks; `null` where the shop gives no figures. */
  readonly minutes: number | null;
  /** Of the cutter's time, in the shop's own currency; `null` where that is not known. */
  readonly cuttingCost: number | null;
  /** A first estimate; `null` where the shop has no sheet for it. */
  readonly sheets: SheetEstimate | null;
}

export interface CutRow {
  readonly name: string;
  readonly family: string;
  readonly hand: 'left' | 'right';
  readonly quantity: number;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Of one blank. */
  readonly areaMm2: number;
  readonly massKg: number;
  readonly cutLengthMm: number;
  readonly pierces: number;
  readonly folds: number;
  /** Of one blank; `null` where the shop gives no figures. */
  readonly minutes: number | null;
}

export interface Totals {
  readonly quantity: number;
  readonly areaMm2: number;
  readonly massKg: number;
  readonly cutLengthMm: number;
  readonly pierces: number;
  readonly folds: number;
}

export interface SheetEstimate {
  readonly lengthMm: number;
  readonly widthMm: number;
  /** By the rectangles round the blanks over the sheet's area: blanks are not laid out, so one more may be needed. */
  readonly count: number;
  /** `null` where the shop gives no price. */
  readonly cost: number | null;
}

/** What is cut of a job, by material and thickness. Blanks that cannot be made are not in it. */
export function cutList(blanks: readonly ListedBlank[], shop: Shop): CutGroup[] {
  return grouped(blanks, ({ result: { material } }) => `${material.id} ${material.thicknessMm}`)
    .map((group) => groupOf(group, shop))
    .toSorted((a, b) => (a.material === b.material ? a.thicknessMm - b.thicknessMm : a.material < b.material ? -1 : 1));
}

function groupOf(blanks: readonly ListedBlank[], shop: Shop): CutGroup {
  const [{ result: { material: { id, thicknessMm } }, materialFamily }] = blanks as readonly [ListedBlank];
  const cutter = cutterFor(shop, thicknessMm);
  const rate = cutter === undefined ? undefined : rateOf(cutter, materialFamily, thicknessMm);
  const rows = blanks.flatMap(({ result }) => rowOf(result, rate));
  const sum = (of: (row: CutRow) => number): number => rows.reduce((total, row) => total + row.quantity * of(row), 0);
  const minutes = rate === undefined ? null : sum((row) => row.minutes ?? 0);
  return {
    material: id,
    thicknessMm,
    rows,
    total: { quantity: sum(() => 1), areaMm2: sum((r) => r.areaMm2), massKg: sum((r) => r.massKg), cutLengthMm: sum((r) => r.cutLengthMm), pierces: sum((r) => r.pierces), folds: sum((r) => r.folds) },
    cutter: cutter?.name ?? null,
    minutes,
    cuttingCost: minutes === null || cutter?.pricePerHour === undefined ? null : (minutes / 60) * cutter.pricePerHour,
    sheets: sheetsFor(shop.sheets, materialFamily, thicknessMm, sum((row) => row.widthMm * row.heightMm)),
  };
}

const rowOf = ({ name, family, hand, quantity, blank, bends }: PartResult, rate: CutRate | undefined): CutRow[] =>
  blank === null ? [] : [{ name, family, hand, quantity, ...blank, folds: bends.length, minutes: rate === undefined ? null : blank.cutLengthMm / rate.speed + (blank.pierces * rate.pierce) / 60 }];

/** That of the nearest thicker row: thick sheet is cut more slowly. Rows of the material go before those of any. */
const rateOf = ({ rates = [] }: Cutter, family: MaterialFamily, thicknessMm: number): CutRate | undefined => {
  const thicker = rates.filter((row) => row.thickness >= thicknessMm).toSorted((a, b) => a.thickness - b.thickness);
  return thicker.find((row) => row.material === family) ?? thicker.find((row) => row.material === undefined);
};

const sheetsFor = (sheets: readonly SheetSize[], family: MaterialFamily, thicknessMm: number, rectanglesMm2: number): SheetEstimate | null => {
  const sheet = sheets.find((s) => (s.material === undefined || s.material === family) && (s.thickness === undefined || Math.abs(s.thickness - thicknessMm) < 1e-6));
  if (sheet === undefined) return null;
  const count = Math.ceil(rectanglesMm2 / (sheet.length * sheet.width) - 1e-9);
  return { lengthMm: sheet.length, widthMm: sheet.width, count, cost: sheet.price === undefined ? null : count * sheet.price };
};
