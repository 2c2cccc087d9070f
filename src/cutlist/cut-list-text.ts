import { type Printed, printedIn, type PrintUnit } from '../text/printed.ts';
import { grouped } from '../text/grouped.ts';
import { figure } from '../text/figures.ts';
import { TERMINAL_COLUMNS, textColumns } from '../text/columns.ts';
import type { CutGroup, CutRow, LaidOn, LaidOnSheet } from '../contract/cut-list.ts';

const columnsIn = ({
  word,
  tape,
  machine,
}: Printed): readonly (readonly [head: string, cell: (row: CutRow) => string])[] => [
  ['part', (r) => r.name],
  ['hand', (r) => r.hand],
  ['off', (r) => String(r.quantity)],
  [`blank ${word}`, (r) => `${tape(r.widthMm, 1)} x ${tape(r.heightMm, 1)}`],
  ['kg each', (r) => figure(r.massKg, 3)],
  [`cut ${word}`, (r) => machine(r.cutLengthMm, 0)],
  ['pierces', (r) => String(r.pierces)],
  ['folds', (r) => String(r.folds)],
];

/** The list as tables, one for each material and thickness. */
export const cutListText = (groups: readonly CutGroup[], units?: PrintUnit): string =>
  groups.map((group) => groupText(group, printedIn(units))).join('\n\n');

const groupText = (group: CutGroup, print: Printed): string => {
  const columns = columnsIn(print);
  const cells = [
    columns.map(([head]) => head),
    ...group.rows.map((row) => columns.map(([, cell]) => cell(row))),
  ];
  const lines = textColumns(cells, (i) => i < 2, TERMINAL_COLUMNS - 2).map((line) => `  ${line}`);
  return [
    `${group.material} ${figure(group.thicknessMm, 3)} mm`,
    ...lines,
    ...sums(group).map((line) => `  ${line}`),
  ].join('\n');
};

const sums = ({
  total,
  cutter,
  minutes,
  cuttingCost,
  sheets,
  tooLarge,
  otherSheets,
  laid,
}: CutGroup): string[] => [
  `together ${total.quantity} blanks, ${figure(total.areaMm2 / 1e6, 3)} m2, ${figure(total.massKg, 2)} kg, ${figure(total.cutLengthMm / 1000, 2)} m of cut, ${total.pierces} pierces, ${total.folds} folds`,
  cutter === null
    ? 'no cutter of the shop takes it'
    : `on ${cutter}${minutes === null ? '' : `: ${figure(minutes, 1)} minutes${cuttingCost === null ? '' : `, ${figure(cuttingCost)} at its price by the hour`}`}`,
  ...(laid === null ? [] : laidLines(laid)),
  ...(sheets === null || laid !== null
    ? []
    : [
        `at least ${sheets.count} ${sheets.count === 1 ? 'sheet' : 'sheets'} of ${figure(sheets.lengthMm)} x ${figure(sheets.widthMm)}${sheets.cost === null ? '' : `, ${figure(sheets.cost)}`}, however the blanks are laid out`,
      ]),
  ...otherSheets.map(
    ({ name, lengthMm, widthMm }) =>
      `not among them: ${name}, which goes on ${figure(lengthMm)} x ${figure(widthMm)}`,
  ),
  ...tooLarge.map(
    (name) =>
      `${name} goes on no sheet in stock in any turn: order a longer or wider one, or split it with a weld seam`,
  ),
];

/** What the blanks are laid on, in words: `laid on 2 of 2000 x 1000 (71, 34 % used), remnant R7 ...`. */
export const laidLines = ({ sheets, cost, notLaid }: LaidOn): string[] => {
  const pieces = grouped(sheets, ({ stock, isRemnant }) => `${isRemnant} ${stock}`).map((same) => {
    const { stock, isRemnant } = same[0] as LaidOnSheet;
    const used = same.map(({ usedPercent }) => figure(usedPercent, 0)).join(', ');
    return `${isRemnant ? 'remnant' : `${same.length} of`} ${stock} (${used} % used)`;
  });
  return [
    ...(pieces.length === 0
      ? []
      : [`laid on ${pieces.join(', ')}${cost === null || cost === 0 ? '' : `, ${figure(cost)}`}`]),
    ...notLaid.map(({ name, count }) => `on none of the sheets: ${count} of ${name}`),
  ];
};

/** The list as rows for a table of comma-separated values, the heading first. */
export const cutListRows = (groups: readonly CutGroup[]): (string | number)[][] => [
  [
    'material',
    'thickness_mm',
    'part',
    'family',
    'hand',
    'quantity',
    'width_mm',
    'height_mm',
    'area_mm2',
    'mass_kg',
    'cut_length_mm',
    'pierces',
    'folds',
    'minutes',
  ],
  ...groups.flatMap(({ material, thicknessMm, rows }) =>
    rows.map((r) => [
      material,
      thicknessMm,
      r.name,
      r.family,
      r.hand,
      r.quantity,
      round(r.widthMm),
      round(r.heightMm),
      round(r.areaMm2),
      round(r.massKg),
      round(r.cutLengthMm),
      r.pierces,
      r.folds,
      r.minutes === null ? '' : round(r.minutes),
    ]),
  ),
];

const round = (value: number): number => Math.round(value * 1e4) / 1e4;
