import { unitFigure } from '../../text/unit-figure.ts';
import type { BlankSizes } from '../sizes/blank-sizes.ts';
import { sizeTables } from '../sizes/size-tables.ts';
import { includedDeg } from '../../text/angles.ts';
import type { Printed } from '../../text/printed.ts';
import { figure } from '../../text/figures.ts';
import type { BendResult, PartResult, ReportResult } from '../../contract/part.ts';
import type { Column, TableBlock } from './content.ts';
import { calledOf } from '../../model/hole-names.ts';
import type { ProofResult } from '../../contract/proof.ts';
import type { FoldStep } from '../../contract/fold-plan.ts';

const big = (name: string): Column => ({ name, isBig: true });
const plain = (name: string): Column => ({ name });
const words = (name: string): Column => ({ name, isText: true });

/** Marks to the tenth that a scriber keeps to; what is calculated to the hundredth. */
const markText = (mm: number, { tape }: Printed): string => tape(mm, 1);

/** One row a fold; what the machine is set by comes first. */
export const bendTable = ({ bends, foldPlan }: PartResult, print: Printed): TableBlock[] => {
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
            last.way === 'by eye'
              ? '-'
              : `${last.bump === undefined ? '' : `${last.bump.hits} x `}${figure(last.stopAtDeg, 1)}`,
            step.sightLineMm === null ? '-' : markText(step.sightLineMm, print),
            step.from,
          ];
    return [
      b.id,
      figure(b.angleDeg, 1),
      b.angleDeg >= 180 ? '-' : figure(includedDeg(b.angleDeg), 1),
      b.direction.toUpperCase(),
      ...machine.slice(0, 2),
      print.machine(b.insideRadiusMm),
      ...machine.slice(2),
      print.machine(b.allowanceMm),
      print.machine(b.deductionMm),
      figure(b.kFactor, 3),
    ];
  };
  return [
    {
      kind: 'table',
      title: 'Bends',
      columns: bendColumns(isPlanned, print),
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

/** The lines of the hits of each bend that is bumped, as many times side by side as fit. */
export const hitTables = ({ foldPlan }: PartResult, print: Printed): TableBlock[] =>
  (foldPlan?.steps ?? []).flatMap(({ bend, bump, from }): TableBlock[] => {
    if (bump === undefined || bump.linesMm.length === 0) return [];
    const high = Math.ceil(bump.linesMm.length / HITS_ABREAST);
    const cell = (i: number): string[] => {
      const mm = bump.linesMm[i];
      return mm === undefined ? ['', ''] : [`${i + 1}`, markText(mm, print)];
    };
    const abreast = Math.min(HITS_ABREAST, Math.ceil(bump.linesMm.length / high));
    return [
      {
        kind: 'table',
        title: `Hits of fold ${bend}`,
        columns: Array.from({ length: abreast }, () => [plain('Hit'), plain(print.word)]).flat(),
        rows: Array.from({ length: high }, (_, row) =>
          Array.from({ length: abreast }, (__, column) => cell(column * high + row)).flat(),
        ),
        captions: [
          `Each line from ${from}, in the order in which they are made. The middle of the bend is a line only where the number of hits is odd.`,
        ],
      },
    ];
  });

/** Columns of hits side by side. */
const HITS_ABREAST = 4;

const bendColumns = (isPlanned: boolean, { word }: Printed): Column[] => [
  { name: 'Fold', isBig: true, isText: true },
  big('Angle °'),
  plain('Square reads °'),
  { name: 'Way', isBig: true, isText: true },
  ...(isPlanned ? [big('Stop at °'), big(`Mark ${word}`)] : []),
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

/**
 * What the written file was found to fold to: what differs from what was asked, row by row, and how
 * much does not, in one line; all of it is told by `make --json`.
 */
export const proofTable = (proof: ProofResult | null, print: Printed): TableBlock[] => {
  if (proof === null) return [];
  const all = [
    ...proof.measures.map((m) => ({
      name: `${calledOf(m)}, ${print.word}`,
      asked: m.askedMm,
      found: m.foundMm,
      text: print.machine,
    })),
    ...proof.angles.map((a) => ({
      name: `${a.name}, °`,
      asked: a.askedDeg,
      found: a.foundDeg,
      text: figure,
    })),
  ];
  const off = all.filter(({ asked, found }) => found === null || signed(found - asked) !== '0');
  const same = all.length - off.length;
  return [
    {
      kind: 'table',
      title: 'Proof: the cut file, read again, folded up and measured',
      columns: [words('Measure'), plain('Asked'), plain('Found'), plain('Difference')],
      rows: off.map(({ name, asked, found, text }) => [
        name,
        text(asked),
        found === null ? 'not found' : text(found),
        found === null ? '-' : signed(found - asked),
      ]),
      across: off.length > 4 ? 2 : 1,
      isClose: true,
      captions:
        same === 0
          ? []
          : [
              `${off.length === 0 ? 'All ' : ''}${same} ${off.length === 0 ? 'measures' : 'more measures'} came out as asked, to 0.001 mm and 0.001°.`,
            ],
    },
  ];
};

/** All that the proof measured, to be looked up. */
export const proofAppendix = (proof: ProofResult | null, print: Printed): TableBlock[] => {
  const rows = [
    ...(proof?.measures ?? []).map((m) => [calledOf(m), print.machine(m.askedMm)]),
    ...(proof?.angles ?? []).map(({ name, askedDeg }) => [`${name}, °`, figure(askedDeg)]),
  ];
  return rows.length === 0
    ? []
    : [
        {
          kind: 'table',
          title: 'Appendix: what the proof measured',
          columns: [words(`Measure, ${print.word}`), plain('Asked')],
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
export const reportTables = (
  { name, figures, tables }: ReportResult,
  print: Printed,
): TableBlock[] => [
  ...(figures.length === 0
    ? []
    : [
        {
          kind: 'table',
          title: `${name} in figures`,
          columns: [words('What'), big('Figure'), words('Unit'), words('About')],
          rows: figures.map((f) => [f.name, ...unitFigure(f.value, f.unit, print), f.about ?? '']),
        } satisfies TableBlock,
      ]),
  ...tables.map(({ title, columns, rows }): TableBlock => ({
    kind: 'table',
    title: `${name}: ${title}`,
    columns: columns.map((c) => {
      const [, unit] = unitFigure(0, c.unit, print);
      return plain(unit === '' ? c.name : `${c.name}, ${unit}`);
    }),
    rows: rows.map((row) =>
      row.map((value, i) => unitFigure(value, columns[i]?.unit ?? '', print)[0]),
    ),
    across: rows.length > 12 && columns.length <= 3 ? 2 : 1,
    isClose: rows.length > 12,
  })),
];
