import type { KeyedHole } from '../draw/hole-keys.ts';
import { figure } from '../../text/figures.ts';
import type { FlatPattern } from '../../model/flat.ts';
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
        'Angle: how far the metal is turned from flat. UP: towards you as the blank is drawn, DOWN: away from you.',
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
  { name: 'Way', isBig: true, isText: true },
  ...(isPlanned ? [big('Stop at °'), big('Mark mm')] : []),
  plain('Inside radius'),
  ...(isPlanned ? [words('Mark is measured from')] : []),
  plain('Allowance'),
  plain('Deduction'),
  plain('K'),
];

/** Where the ends of fold lines lie that run square to no edge of the sheet. */
export const slantedFolds = ({ bends }: FlatPattern): TableBlock[] => {
  const slanted = bends.filter(
    ({ centreLine: [p, q] }) => Math.abs(p[0] - q[0]) > 0.05 && Math.abs(p[1] - q[1]) > 0.05,
  );
  if (slanted.length === 0) return [];
  return [
    {
      kind: 'table',
      title: 'Slanting fold lines: their ends, from the lower left corner',
      columns: [
        { name: 'Fold', isBig: true, isText: true },
        big('from x'),
        big('y'),
        big('to x'),
        big('y'),
      ],
      rows: slanted.map(({ id, centreLine: [p, q] }) => [id, ...[...p, ...q].map(markText)]),
      across: slanted.length > 3 ? 2 : 1,
    },
  ];
};

export const holesTable = (holes: readonly KeyedHole[], flat: FlatPattern): TableBlock[] => {
  const slots = flat.bends.flatMap(({ id }) => {
    const count = flat.cutouts.filter((h) => h.kind === 'loop' && h.fold === id).length;
    return count === 0 ? [] : [`Along fold ${id}: a row of ${count} slots, cut with the outline.`];
  });
  if (holes.length === 0 && slots.length === 0) return [];
  return [
    {
      kind: 'table',
      title: 'Holes, from the lower left corner of the blank',
      columns: [
        { name: 'Hole', isBig: true, isText: true },
        { name: 'Size', isBig: true, isText: true },
        words('Kind'),
        big('x mm'),
        big('y mm'),
        words('On'),
      ],
      rows: holes.map(({ key, size, kind, centre: [x, y], hole }) => [
        key,
        size,
        kind,
        markText(x),
        markText(y),
        hole.panel,
      ]),
      across: holes.length > 2 ? 2 : 1,
      captions: slots,
    },
  ];
};

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
