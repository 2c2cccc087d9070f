import type { BlankSizes } from '../sizes/blank-sizes.ts';
import { sizeTables } from '../sizes/size-tables.ts';
import { includedDeg } from '../../text/angles.ts';
import { figure } from '../../text/figures.ts';
import type { BendResult, PartResult, ReportResult } from '../../contract/part.ts';
import type { Column, TableBlock } from './content.ts';
import type { ProofResult } from '../../contract/proof.ts';
import type { FoldStep } from '../../contract/fold-plan.ts';

const big = (name: string): Column => ({ name, isBig: true });
const plain = (name: string): Column => ({ name });
const words = (name: string): Column => ({ name, isText: true });

/** Marks to the tenth that a scriber keeps to; what is calculated to the hundredth. */
const markText = (mm: number): string => figure(mm, 1);

/** One row a fold; what the machine is set by comes first. */
export const bendTable = ({ bends, foldPlan }: PartResult): TableBlock[] => {
  if (bends.length === 0) return [];
  const steps = foldPlan?.steps ?? [];
  const isPlanned = steps.length > 0;
  // A fold made in two is marked before the first stroke and has its angle after the last.
  const stepsOf = (id: string): readonly FoldStep[] =>
    steps.filter((s) => s.bend.split(' + ').includes(id));
  const row = (b: BendResult): string[] => {
    const own = stepsOf(b.id);
    const [step, last] = [own[0], own.at(-1)];
    const machine = !isPlanned
      ? []
      : step === undefined || last === undefined
        ? ['-', '-', '-']
        : [
            figure(last.stopAtDeg, 1),
            step.sightLineMm === null ? '-' : markText(step.sightLineMm),
            step.from,
          ];
    return [
      b.id,
      figure(b.angleDeg, 1),
      b.angleDeg >= 180 ? '-' : figure(includedDeg(b.angleDeg), 1),
      b.direction.toUpperCase(),
      ...machine.slice(0, 2),
      figure(b.insideRadiusMm),
      ...machine.slice(2),
      figure(b.allowanceMm),
      figure(b.deductionMm),
      figure(b.kFactor, 3),
    ];
  };
  return [
    {
      kind: 'table',
      title: 'Bends',
      columns: bendColumns(isPlanned),
      rows: bends.map(row),
      across: !isPlanned && bends.length > 6 ? 2 : 1,
      captions: [
        'Angle: how far the metal is turned from flat; a square or an angle finder in the bend reads the other. UP: towards you as the blank is drawn, DOWN: away from you.',
        ...(bends[0]?.measure === 'inside' ? ['Deduction: of inside dimensions.'] : []),
        isPlanned
          ? "Stop at: the machine's angle, springback allowed for. Mark: the sight line, to 0.1 mm. Allowance and deduction are calculated, to 0.01 mm."
          : 'Allowance and deduction are calculated, to 0.01 mm.',
      ],
    },
  ];
};

const bendColumns = (isPlanned: boolean): Column[] => [
  { name: 'Fold', isBig: true, isText: true },
  big('Angle °'),
  plain('Square reads °'),
  { name: 'Way', isBig: true, isText: true },
  ...(isPlanned ? [big('Stop at °'), big('Mark mm')] : []),
  plain('Inside radius'),
  ...(isPlanned ? [words('Mark is measured from')] : []),
  plain('Allowance'),
  plain('Deduction'),
  plain('K'),
];

/** Sizes that are told beside the picture of the blank. */
export const blankTables = (sizes: BlankSizes): TableBlock[] =>
  sizeTables(sizes).map((sizeTable) => ({
    kind: 'table',
    ...sizeTable,
    isClose: sizeTable.rows.length > CLOSE_ROWS,
    across: sizeTable.rows.length > ALONE_ROWS && sizeTable.columns.length < WIDE ? 2 : 1,
  }));

/** So few rows stand below each other, so many columns do, and so many rows stand close. */
const ALONE_ROWS = 3;
const WIDE = 6;
const CLOSE_ROWS = 12;

/** What the written file was found to fold to. */
export const proofTable = (proof: ProofResult | null): TableBlock[] => {
  if (proof === null) return [];
  const mm = (value: number): string => figure(value);
  const off = (asked: number, found: number): string => signed(found - asked);
  const rows = [
    ...proof.measures.map(({ name, askedMm, foundMm }) => [
      name,
      mm(askedMm),
      foundMm === null ? 'not found' : mm(foundMm),
      foundMm === null ? '-' : off(askedMm, foundMm),
    ]),
    ...proof.angles.map(({ name, askedDeg, foundDeg }) => [
      `${name}, °`,
      mm(askedDeg),
      foundDeg === null ? 'not found' : mm(foundDeg),
      foundDeg === null ? '-' : off(askedDeg, foundDeg),
    ]),
  ];
  return [
    {
      kind: 'table',
      title: 'Proof: the cut file, read again, folded up and measured',
      columns: [words('Measure, mm'), plain('Asked'), plain('Found'), plain('Difference')],
      rows,
      across: rows.length > 4 ? 2 : 1,
      isClose: true,
    },
  ];
};

const signed = (value: number): string => {
  const text = figure(value, 3);
  return value > 0 && text !== '0' ? `+${text}` : text;
};

/** Figures and tables that a family tells beside its parts. */
export const reportTables = ({ name, figures, tables }: ReportResult): TableBlock[] => [
  ...(figures.length === 0
    ? []
    : [
        {
          kind: 'table',
          title: `${name} in figures`,
          columns: [words('What'), big('Figure'), words('Unit'), words('About')],
          rows: figures.map((f) => [f.name, figure(f.value), f.unit, f.about ?? '']),
        } satisfies TableBlock,
      ]),
  ...tables.map(({ title, columns, rows }): TableBlock => ({
    kind: 'table',
    title: `${name}: ${title}`,
    columns: columns.map((c) => plain(c.unit === '' ? c.name : `${c.name}, ${c.unit}`)),
    rows: rows.map((row) => row.map((value) => figure(value))),
    across: rows.length > 12 && columns.length <= 3 ? 2 : 1,
    isClose: rows.length > 12,
  })),
];
