import type { Hand, ReportResult } from '../../contract/part.ts';
import type { ReadList } from '../../contract/read-list.ts';
import { type InputProblem, readInputs } from '../../forms/read.ts';
import { defineTemplate, type Template } from '../../forms/template.ts';
import { templateFlaws } from '../../forms/template-flaws.ts';
import type { MadePart } from '../made-part.ts';
import { begin, blanksOf } from './begin.ts';
import { makeBlank, plannedOnce } from './make-blank.ts';
import type { FilledOptions } from './make-options.ts';

export type Made =
  | { readonly ok: false; readonly problems: readonly InputProblem[] }
  | {
      readonly ok: true;
      readonly parts: readonly MadePart[];
      readonly reports: readonly ReportResult[];
      readonly lists: readonly ReadList[];
    };

/** The parts of inputs just as they are given, whether the shop can fold them or not. */
export function makeGiven(
  given: Template,
  raw: Readonly<Record<string, unknown>>,
  options: FilledOptions,
): Made {
  const flaws = templateFlaws(given);
  if (flaws.length > 0) return { ok: false, problems: flaws };
  const template = defineTemplate(given);
  const read = readInputs(template, raw);
  if (!read.ok) return read;
  const begun = begin(template, raw, read, options);
  if (!begun.ok) return begun;
  const { context, built } = begun;
  const { values } = context;
  const hands: readonly Hand[] = values.hand === 'both' ? ['left', 'right'] : [values.hand];
  const blanks = blanksOf(built, context).map((blank) => plannedOnce(blank, context));
  const parts = hands.flatMap((hand) => blanks.map((blank) => makeBlank(context, hand, blank)));
  return {
    ok: true,
    parts,
    reports: built.report === undefined ? [] : [{ name: values.name, tables: [], ...built.report }],
    lists: read.lists,
  };
}
