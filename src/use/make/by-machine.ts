import type { FindingResult } from '../../contract/part.ts';
import { describeInputs } from '../../forms/read.ts';
import type { Template } from '../../forms/template.ts';
import { note } from '../../model/finding.ts';
import { withResult } from '../made-part.ts';
import { type Made, makeGiven } from './make-given.ts';
import type { FilledOptions } from './make-options.ts';
import { valueOfInput } from './part-told.ts';
import { flagsOf } from './redesign-words.ts';
import { type Design, type Trials, trialsOf } from './redesign-trials.ts';

type Raw = Readonly<Record<string, unknown>>;

/** Choices that were left to the program, as the machines of the shop decide them. */
export type ByMachine = Readonly<Record<string, string>>;

/** So many plans are made for it at most. */
const MOST_PLANS = 150;

/**
 * Choices of how a part is made that stand at `auto`, taken so that the shop can fold every blank:
 * one of them first, then two together, in the order in which the family lists them; none that is
 * warned of what the first one is not. Nothing where the shop folds what the family would take by
 * itself, or nothing helps.
 */
export function choicesByMachine(
  template: Template,
  raw: Raw,
  options: FilledOptions,
): ByMachine | undefined {
  const open = describeInputs(template).filter(
    ({ isMaking, choices }) => isMaking === true && choices?.includes(AUTO) === true,
  );
  if (open.length === 0) return undefined;
  const trials = trialsOf(template, options, MOST_PLANS);
  const design = trials.designOf(raw);
  if (design === undefined || isFoldable(design, trials)) return undefined;
  const ways = open
    .filter(({ name }) => valueOfInput(design.context.values, name) === AUTO)
    .map(({ name, choices = [] }) =>
      choices.filter((choice) => choice !== AUTO).map((choice): ByMachine => ({ [name]: choice })),
    );
  const pairs = ways.flatMap((own, i) =>
    ways.slice(i + 1).flatMap((other) => own.flatMap((a) => other.map((b) => ({ ...a, ...b })))),
  );
  return [...ways.flat(), ...pairs].find((chosen) => {
    const tried = trials.designOf({ ...raw, ...chosen });
    return tried !== undefined && !warnsMore(tried, design) && isFoldable(tried, trials);
  });
}

/** The value of a choice by which it is left to the program. */
const AUTO = 'auto';

/** Whether a design is warned of what the first one is not: a blank that is larger than the sheet. */
const warnsMore = ({ context }: Design, first: Design): boolean =>
  context.findings.some(
    ({ severity, rule }) =>
      severity === 'warn' && !first.context.findings.some((known) => known.rule === rule),
  );

const isFoldable = ({ blanks, context }: Design, trials: Trials): boolean =>
  blanks.every(({ part }) => trials.canBeFolded(part, context));

/** Says which choices were taken by the machines. */
export const chosenFinding = (chosen: ByMachine): FindingResult => {
  const words = Object.entries(chosen)
    .map(([input, value]) => `${input} ${value}`)
    .join(' and ');
  const { rule, severity, message } = note(
    'chosen-by-machine',
    `${words} was taken for auto: as the family makes it by itself no machine of the shop folds it. Give ${flagsOf(chosen)} to keep to it, or another choice.`,
  );
  return { rule, severity, message, inputs: Object.keys(chosen) };
};

/**
 * The same parts where the shop can fold them, or is not asked to; else with those choices left to
 * the program taken by its machines, each part with a note that says so.
 */
export function madeByMachine(
  template: Template,
  raw: Raw,
  options: FilledOptions,
  made: Made,
): { readonly raw: Raw; readonly made: Made } {
  const isStuck =
    made.ok &&
    options.foldAt !== 'service' &&
    made.parts.some(({ result: { foldPlan } }) => foldPlan?.feasible === false);
  const chosen = isStuck ? choicesByMachine(template, raw, options) : undefined;
  if (chosen === undefined) return { raw, made };
  const taken = { ...raw, ...chosen };
  const other = makeGiven(template, taken, options);
  if (!other.ok) return { raw, made };
  const told = chosenFinding(chosen);
  const parts = other.parts.map((part) =>
    withResult(part, { findings: [...part.result.findings, told] }),
  );
  return { raw: taken, made: { ...other, parts } };
}
