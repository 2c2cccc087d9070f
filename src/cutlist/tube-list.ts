import type { TubeBar, TubeGroup, TubeRow } from '../contract/cut-list.ts';
import type { PartResult } from '../contract/part.ts';
import { USUAL_TUBE_STOCK } from '../model/bender.ts';
import type { Shop } from '../model/shop.ts';
import { textColumns, TERMINAL_COLUMNS } from '../text/columns.ts';
import { figure } from '../text/figures.ts';
import { grouped } from '../text/grouped.ts';
import type { Printed } from '../text/printed.ts';
import { M3_PER_MM3 } from '../text/units.ts';
import { barPlan } from '../tube/bar-plan.ts';

/** What a job needs of tube, by grade, diameter and wall, laid on the bars that the shop buys. */
export const tubeList = (parts: readonly PartResult[], { tubeStock }: Shop): TubeGroup[] => {
  const tubes = parts.flatMap((part) =>
    part.tube === undefined ? [] : [{ ...part, tube: part.tube }],
  );
  return grouped(
    tubes,
    ({ material, tube }) => `${material.id} ${tube.diameterMm} ${tube.wallMm}`,
  ).map((group) => groupOf(group, tubeStock ?? USUAL_TUBE_STOCK));
};

type TubePartResult = PartResult & { readonly tube: NonNullable<PartResult['tube']> };

const groupOf = (
  tubes: readonly TubePartResult[],
  { lengths, sawKerf }: NonNullable<Shop['tubeStock']>,
): TubeGroup => {
  const [{ material, tube: first }] = tubes as readonly [TubePartResult];
  const { diameterMm, wallMm } = first;
  const perMm = Math.PI * (diameterMm - wallMm) * wallMm * material.densityKgM3 * M3_PER_MM3;
  const rows = tubes.map(({ name, family, hand, quantity, tube }): TubeRow => {
    const lengthMm = tube.cutLengthMm;
    return { name, family, hand, quantity, lengthMm, massKg: perMm * lengthMm };
  });
  const pieces = rows.flatMap((row) => Array.from({ length: row.quantity }, () => row));
  const plan = barPlan({
    piecesMm: pieces.map(({ lengthMm }) => lengthMm),
    barsMm: lengths,
    kerfMm: sawKerf,
  });
  const piece = (i: number): TubeRow => pieces[i] as TubeRow;
  const lengthMm = pieces.reduce((sum, row) => sum + row.lengthMm, 0);
  return {
    material: material.id,
    diameterMm,
    wallMm,
    rows,
    lengthMm,
    massKg: perMm * lengthMm,
    sawKerfMm: sawKerf,
    bars: plan.bars.map(({ barMm, pieces: own, leftMm }): TubeBar => ({
      barMm,
      cuts: own.map((i) => ({ name: piece(i).name, lengthMm: piece(i).lengthMm })),
      leftMm,
    })),
    tooLong: [...new Set(plan.tooLong.map((i) => piece(i).name))],
    isBest: plan.isBest,
  };
};

/** The tubes as tables, one for each grade and size, with what is cut off each bar. */
export const tubeListText = (groups: readonly TubeGroup[], print: Printed): string =>
  groups.map((group) => groupText(group, print)).join('\n\n');

const groupText = (group: TubeGroup, print: Printed): string => {
  const { tape, word } = print;
  const cells = [
    ['tube', 'hand', 'off', `length ${word}`, 'kg each'],
    ...group.rows.map((r) => [
      r.name,
      r.hand,
      String(r.quantity),
      tape(r.lengthMm, 1),
      figure(r.massKg, 3),
    ]),
  ];
  const table = textColumns(cells, (i) => i < 2, TERMINAL_COLUMNS - 2);
  return [
    `${group.material} tube ${figure(group.diameterMm)} x ${figure(group.wallMm)} mm`,
    ...[...table, ...barLines(group, print)].map((line) => `  ${line}`),
  ].join('\n');
};

const barLines = (group: TubeGroup, { tape, way, word }: Printed): string[] => [
  `together ${way(group.lengthMm)}, ${figure(group.massKg, 2)} kg, of ${group.bars.length} ${group.bars.length === 1 ? 'bar' : 'bars'}, the saw's cut of ${figure(group.sawKerfMm)} mm allowed for${group.isBest ? '' : '; the search was ended, fewer may do'}`,
  ...group.bars.map(
    ({ barMm, cuts, leftMm }, i) =>
      `bar ${i + 1}, ${tape(barMm, 0)} ${word}: ${cuts.map((cut) => `${cut.name} ${tape(cut.lengthMm, 1)}`).join(' + ')}; left ${tape(leftMm, 0)}`,
  ),
  ...group.tooLong.map((name) => `${name} is longer than any bar: order a longer one, or join it`),
];

/** The same as rows for a table of comma-separated values, the heading first. */
export const tubeListRows = (groups: readonly TubeGroup[]): (string | number)[][] => [
  [
    'material',
    'diameter_mm',
    'wall_mm',
    'tube',
    'family',
    'hand',
    'quantity',
    'length_mm',
    'mass_kg',
  ],
  ...groups.flatMap(({ material, diameterMm, wallMm, rows }) =>
    rows.map((r) => [
      material,
      diameterMm,
      wallMm,
      r.name,
      r.family,
      r.hand,
      r.quantity,
      rounded(r.lengthMm),
      rounded(r.massKg),
    ]),
  ),
];

const rounded = (value: number): number => Math.round(value * 1e4) / 1e4;
