import type { FindingResult } from '../../contract/part.ts';
import type { Redesign } from '../../contract/redesign.ts';
import type { Template } from '../../forms/template.ts';
import { warn } from '../../model/finding.ts';
import { withResult } from '../made-part.ts';
import { type Made, makeGiven } from './make-given.ts';
import type { FilledOptions } from './make-options.ts';
import { isMade, redesignsOf } from './redesigns.ts';
import { redesignWords } from './redesign-words.ts';

/**
 * The same parts where the shop can fold them, or is not asked to; else those of the cheapest design
 * that it can fold, each with a warning that says what was changed and what it costs. Where none is
 * found, the parts stay as they are, with what stands in the way.
 */
export function madeFoldable(
  template: Template,
  raw: Readonly<Record<string, unknown>>,
  options: FilledOptions,
  made: Made,
): Made {
  if (!made.ok || options.foldAt === 'service' || !isToBeChanged(made)) return made;
  const [best] = redesignsOf(template, raw, options, 1);
  if (best === undefined) return made;
  const other = makeGiven(template, { ...raw, ...best.inputs }, options);
  if (!other.ok || !isMade(other)) return made;
  const told = changedFinding(best);
  return {
    ...other,
    parts: other.parts.map((part) =>
      withResult(part, { findings: [told, ...part.result.findings] }),
    ),
  };
}

/** Whether a part is sound and yet cannot be folded: where something else stops it, no design helps. */
const isToBeChanged = ({ parts }: Made & { readonly ok: true }): boolean =>
  parts.some(({ result }) => result.foldPlan !== null && result.foldPlan.feasible !== true) &&
  parts.every(({ result }) =>
    result.findings.every(({ severity, rule }) => severity !== 'stop' || rule === 'no-fold-order'),
  );

const changedFinding = (redesign: Redesign): FindingResult => {
  const { rule, severity, message } = warn(
    'made-foldable',
    `No machine of the shop folds it as it was asked for, so it was made otherwise: ${redesignWords(redesign)}. Given as inputs that is ${redesign.flags}.`,
  );
  return { rule, severity, message, inputs: Object.keys(redesign.inputs) };
};
