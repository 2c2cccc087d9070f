import { lacks, misses } from '../model/measured.ts';
import { atLeast, figure } from '../text/figures.ts';
import type { BendRule } from '../model/bend-rule.ts';
import { composed, type Finding, note, warn } from '../model/finding.ts';
import type { Fold, Part } from '../model/part.ts';
import { type Bend, bendFigures } from './bend.ts';
import { HEM_K, HEM_SHEET_MM, hemFormOf } from './hem.ts';
import { goesByHem, meaningOf } from './meaning.ts';
import { handbookDeductionMm, ruleRefusal, ruleText } from './rule.ts';
import { DIN6935_LEAST_RATIO } from './rules/din6935.ts';
import {
  measuredK,
  measuredNeighbours,
  measuredRadiusMm,
  measuredRemark,
} from './rules/measured.ts';

/** One bend of a part, with the rule that it goes by. */
interface RuledBend extends Bend {
  readonly id: string;
  readonly rule: BendRule;
}

/**
 * What a user should know about the rule that a part's bends are reckoned by: where it has no
 * figures, where it is carried on past its source, which hems go by an allowance of their own, and
 * whether the shop's own bends are the ones asked for.
 */
export function ruleFindings(rule: BendRule, part: Part | undefined): Finding[] {
  const bends = (part?.folds ?? [])
    .filter((f) => f.midSurface !== true)
    .map((f): RuledBend => ({
      id: f.id,
      rule: f.rule ?? rule,
      thicknessMm: part?.thicknessMm ?? NaN,
      insideRadiusMm: f.insideRadiusMm,
      angleDeg: f.angleDeg,
      teardropMm: f.teardropMm,
    }));
  const each = bends.flatMap((bend) =>
    bendRemarks(bend.rule, bend).map((finding) =>
      byOwnRadius(finding, part?.folds.find(({ id }) => id === bend.id)?.asked),
    ),
  );
  const told = each.filter((f, i) => each.findIndex((other) => other.message === f.message) === i);
  return [...told, ...otherRadius(bends), ...ownTools(bends)];
}

/** A fold line that has a radius of its own is not mended by the radius of all the others. */
const byOwnRadius = (finding: Finding, asked: Fold['asked']): Finding => {
  const radius = finding.mends?.find(({ input }) => input === 'radius');
  if (asked?.hasOwnRadius !== true || radius === undefined || finding.said === undefined)
    return finding;
  const others = [`r${radius.atLeast} or more at ${asked.called}`, ...finding.said.others];
  return composed({
    ...finding,
    inputs: ['rule', asked.input],
    mends: finding.mends?.filter((mend) => mend !== radius) ?? [],
    said: { ...finding.said, others },
  });
};

/** The same for one bend. */
export const bendRemarks = (rule: BendRule, bend: Bend): Finding[] => {
  const refusal = ruleRefusal(rule, bend);
  if (refusal !== undefined) return [refusal];
  if (goesByHem(rule, bend)) return [hemRemark(rule, bend)];
  if (meaningOf(rule, bend) === 'stretched') return [stretched(rule, bend)];
  const nearby = rule.id === 'measured' ? measuredRemark(rule.rows, bend) : undefined;
  return nearby === undefined ? [] : [note('measured-nearby', nearby)];
};

const stretched = (rule: BendRule, bend: Bend): Finding => {
  const { deductionMm } = bendFigures(rule, bend, 'outside');
  return {
    ...warn(
      'rule-stretched',
      `${ruleText(rule)} gives figures for inside radii from ${DIN6935_LEAST_RATIO} of the thickness; radius ${figure(bend.insideRadiusMm)} on ${figure(bend.thicknessMm)} mm sheet is below that, and its formula is only carried on: a deduction of ${figure(deductionMm)} mm at ${figure(bend.angleDeg, 1)} degrees, where mh2 has ${figure(handbookDeductionMm(bend))}. Fold a strip, or give a radius of ${atLeast(DIN6935_LEAST_RATIO * bend.thicknessMm)} or more.`,
    ),
    inputs: ['radius'],
    ...lacks(bend.insideRadiusMm, DIN6935_LEAST_RATIO * bend.thicknessMm),
  };
};

