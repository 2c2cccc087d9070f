import { figure } from './figures.ts';
import { MM_PER_INCH } from './units.ts';

/** The units that lengths are printed in; inside, and in JSON, all of them are mm. */
export const PRINT_UNITS = ['mm', 'inch'] as const;

export type PrintUnit = (typeof PRINT_UNITS)[number];

/** How lengths are written for a person. */
export interface Printed {
  readonly unit: PrintUnit;
  /** What stands behind a length: `mm`, `in`. */
  readonly word: string;
  /** A length to be read off a tape: `39.5`; in inches the nearest 1/32 and what is left over. */
  readonly tape: (mm: number, decimals?: number) => string;
  /** A length, mm, as far as `tape` tells it to a decimal: sums of such lengths are told true. */
  readonly rounded: (mm: number) => number;
  /** A figure to be set at a machine or worked out: `7.96`; inches in decimals. */
  readonly machine: (mm: number, decimals?: number) => string;
  /** A sentence in which every figure with `mm` or `mm²` behind it is a length or an area. */
  readonly words: (text: string) => string;
  /** An area of sheet, with its unit. */
  readonly area: (mm2: number) => string;
  /** A long way, such as that of a cut, with its unit. */
  readonly way: (mm: number) => string;
}

/** A tape in inches is read to 1/32 of one. */
const PARTS = 32;
/** Half a thousandth of an inch, in inches: what is left over and less is not told. */
const NOTHING_LEFT = 0.0005;
/** An inch has one and a half decimals more than a millimetre: 0.01 mm are 0.0004 in. */
const MORE_DECIMALS = 1;
/** No figure is told less closely than to 1/64 of an inch. */
const LEAST_DECIMALS = 2;

const MM: Printed = {
  unit: 'mm',
  word: 'mm',
  tape: figure,
  rounded: (mm) => Number(figure(mm, 1)),
  machine: figure,
  words: (text) => text,
  area: (mm2) => `${figure(mm2 / 100, 1)} cm²`,
  way: (mm) => `${figure(mm / 1000, 1)} m`,
};

const INCHES_PER_FOOT = 12;

const INCH: Printed = {
  unit: 'inch',
  word: 'in',
  tape: (mm) => inchText(mm / MM_PER_INCH),
  rounded: (mm) => Number(figure(mm / MM_PER_INCH, 3)) * MM_PER_INCH,
  machine: (mm, decimals = 2) =>
    figure(mm / MM_PER_INCH, Math.max(LEAST_DECIMALS, decimals + MORE_DECIMALS)),
  words: (text) => inchWords(text),
  area: (mm2) => `${figure(mm2 / MM_PER_INCH ** 2, 1)} in²`,
  way: (mm) => `${figure(mm / MM_PER_INCH / INCHES_PER_FOOT, 1)} ft`,
};

/** Figures in front of a `mm`: one, or several with words or signs between them: `80 x 40 mm`. */
const LENGTHS =
  /(?<![\w.])(?:-?\d+(?:\.\d+)?(?: ?(?:x|to|by|and|or|\+|±|,) ?(?:-?±? ?))+)*[-±]?\d+(?:\.\d+)? mm(²?)(?![\w³])/g;

/**
 * Decimals that a figure needs in inches to be told apart as it was in mm, no fewer than tell 1/64,
 * and so many that something is left of it.
 */
const decimalsFor = (digits: string): number => {
  const inches = Number(digits) / MM_PER_INCH;
  return Math.max(
    3,
    (digits.split('.')[1]?.length ?? 0) + MORE_DECIMALS,
    inches > 0 ? Math.ceil(-Math.log10(inches)) : 0,
  );
};

const inchWords = (text: string): string =>
  text
    .replace(LENGTHS, (said, square: string) =>
      said
        .replace(/\d+(?:\.\d+)?/g, (digits) =>
          figure(Number(digits) / MM_PER_INCH ** (square === '' ? 1 : 2), decimalsFor(digits)),
        )
        .replace(/ mm(²?)$/, ' in$1'),
    )
    .replace(/(?<![\w])mm(?![\w])/g, 'in');

/** How lengths are written in a unit; mm when left out. */
export const printedIn = (unit: PrintUnit = 'mm'): Printed => (unit === 'mm' ? MM : INCH);

/**
 * An inch length as a tape shows it: whole inches and the nearest 1/32 in lowest terms, and behind
 * it, in thousandths with its sign, what the length is more or less than that: `2 3/8`, `3
 * 11/16+.006`, `1/4-.012`.
 */
export const inchText = (inches: number): string => {
  const parts = Math.round(Math.abs(inches) * PARTS);
  const left = Math.abs(inches) - parts / PARTS;
  const [whole, rest] = [Math.floor(parts / PARTS), parts % PARTS];
  const common = rest === 0 ? 1 : commonDivisor(rest, PARTS);
  const words = [
    ...(whole > 0 || rest === 0 ? [String(whole)] : []),
    ...(rest > 0 ? [`${rest / common}/${PARTS / common}`] : []),
  ].join(' ');
  const off = Math.abs(left).toFixed(3).slice(1);
  const sign = inches < 0 && words !== '0' ? '-' : '';
  return `${sign}${words}${Math.abs(left) < NOTHING_LEFT ? '' : `${left > 0 ? '+' : '-'}${off}`}`;
};

const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b));
