import { ruleFindings } from '../../bending/rule-findings.ts';
import type { CautionId } from '../../data/cautions.ts';
import { flattenSound } from '../../flatten/flatten.ts';
import { partFlaws } from '../../flatten/part-flaws.ts';
import { readBuilt } from '../../forms/built.ts';
import type { CommonValues } from '../../forms/common.ts';
import { type InputProblem, type ReadInputs, readInputs } from '../../forms/read.ts';
import type { Built, Template } from '../../forms/template.ts';
import { type Finding, hasStop } from '../../model/finding.ts';
import type { Part } from '../../model/part.ts';
import { withShop } from '../../shop/values.ts';
import type { Context, UnplannedBlank } from './context.ts';
import { type FilledOptions, takenOptions } from './make-options.ts';
import { foldFindings, partFindings } from './part-findings.ts';
import { tellerOf } from './part-told.ts';

type Raw = Readonly<Record<string, unknown>>;

export type Begun =
  | { readonly ok: false; readonly problems: readonly InputProblem[] }
  | { readonly ok: true; readonly context: Context; readonly built: Built };

/**
 * The first stage: what the template builds from inputs that were read, with everything that
 * belongs to it.
 */
export function begin(
  template: Template,
  raw: Raw,
  read: ReadInputs & { readonly ok: true },
  options: FilledOptions,
): Begun {
  const own =
    template.stock === 'tube'
      ? { ...read.values, benders: options.shop.benders ?? [] }
      : withShop(read.values, raw, options.shop);
  const other = options.apart?.otherValues;
  const values = other === undefined ? own : { ...own, otherHand: other };
  const readBack = readBuilt(template.build(values), values);
  if (!readBack.ok) return readBack;
  const { built } = readBack;
  const context: Context = {
    family: template.family,
    inputs: { template, values, plusMinus: read.plusMinus },
    values,
    cautions: cautionsOf(template, values),
    findings: toldOnce(built.findings ?? [], read.findings),
    options: takenOptions(options, values),
    tell: tellerOf({
      template,
      raw,
      values,
      stopsOf: (other) => stopsOf(template, other, options),
    }),
  };
  return { ok: true, context, built };
}

/** The cautions of the family, and those of welding where folds are welded in place of being bent. */
const cautionsOf = (
  { cautions }: Template,
  { weldAt, slitAt, lapAt, tabAt, hemAt }: CommonValues,
): readonly CautionId[] => {
  const welding: readonly CautionId[] = [weldAt, slitAt, lapAt, tabAt, hemAt].some(
    (folds) => folds.length > 0,
  )
    ? ['weld-heat', 'weld-for-bend']
    : [];
  return [...new Set([...cautions, ...welding])];
};

/** Where a family says itself what is wrong with an input, nothing more is said of it. */
const toldOnce = (built: readonly Finding[], ofInputs: readonly Finding[]): readonly Finding[] => [
  ...built,
  ...ofInputs.filter(({ inputs = [] }) =>
    inputs.every((name) => !built.some((finding) => finding.inputs?.includes(name) === true)),
  ),
];

/** The blanks that were built, with the findings on each before it is laid flat; tubes have none. */
export const blanksOf = (
  { part, pieces, tubes }: Built,
  context: Context,
): readonly UnplannedBlank[] =>
  (tubes !== undefined || context.inputs.template.stock === 'tube'
    ? []
    : (pieces ?? [part === undefined ? { id: null } : { id: null, part }])
  ).map((blank) => ({
    ...blank,
    findings: 'part' in blank ? findingsOn(blank.part, context) : [],
  }));

/** A part that its template stops itself gets no further findings, since nobody needs them. */
const findingsOn = (part: Part, { values, findings }: Context): readonly Finding[] => {
  const flaws = partFlaws(part);
  if (flaws.length === 0) return ruleFindings(values.rule, part);
  return hasStop(findings) ? [] : flaws;
};

/**
 * What stops the blanks of some inputs, found on the first hand and without planning how they are
 * folded; `undefined` for inputs that cannot be read.
 */
function stopsOf(
  template: Template,
  raw: Raw,
  options: FilledOptions,
): readonly Finding[] | undefined {
  const read = readInputs(template, raw);
  if (!read.ok) return undefined;
  const begun = begin(template, raw, read, { ...options, foldAt: 'service' });
  if (!begun.ok) return undefined;
  const { context, built } = begun;
  const ofBlank = ({ part, findings }: UnplannedBlank): readonly Finding[] => {
    if (part === undefined || hasStop(findings)) return findings;
    const flat = flattenSound(part, context.values.rule);
    return flat.outline.length === 0
      ? flat.findings
      : [
          ...flat.findings,
          ...partFindings(context, part, flat, 'stops'),
          ...foldFindings(context, part, flat, undefined),
        ];
  };
  const found = hasStop(context.findings)
    ? context.findings
    : [...context.findings, ...blanksOf(built, context).flatMap(ofBlank)];
  return found.filter(({ severity }) => severity === 'stop');
}
