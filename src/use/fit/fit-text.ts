import { type Printed, printedIn } from '../../text/printed.ts';
import { figure } from '../../text/figures.ts';
import type { BoltFit, CauseShare, FitMeasure, FitResult } from '../../contract/fit.ts';
import { calledOf } from '../../model/hole-names.ts';
import { holesText, mendText, percent } from '../../fit/short.ts';
import { TERMINAL_COLUMNS, textColumns } from '../../text/columns.ts';

/** How well a part is likely to fit, as a table and some sentences. */
export const fitText = (
  name: string,
  { measures, bolts, basis }: FitResult,
  print = printedIn(),
): string =>
  [
    `${name}: how well it is likely to fit (± holds 95 times in 100)`,
    ...(measures.length === 0 ? [ROLLED] : table(measures, print)),
    ...bolts.flatMap((fit) => boltLines(fit, print)),
    '  reckoned with',
    ...basis.map((line) => `    ${print.words(line)}`),
  ].join('\n');

/** A wall that is rolled all over is as round as whoever rolls it makes it. */
const ROLLED = '  No figure can be told ahead: how round it comes out is up to the rolling.';

const table = (measures: readonly FitMeasure[], print: Printed): string[] => {
  const hasTolerance = measures.some((m) => m.tolerance !== null);
  const heads = [
    'measure',
    'asked',
    'expected',
    '±',
    'at worst',
    ...(hasTolerance ? ['allowed', 'chance'] : []),
    'from',
  ];
  const rows = measures.map((m) => [
    calledOf(m),
    withUnit(m.asked, m, print),
    withUnit(m.expected, m, print),
    offText(m.likely, m, print),
    offText(m.worst, m, print),
    ...(hasTolerance ? toleranceCells(m, print) : []),
    m.causes
      .filter(isTold)
      .map((c) => `${c.cause} ${Math.round(100 * c.share)} %`)
      .join(', '),
  ]);
  return textColumns(
    [heads, ...rows],
    (i) => i === 0 || i === heads.length - 1,
    TERMINAL_COLUMNS - 2,
  ).map((line) => `  ${line}`);
};

/** In decimals, as fine as the room of a terminal lets them be: 0.01 mm, 0.01 in. */
const withUnit = (value: number, { unit }: FitMeasure, print: Printed): string =>
  unit === 'mm'
    ? print.machine(value, print.unit === 'mm' ? 2 : 1)
    : `${figure(value)}${print.unit === 'mm' ? ' deg' : '°'}`;

const offText = (value: number, { unit }: FitMeasure, { machine }: Printed): string =>
  unit === 'mm' ? machine(value) : figure(value);

const toleranceCells = (measure: FitMeasure, print: Printed): string[] => {
  const { tolerance, unit } = measure;
  return tolerance === null
    ? ['', '']
    : [
        `${tolerance.grade} ±${unit === 'mm' ? print.machine(tolerance.plusMinus) : figure(tolerance.plusMinus, 3)}`,
        percent(tolerance.chance),
      ];
};

/** Causes with little effect are not told. */
const isTold = ({ share }: CauseShare, i: number): boolean => i === 0 || (i < 3 && share >= 0.05);

/** Whether bolts go in, and what would mend it where not. */
export const boltLines = (fit: BoltFit, print: Printed): string[] => {
  const bolts = [...new Set(fit.bolts)].join(' and ');
  return [
    `  bolts  ${bolts} through ${holesText(fit)}${fit.meets === null ? '' : ` to ${fit.meets}`}: all go in with a chance of ${percent(fit.chance)} (play ${print.machine(fit.clearanceMm)} ${print.word} to either side)`,
    ...(fit.mend === null ? [] : [`         mend: ${mendText(fit, print)}`]),
  ];
};
