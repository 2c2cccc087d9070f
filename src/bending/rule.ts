import { figure } from '../figures.ts';
import type { BendRule } from '../model/bend-rule.ts';
import type { Bend } from './bend.ts';
import { measuredK, measuredRemark } from './rules/measured.ts';

export type ParsedRule = { readonly ok: true; readonly value: BendRule } | { readonly ok: false; readonly reason: string };

const NAMED = ['din6935', 'faa', 'mh1', 'mh2', 'mh3'] as const;

/** How each rule is typed, and what it is, for help texts. */
export const RULES: readonly { readonly text: string; readonly about: string }[] = [
  { text: 'din6935', about: 'DIN 6935, from the ratio of inside radius and thickness' },
  { text: 'faa', about: 'the per-degree formula of the FAA airframe handbook (FAA-H-8083-31)' },
  { text: 'mh1', about: "Machinery's Handbook: soft brass, soft copper" },
  { text: 'mh2', about: "Machinery's Handbook: half-hard copper and brass, soft steel, aluminium" },
  { text: 'mh3', about: "Machinery's Handbook: bronze, hard copper, cold-rolled steel, spring steel" },
  { text: 'k:0.42', about: 'a K factor of your own, 0 to 1' },
  { text: 'measured', about: "the shop's own measured bends" },
];

const ALLOWED = `allowed are ${RULES.map((r) => r.text).join(', ')}`;

/** A rule as it is typed. */
export const parseRule = (text: string): ParsedRule => {
  const id = text.trim().toLowerCase();
  const named = NAMED.find((n) => n === id);
  if (named !== undefined) return { ok: true, value: { id: named } };
  if (id === 'measured') return { ok: true, value: { id: 'measured', rows: [] } };
  const k = /^k\s*[:=]?\s*(\d*\.?\d+)$/.exec(id);
  if (k === null) return { ok: false, reason: `not a bend rule; ${ALLOWED}` };
  const value = Number(k[1]);
  if (value > 1) return { ok: false, reason: 'a K factor lies between 0 and 1, such as k:0.42' };
  return { ok: true, value: { id: 'k', k: value } };
};

/** The rule as it is typed. */
export const ruleText = (rule: BendRule): string => (rule.id === 'k' ? `k:${rule.k}` : rule.id);

/** Why a rule has no figures for a bend, as a sentence; `undefined` when it has. */
export const ruleProblem = (rule: BendRule, bend: Bend): string | undefined => {
  if (rule.id !== 'measured' || measuredK(rule.rows, bend) !== undefined) return undefined;
  return rule.rows.length === 0
    ? "The rule 'measured' needs measured bends of this sheet in the shop file, and there are none: measure some strips (blankwright calibrate), use din6935, or k: with the K factor of your own bends, such as k:0.42."
    : `The measured bends do not reach ${figure(bend.angleDeg)} degrees on ${figure(bend.thicknessMm)} mm sheet: use din6935, or measure a strip of it (blankwright calibrate).`;
};

/** What is to be said of how a rule came to its figures for a bend, as a sentence. */
export const ruleRemark = (rule: BendRule, bend: Bend): string | undefined => (rule.id === 'measured' ? measuredRemark(rule.rows, bend) : undefined);
