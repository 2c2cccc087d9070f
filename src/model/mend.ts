import { atLeast, atMost, figure } from '../text/figures.ts';

/** What one input would have to be for a finding to go away, all others as they are. */
export interface Mend {
  /** Its name, as in a file: `legA`. */
  readonly input: string;
  /**
   * The least and the most that do, in mm, degrees or pieces and in the measure that was given; not
   * there without such a limit.
   */
  readonly atLeast?: number;
  readonly atMost?: number;
  /** What does, where that is no range; `null` leaves the input out. */
  readonly value?: number | string | null;
}

/** `height 58 or more`. Rounded so that the figure shown passes too, as all of these are. */
export const orMore = (input: string, least: number, decimals = 2): Mend => ({
  input,
  atLeast: Number(atLeast(least, decimals)),
});

/** `radius 3 or less`. */
export const orLess = (input: string, most: number, decimals = 2): Mend => ({
  input,
  atMost: Number(atMost(most, decimals)),
});

/** `lap 4.6 to 4.75`. */
export const within = (input: string, least: number, most: number): Mend => ({
  ...orMore(input, least),
  ...orLess(input, most),
});

/** `lift 0`, `corner butt`. */
export const just = (input: string, value: number | string): Mend => ({ input, value });

/** `leave out notch`. */
export const without = (input: string): Mend => ({ input, value: null });

/** A unit in which a length is told: its word behind a figure, and its size in mm. */
export interface ShownUnit {
  readonly word: string;
  readonly mm: number;
}

export const MM: ShownUnit = { word: '', mm: 1 };

/** Places behind the point: as fine as a hundredth of a millimetre is wanted, whatever the unit. */
const decimalsIn = ({ mm }: ShownUnit): number => (mm === 1 ? 2 : mm < 100 ? 3 : 4);

/** What is to be written, without the name of the input; without a word for leaving it out. */
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

/** Whether some value does at all. */
export const isPossible = ({
  atLeast: least = -Infinity,
  atMost: most = Infinity,
}: Mend): boolean => least <= most;
