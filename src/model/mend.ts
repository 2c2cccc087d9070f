import { atLeast, atMost, figure } from '../text/figures.ts';

/** The values of one input that remove a finding while all other inputs stay as they are. */
export interface Mend {
  /** Name of the input, as in a file: `legA`. */
  readonly input: string;
  /**
   * Least and greatest value that will do, in mm, degrees or pieces and in the measure that was
   * given; absent where there is no such limit.
   */
  readonly atLeast?: number;
  readonly atMost?: number;
  /** The value that will do where it is not a range; `null` leaves the input out. */
  readonly value?: number | string | null;
}

/**
 * A mend such as `height 58 or more`. Its figure is rounded so that the rounded figure passes too,
 * as in all of these.
 */
export const orMore = (input: string, least: number, decimals = 2): Mend => ({
  input,
  atLeast: Number(atLeast(least, decimals)),
});

/** A mend such as `radius 3 or less`. */
export const orLess = (input: string, most: number, decimals = 2): Mend => ({
  input,
  atMost: Number(atMost(most, decimals)),
});

/** A mend such as `lap 4.6 to 4.75`. */
export const within = (input: string, least: number, most: number): Mend => ({
  ...orMore(input, least),
  ...orLess(input, most),
});

/** A mend such as `lift 0` or `corner butt`. */
export const just = (input: string, value: number | string): Mend => ({ input, value });

/** A mend such as `leave out notch`. */
export const without = (input: string): Mend => ({ input, value: null });

/** A unit for telling lengths: the word written behind a figure, and its size in mm. */
export interface ShownUnit {
  readonly word: string;
  readonly mm: number;
}

export const MM: ShownUnit = { word: '', mm: 1 };

/** Decimal places, so that any unit is written as finely as a hundredth of a millimetre. */
const decimalsIn = ({ mm }: ShownUnit): number => (mm === 1 ? 2 : mm < 100 ? 3 : 4);

/**
 * The value to write, without the name of the input. There is no wording for leaving the input out.
 */
export const mendFigure = (
  { atLeast: least, atMost: most, value }: Mend,
  unit: ShownUnit = MM,
): string => {
  const decimals = decimalsIn(unit);
  const low = least === undefined ? '' : `${atLeast(least / unit.mm, decimals)}${unit.word}`;
  const high = most === undefined ? '' : `${atMost(most / unit.mm, decimals)}${unit.word}`;
  if (low !== '' && high !== '') return low === high ? low : `${low} to ${high}`;
  if (low !== '') return `${low} or more`;
  if (high !== '') return `${high} or less`;
  return typeof value === 'number'
    ? `${figure(value / unit.mm, decimals)}${value === 0 ? '' : unit.word}`
    : String(value);
};

/** Whether any value satisfies the mend. */
export const isPossible = ({
  atLeast: least = -Infinity,
  atMost: most = Infinity,
}: Mend): boolean => least <= most;
