import { type Instrument, READINGS } from '../data/tolerances/accuracy.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Asked } from '../contract/asked.ts';
import type { CauseName } from './causes.ts';

/** An input that was measured on the job. */
export interface MeasuredInput {
  readonly name: string;
  readonly unit: 'mm' | 'degrees';
  /** What it says for itself how far it may be off. */
  readonly plusMinus?: number | undefined;
}

/**
 * The part when an input is so much more, as it is asked and as it lies flat; `undefined` where
 * there is no such part.
 */
export type AskAgain = (
  input: string,
  by: number,
) => { readonly asked: Asked; readonly flat: FlatPattern } | undefined;

/**
 * How far an input may be off, and what that does to each measure: change over change, by the
 * measure's name.
 */
export interface InputDoubt {
  readonly cause: CauseName;
  readonly limit: number;
  readonly slopes: ReadonlyMap<string, number>;
}

export interface InputDoubts {
  readonly doubts: readonly InputDoubt[];
  /** Inputs with which the part changes its shape, so that its measures cannot be compared. */
  readonly unsettled: readonly string[];
}

/** Small enough for no edge to vanish, and far above what askings are rounded to, mm or degrees. */
const INPUT_STEP = 0.01;

/**
 * What errors of the inputs do. Inputs that say nothing of themselves are as sure as what they were
 * measured with; with no word on that they are taken as they are given.
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

/** A little more or, where that makes another part, a little less. */
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
