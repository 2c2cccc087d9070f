import type { Template } from '../../forms/template.ts';
import type { MadePart } from '../made-part.ts';
import type { BlankStage, MakeStage } from './blank-stage.ts';
import { finished } from './finished.ts';
import { handsApart, joinedHands, type OneMaking } from './hands-apart.ts';
import { blankInStages } from './make-blank.ts';
import { type Made, type Started, startMaking } from './make-given.ts';
import { filledOptions, optionProblems, type MakeOptions } from './make-options.ts';
import { makeTubes } from './make-tubes.ts';

export type { BlankStage, MakeStage } from './blank-stage.ts';

/** All blanks as far as one stage brings them. */
export interface MadeStage {
  readonly stage: Exclude<MakeStage, 'fit'>;
  /** What the caller calls these inputs, to know an answer that comes too late. */
  readonly stamp: string;
  /** Those that are not stopped before, in the order of their hands. */
  readonly blanks: readonly BlankStage[];
}

const STAGES = ['shape', 'checks', 'proof', 'plan'] as const;

/**
 * Makes parts as `makeParts` does, stage by stage: `shape` has the blanks, `checks` what is wrong with
 * them, `proof` what came of their files, `plan` how they are folded; what is returned at the end is
 * the finished parts with how well they fit, and the same as `makeParts` gives. A stage is begun when the
 * next value is asked for, so that whoever asks for no more has stopped the work, and may do something
 * else between two of them. Problems of the inputs are returned at once. Throws as `makeParts` does.
 */
export function* makeInStages(
  template: Template,
  raw: Readonly<Record<string, unknown>>,
  options: MakeOptions = {},
  stamp = '',
): Generator<MadeStage, Made, undefined> {
  const problems = optionProblems(options);
  if (problems.length > 0) return { ok: false, problems };
  const filled = filledOptions(options);
  const makings = handsApart(template, raw, filled);
  const started: (Started & { readonly ok: true })[] = [];
  for (const one of makings) {
    const begun = startMaking(template, one.raw, one.options);
    if (!begun.ok) return begun;
    started.push(begun);
  }
  const own = started.map(({ context, blanks, hands, pieces }) =>
    pieces !== undefined
      ? []
      : hands.flatMap((hand) => blanks.map((blank) => blankInStages(context, hand, blank))),
  );
  const running = own.flat();
  const done = new Map<number, MadePart>();
  const next = (): BlankStage[] =>
    running.flatMap((stages, i) => {
      if (done.has(i)) return [];
      const { done: isDone, value } = stages.next();
      if (isDone !== true) return [value];
      done.set(i, value);
      return [];
    });
  // Tubes are made at once.
  if (started.every(({ pieces }) => pieces === undefined)) {
    for (const stage of STAGES) yield { stage, stamp, blanks: next() };
    next();
  }
  const all = running.map((_, i) => done.get(i) as MadePart);
  let first = 0;
  const made = started.map(({ context, hands, pieces, reports, lists }, i): Made => {
    const one = makings[i] as OneMaking;
    const parts = all.slice(first, (first += own[i]?.length ?? 0));
    const told = { ok: true, reports, lists } as const;
    return pieces === undefined
      ? finished(template, one.raw, one.options, { parts, tubes: [], ...told })
      : { ...makeTubes(context, hands, pieces), ...told };
  });
  return joinedHands(template, raw, made);
}