const hemRemark = (rule: BendRule, bend: Bend): Finding => {
  const { thicknessMm: t, insideRadiusMm: r } = bend;
  const { deductionMm } = bendFigures(rule, bend, 'outside');
  const form = hemFormOf(bend);
  const kind =
    form === 'closed'
      ? 'a closed hem'
      : `${form === 'open' ? 'an open' : 'a teardrop'} hem of radius ${figure(r)} on ${figure(t)} mm sheet`;
  const thick = t > HEM_SHEET_MM ? `, and given for sheet up to about ${HEM_SHEET_MM} mm` : '';
  return note(
    'hem-allowance',
    `Rule ${ruleText(rule)} is not meant for ${kind}: the hem allowance is used instead, K ${HEM_K}, which takes ${figure(deductionMm)} mm off the sum of its legs (common practice${thick}). Measured hems (blankwright calibrate) count with rule measured.`,
  );
};

/** A deduction this far off is seen with a calliper, mm (common practice). */
export const CALLIPER_MM = 0.1;

/** Bends that were asked for with a radius other than the one their K was measured with. */
const otherRadius = (bends: readonly RuledBend[]): Finding[] => {
  const off = bends.flatMap((bend) => {
    const [k, radius] = ownPair(bend);
    if (k === undefined || radius === undefined || bend.teardropMm !== undefined) return [];
    const deduction = (r: number): number =>
      bendFigures({ id: 'k', k }, { ...bend, insideRadiusMm: r }, 'outside').deductionMm;
    const longMm = deduction(radius) - deduction(bend.insideRadiusMm);
    return Math.abs(longMm) < CALLIPER_MM ? [] : [{ bend, radius, longMm }];
  });
  const [first] = off;
  if (first === undefined) return [];
  const { bend, radius, longMm } = first;
  const all = off.reduce((sum, o) => sum + o.longMm, 0);
  const whole = off.length === 1 ? '' : `, all ${off.length} of them ${figure(Math.abs(all))} mm`;
  const way = longMm > 0 ? 'long' : 'short';
  return [
    {
      ...warn(
        'radius-not-measured',
        `Radius ${figure(bend.insideRadiusMm)} is asked for at ${off.map((o) => o.bend.id).join(', ')}, but the bends that were measured (${toolOf(bend)}) have ${figure(radius)}, and their K goes with that. Folded with that tool, fold ${bend.id} comes out ${figure(Math.abs(longMm))} mm ${way} over its two legs${whole}. Give radius ${figure(radius, 3)} or none, or measure strips of the tool that gives ${figure(bend.insideRadiusMm)}.`,
      ),
      inputs: ['radius'],
      ...misses(bend.insideRadiusMm, radius, 0),
    },
  ];
};

const ownPair = ({
  rule,
  ...bend
}: RuledBend): readonly [k?: number | undefined, radius?: number | undefined] =>
  rule.id === 'measured' ? [measuredK(rule.rows, bend), measuredRadiusMm(rule.rows, bend)] : [];

const toolOf = ({ rule, ...bend }: RuledBend): string => {
  const found = rule.id === 'measured' ? measuredNeighbours(rule.rows, bend) : undefined;
  const names =
    found === undefined
      ? []
      : [found.below, found.above].map(
          ({ machine, tool, noseRadiusMm }) =>
            `machine ${machine}, tool ${tool}${noseRadiusMm === undefined ? '' : ` with nose radius ${figure(noseRadiusMm)}`}`,
        );
  return [...new Set(names)].join(' and ');
};

/** The tools that the part must be folded with for its figures to hold. */
const ownTools = (bends: readonly RuledBend[]): Finding[] => {
  const tools = new Map<
    string,
    { readonly ids: string[]; readonly k: number; readonly radius: number }
  >();
  for (const bend of bends) {
    const [k, radius] = ownPair(bend);
    if (k === undefined || radius === undefined) continue;
    const key = toolOf(bend);
    const known = tools.get(key);
    if (known === undefined) tools.set(key, { ids: [bend.id], k, radius });
    else known.ids.push(bend.id);
  }
  return [...tools].map(([tool, { ids, k, radius }]) =>
    note(
      'measured-tool',
      `Fold ${ids.join(', ')} with what was measured: ${tool}; K ${figure(k, 3)} with inside radius ${figure(radius)}.`,
    ),
  );
};
