import type { Hand, ReportResult } from '../../contract/part.ts';
import type { ReadList } from '../../contract/read-list.ts';
import { type InputProblem, readInputs } from '../../forms/read.ts';
import { defineTemplate, type Template } from '../../forms/template.ts';
import { templateFlaws } from '../../forms/template-flaws.ts';
import type { TubePiece } from '../../tube/tube-part.ts';
import type { MadePart, MadeTube } from '../made-part.ts';
import { begin, blanksOf } from './begin.ts';
import { makeBlank, plannedOnce } from './make-blank.ts';
import { makeTubes } from './make-tubes.ts';
import type { Blank, Context } from './context.ts';
import type { FilledOptions } from './make-options.ts';

export type Made =
  | { readonly ok: false; readonly problems: readonly InputProblem[] }
  | {
      readonly ok: true;
      /** Parts of sheet, and whatever is stopped. */
      readonly parts: readonly MadePart[];
      /** Of a family of tubes, those that nothing stops. */
      readonly tubes: readonly MadeTube[];
      readonly reports: readonly ReportResult[];
      readonly lists: readonly ReadList[];
    };

/** The parts of inputs just as they are given, whether the shop can fold them or not. */
export function makeGiven(
  given: Template,
  raw: Readonly<Record<string, unknown>>,
  options: FilledOptions,
): Made {
  const started = startMaking(given, raw, options);
  if (!started.ok) return started;
  const { context, blanks, hands, pieces, ...rest } = started;
  if (pieces !== undefined) return { ...makeTubes(context, hands, pieces), ...rest };
  const parts = hands.flatMap((hand) => blanks.map((blank) => makeBlank(context, hand, blank)));
  return { parts, tubes: [], ...rest };
}

/** What is known before the first blank is made: the blanks, their hands, and what is told of all. */
export type Started =
  | { readonly ok: false; readonly problems: readonly InputProblem[] }
  | (Omit<Made & { readonly ok: true }, 'parts' | 'tubes'> & {
      readonly context: Context;
      readonly blanks: readonly Blank[];
      /** Of a family of tubes, which has no blanks. */
      readonly pieces?: readonly TubePiece[];
      readonly hands: readonly Hand[];
    });

const handsOf = ({ values: { hand }, options: { apart } }: Context): readonly Hand[] =>
  apart !== undefined ? [apart.hand] : hand === 'both' ? ['left', 'right'] : [hand];

/** Of two hands that differ each has a report of its own, named as its parts are. */
const reportName = ({ values: { name }, options: { apart } }: Context): string =>
  apart === undefined ? name : `${name}-${apart.hand === 'left' ? 'L' : 'R'}`;

/** Reads the inputs and lets the template build what they describe. */
export function startMaking(
  given: Template,
  raw: Readonly<Record<string, unknown>>,
  options: FilledOptions,
): Started {
  const flaws = templateFlaws(given);
  if (flaws.length > 0) return { ok: false, problems: flaws };
  const template = defineTemplate(given);
  const read = readInputs(template, raw);
  if (!read.ok) return read;
  const begun = begin(template, raw, read, options);
  if (!begun.ok) return begun;
  const { context, built } = begun;
  return {
    ok: true,
    context,
    blanks: blanksOf(built, context).map((blank) => plannedOnce(blank, context)),
    ...(template.stock === 'tube' && { pieces: built.tubes ?? [] }),
    hands: handsOf(context),
    reports:
      built.report === undefined
        ? []
        : [{ name: reportName(context), tables: [], ...built.report }],
    lists: read.lists,
  };
}
