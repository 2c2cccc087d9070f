import { figure } from '../text/figures.ts';
import type { BendRule } from '../model/bend-rule.ts';
import { type Finding, refuse } from '../model/finding.ts';
import { just, orMore } from '../model/mend.ts';
import type { Bend } from './bend.ts';
import { goesByHem, meaningOf } from './meaning.ts';
import { DIN6935_LEAST_RATIO, DIN6935_ZERO_RATIO } from './rules/din6935.ts';
import { machinerysAllowanceMm } from './rules/machinerys.ts';
import { setbackMm } from './setback.ts';

export type ParsedRule =
  { readonly ok: true; readonly value: BendRule } | { readonly ok: false; readonly reason: string };

/** What help texts say of a rule. */
interface BendRuleFacts {
  /** How the rule is typed; an example where it takes a figure. */
  readonly text: string;
  /** The same where it completes "one of"; `text` when left out. */
  readonly choice?: string;
  readonly about: string;
  /** The bends that it is for. */
  readonly range: string;
}

/** Facts about each rule by its id, in the order in which help shows them. */
const FACTS: Readonly<Record<BendRule['id'], BendRuleFacts>> = {
  din6935: {
    text: 'din6935',
    about: 'DIN 6935, from the ratio of inside radius and thickness',
    range: `r/t from ${DIN6935_LEAST_RATIO} (carried on below that, no figures under ${figure(DIN6935_ZERO_RATIO)}), no closed hems`,
  },
  faa: {
    text: 'faa',
    about: 'the per-degree formula of the FAA airframe handbook (FAA-H-8083-31)',
    range: 'bends about a radius, no closed hems',
  },
  mh1: {
    text: 'mh1',
    about: "Machinery's Handbook: soft brass, soft copper",
    range: 'bends about a radius, no closed hems',
  },
  mh2: {
    text: 'mh2',
    about: "Machinery's Handbook: half-hard copper and brass, soft steel, aluminium",
    range: 'bends about a radius, no closed hems',
  },
  mh3: {
    text: 'mh3',
    about: "Machinery's Handbook: bronze, hard copper, cold-rolled steel, spring steel",
    range: 'bends about a radius, no closed hems',
  },
  k: {
    text: 'k:0.42',
    choice: 'k: with a K factor such as k:0.42',
    about: 'a K factor of your own, 0 to 1',
    range: 'any bend',
  },
  measured: {
    text: 'measured',
    about: "the shop's own measured bends",
    range: 'thicknesses within a quarter, angles within 30 degrees of those measured',
  },
};

/** How each rule is typed, what it is, and which bends it is for. */
export const BEND_RULES: readonly BendRuleFacts[] = Object.values(FACTS);

export const BEND_RULE_IDS = Object.keys(FACTS) as readonly BendRule['id'][];

/** The rules in words, which complete "allowed: ...". */
export const BEND_RULE_CHOICE = `one of ${BEND_RULES.map(({ text, choice = text }, i) =>
  i === BEND_RULES.length - 1 ? `or ${choice}` : choice,
).join(', ')}`;

const ALLOWED = `allowed are ${BEND_RULES.map((r) => r.text).join(', ')}`;

/** A rule as it is typed. */
export const parseRule = (text: string): ParsedRule => {
  const id = text.trim().toLowerCase();
  const known = BEND_RULE_IDS.find((n) => n === id);
  if (known === 'measured') return { ok: true, value: { id: known, rows: [] } };
  if (known !== undefined && known !== 'k') return { ok: true, value: { id: known } };
  const k = /^k\s*[:=]?\s*(\d*\.?\d+)$/.exec(id);
  if (k === null) return { ok: false, reason: `not a bend rule; ${ALLOWED}` };
  const value = Number(k[1]);
  if (value > 1) return { ok: false, reason: 'a K factor lies between 0 and 1, such as k:0.42' };
  return { ok: true, value: { id: 'k', k: value } };
};

/** The rule as it is typed. */
export const ruleText = (rule: BendRule): string => (rule.id === 'k' ? `k:${rule.k}` : rule.id);

/**
 * A stop where a rule has no figures for a bend, naming the rule or the radius that would do;
 * `undefined` where it has them.
 */
export const ruleRefusal = (rule: BendRule, bend: Bend): Finding | undefined => {
  if (hasFigures(rule, bend)) return undefined;
  const instead = just('rule', hasFigures({ id: 'din6935' }, bend) ? 'din6935' : 'mh2');
  if (rule.id === 'measured') {
    return rule.rows.length === 0
      ? refuse(
          'no-bend-figures',
          ['rule'],
          'The rule measured needs measured bends of this sheet in the shop file, and there are none',
          [instead],
          'k: with the K factor of your own bends, such as k:0.42',
          'measure some strips (blankwright calibrate)',
        )
      : refuse(
          'no-bend-figures',
          ['rule'],
          `The rule measured has bends that do not reach ${figure(bend.angleDeg)} degrees on ${figure(bend.thicknessMm)} mm sheet`,
          [instead],
          'measure a strip of it (blankwright calibrate)',
        );
  }
  const what =
    `The rule ${ruleText(rule)} has no figures for an inside radius of ${figure(bend.insideRadiusMm)} on ${figure(bend.thicknessMm)} mm sheet, as its k falls below 0 under ${figure(DIN6935_ZERO_RATIO)} of the thickness; ` +
    `by mh2 such a bend takes ${figure(handbookDeductionMm(bend), 3)} mm off the sum of its legs`;
  return refuse(
    'no-bend-figures',
    ['rule', 'radius'],
    what,
    [just('rule', 'mh2'), orMore('radius', DIN6935_LEAST_RATIO * bend.thicknessMm)],
    'rule mh1, mh3, faa or k: with a K factor',
  );
};

const hasFigures = (rule: BendRule, bend: Bend): boolean =>
  meaningOf(rule, bend) !== 'none' || goesByHem(rule, bend);

/** The same as one sentence. */
export const ruleProblem = (rule: BendRule, bend: Bend): string | undefined =>
  ruleRefusal(rule, bend)?.message;

/**
 * Deduction of a plain bend by mh2, outside dimensions, mm; a rule that has no figures is compared
 * with it.
 */
export const handbookDeductionMm = (bend: Bend): number =>
  2 * setbackMm(bend.angleDeg, bend.insideRadiusMm, bend.thicknessMm, 'outside') -
  machinerysAllowanceMm('mh2', bend);
