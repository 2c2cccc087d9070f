import { middleOf, scatterOf } from '../../src/statistics/middle.ts';

/** What some work took, in milliseconds: of the clock, and of the processor, all threads together. */
export interface Took {
  readonly wallMs: number;
  readonly cpuMs: number;
}

/** The middle of some values and, of more than one, how far they scatter. */
export interface Figure {
  readonly middle: number;
  /** One standard deviation, from the middle one of the distances, so that a few wild ones do not count. */
  readonly scatter?: number;
}

/**
 * What an answer has to keep to: a ratio of times of the processor within one run where it can be, for
 * that holds on any machine and scatters least; `ratio` where it is of the clock or of no times;
 * milliseconds of the processor where a person waits for them; of the clock where nothing else can
 * be read.
 */
export type Aim = { readonly on: 'ratio' | 'cpuRatio' | 'cpuMs' | 'wallMs' } & (
  { readonly atMost: number } | { readonly atLeast: number }
);

/**
 * One question and its answer. Times hold for this machine and this hour; only the ratios mean
 * something elsewhere.
 */
export interface Answer {
  readonly question: string;
  readonly wallMs: Figure;
  /** Absent where it cannot be read, as for a part of what a browser does. */
  readonly cpuMs?: Figure;
  /** What 95 of 100 do not exceed, where that was asked for. */
  readonly p95Ms?: number;
  /** How often that fits into a second of the clock. */
  readonly perSecond: number;
  /** The middle of the ratios of times of the clock, taken pair by pair within this run. */
  readonly ratio: Figure;
  /** The same of times of the processor. */
  readonly cpuRatio?: Figure;
  /** What the ratios are to. */
  readonly against: string;
  readonly aim?: Aim;
}

/** What was compared, and what with, one after the other. */
export interface Pair {
  readonly work: Took;
  readonly bare: Took;
}

export type Compared = Required<
  Pick<Answer, 'wallMs' | 'cpuMs' | 'perSecond' | 'ratio' | 'cpuRatio'>
>;

export const figureOf = (values: readonly number[]): Figure => {
  const middle = middleOf(values);
  return values.length < 2
    ? { middle }
    : { middle, scatter: scatterOf(values.map((value) => Math.abs(value - middle))) };
};

export const comparedOf = (pairs: readonly Pair[]): Compared => {
  const wallMs = figureOf(pairs.map(({ work }) => work.wallMs));
  return {
    wallMs,
    cpuMs: figureOf(pairs.map(({ work }) => work.cpuMs)),
    perSecond: 1000 / wallMs.middle,
    ratio: figureOf(pairs.map(({ work, bare }) => work.wallMs / bare.wallMs)),
    cpuRatio: figureOf(pairs.map(({ work, bare }) => work.cpuMs / bare.cpuMs)),
  };
};

/** Blocks that have to bring nothing more, and what counts as nothing. */
const SETTLED_BLOCKS = 3;
const NO_QUICKER = 0.95;

/** Whether calls, by what each took in one block after the other, grow no quicker any more. */
export const hasSettled = (eachMs: readonly number[]): boolean =>
  eachMs.length > SETTLED_BLOCKS &&
  Math.min(...eachMs.slice(-SETTLED_BLOCKS)) >=
    NO_QUICKER * Math.min(...eachMs.slice(0, -SETTLED_BLOCKS));

/** Whether an answer keeps to its aim, `undefined` where it has none. */
export const isMet = (answer: Answer): boolean | undefined => {
  const { aim } = answer;
  if (aim === undefined) return undefined;
  const measured = answer[aim.on]?.middle;
  if (measured === undefined) throw new Error(`${answer.question}: ${aim.on} was not measured`);
  return 'atMost' in aim ? measured <= aim.atMost : measured >= aim.atLeast;
};

/** The answers whose aim was missed. */
export const missedOf = (answers: readonly Answer[]): Answer[] =>
  answers.filter((answer) => isMet(answer) === false);

const HEAD = [
  'question',
  'clock',
  'processor',
  '95 of 100',
  'rate',
  'ratio',
  'of processor',
  'against',
  'aim',
];

/** The answers as a table, a line each. */
export const tableOf = (answers: readonly Answer[]): string => {
  const rows = [HEAD, ...answers.map(cellsOf)];
  const widths = HEAD.map((_, i) => Math.max(...rows.map((row) => row[i]?.length ?? 0)));
  return rows
    .map((row) =>
      row
        .map((cell, i) => cell.padEnd(widths[i] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
};

const cellsOf = (answer: Answer): string[] => [
  answer.question,
  milliseconds(answer.wallMs),
  milliseconds(answer.cpuMs),
  answer.p95Ms === undefined ? '' : `${rounded(answer.p95Ms)} ms`,
  `${Math.round(answer.perSecond)}/s`,
  ratioText(answer.ratio),
  answer.cpuRatio === undefined ? '' : ratioText(answer.cpuRatio),
  answer.against,
  aimText(answer),
];

const AIMED = {
  ratio: ['ratio ', ''],
  cpuRatio: ['ratio of processor ', ''],
  cpuMs: ['', ' ms of processor'],
  wallMs: ['', ' ms of clock'],
} as const;

const aimText = (answer: Answer): string => {
  const { aim } = answer;
  if (aim === undefined) return '';
  const [before, after] = AIMED[aim.on];
  const bound = 'atMost' in aim ? `at most ${aim.atMost}` : `at least ${aim.atLeast}`;
  return `${isMet(answer) === true ? 'met' : 'MISSED'}: ${before}${bound}${after}`;
};

const milliseconds = (figure: Figure | undefined): string =>
  figure === undefined ? '' : withScatter(figure, `${rounded(figure.middle)} ms`);

const ratioText = (figure: Figure): string =>
  withScatter(
    figure,
    figure.middle < 0.1 ? figure.middle.toPrecision(2) : figure.middle.toFixed(2),
  );

const rounded = (ms: number): string => ms.toFixed(ms < 10 ? 3 : 1);

/** The scatter in hundredths of the middle: `0.104 ms ±3 %`. */
const withScatter = ({ middle, scatter }: Figure, text: string): string =>
  scatter === undefined ? text : `${text} ±${Math.round((100 * scatter) / Math.abs(middle))} %`;
