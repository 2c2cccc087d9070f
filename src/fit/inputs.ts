import { type Instrument, READINGS } from '../data/tolerances/accuracy.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Asked } from '../contract/asked.ts';
import type { CauseName } from './causes.ts';

/** An input that was measured on the job. */
export interface MeasuredInput {
  readonly name: string;
  readonly unit: 'mm' | 'degrees';
  /** How far it may be off, where it states that itself. */
  readonly plusMinus?: number | undefined;
}

/**
 * The part with an input increased by some amount, both as it is asked for and in the flat;
 * `undefined` where there is no such part.
 */
export type AskAgain = (
  input: string,
  by: number,
) => { readonly asked: Asked; readonly flat: FlatPattern } | undefined;

/**
 * How far an input may be off, and the effect on each measure, as change over change, by the
 * measure's name.
 */
export interface InputDoubt {
  readonly cause: CauseName;
  readonly limit: number;
  readonly slopes: ReadonlyMap<string, number>;
}

export interface InputDoubts {
  readonly doubts: readonly InputDoubt[];
  /** Inputs that change the shape of the part, so that its measures cannot be compared. */
  readonly unsettled: readonly string[];
}

/**
 * The step of an input, mm or degrees: small enough that no edge vanishes, and far above the
 * rounding of what is asked.
 */
const INPUT_STEP = 0.01;

/**
 * The effects of errors of the inputs. Inputs that state nothing about themselves are as accurate
 * as the instrument they were measured with; where the instrument is not stated either, they are
 * taken as given.
 */
export const inputDoubts = (
  asked: Asked,
  inputs: readonly MeasuredInput[],
  measuredWith: Instrument | undefined,
  askAgain: (input: string, by: number) => Asked | undefined,
): InputDoubts => {
  const doubts: InputDoubt[] = [];
  const unsettled: string[] = [];
  for (const input of inputs) {
    const limit = input.plusMinus ?? usual(input, measuredWith);
    if (limit === 0) continue;
    const slopes = slopesOf(asked, askAgain, input.name);
    const cause: CauseName =
      input.plusMinus === undefined
        ? `measuring with the ${measuredWith}`
        : `measuring ${input.name}`;
    if (slopes === undefined) unsettled.push(input.name);
    else doubts.push({ cause, limit, slopes });
  }
  return { doubts, unsettled };
};

const usual = ({ unit }: MeasuredInput, measuredWith: Instrument | undefined): number => {
  if (measuredWith === undefined) return 0;
  const { lengthMm, angleDeg } = READINGS[measuredWith];
  return (unit === 'mm' ? lengthMm : angleDeg).value;
};

/** The effect of a little more of an input or, where that makes another part, of a little less. */
const slopesOf = (
  asked: Asked,
  askAgain: (input: string, by: number) => Asked | undefined,
  input: string,
): ReadonlyMap<string, number> | undefined => {
  const before = valuesOf(asked);
  for (const by of [INPUT_STEP, -INPUT_STEP]) {
    const again = askAgain(input, by);
    const after = again === undefined ? undefined : valuesOf(again);
    if (
      after === undefined ||
      after.size !== before.size ||
      [...before.keys()].some((name) => !after.has(name))
    )
      continue;
    return new Map(
      [...before].map(([name, value]) => [name, ((after.get(name) as number) - value) / by]),
    );
  }
  return undefined;
};

const valuesOf = ({ measures, angles }: Asked): ReadonlyMap<string, number> =>
  new Map([
    ...measures.map((m) => [m.name, m.askedMm] as const),
    ...angles.map((a) => [a.name, a.askedDeg] as const),
  ]);
