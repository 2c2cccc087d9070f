import { CHECKS } from '../checks/index.ts';
import { CAUTIONS } from '../data/cautions.ts';
import { RULE_GROUPS, type RuleGroup } from '../rules/index.ts';
import type { NamedRule } from '../rules/rule.ts';

/** Rules on one subject, under a heading. */
export interface RuleChapter {
  readonly title: string;
  /** Whether a job tells warnings and notes by them, and so may silence them. */
  readonly inJobs: boolean;
  readonly rules: readonly NamedRule[];
}

/** A check without its function, as a plain rule. */
const known = ({
  rule,
  title,
  severities,
  reason,
  measured,
  mend,
  source,
}: NamedRule): NamedRule => ({ rule, title, severities, reason, measured, mend, source });

const chapterOf = ({ title, inJobs, rules }: RuleGroup): RuleChapter => ({
  title,
  inJobs,
  rules: Object.entries(rules).map(([rule, entry]) => known({ rule, ...entry })),
});

/**
 * Every rule by which anything is found, each once: those of checks, those of cautions, and those
 * in `rules/`.
 */
export const RULE_CHAPTERS: readonly RuleChapter[] = [
  {
    title: 'Checks of every blank',
    inJobs: true,
    rules: CHECKS.map(known),
  },
  ...RULE_GROUPS.map(chapterOf),
  {
    title: 'Cautions',
    inJobs: true,
    rules: Object.entries(CAUTIONS).map(([id, { text }]) => ({
      rule: `caution-${id}`,
      title: text,
      severities: ['note'],
      reason: 'People have been hurt at such work.',
      measured: 'the family of the part, and its material',
      mend: 'Heed it, and follow local rules.',
      source: 'common practice',
    })),
  },
];

/** Every rule by its name. */
export const RULES: ReadonlyMap<string, NamedRule> = new Map(
  RULE_CHAPTERS.flatMap(({ rules }) => rules.map((rule) => [rule.rule, rule])),
);

/**
 * The rules that a job may name to silence them: those of warnings and notes that a job tells, and
 * those of all checks, since some checks stop a part in one shop and warn in another. A stop is
 * told all the same.
 */
export const SILENCED_BY: readonly string[] = RULE_CHAPTERS.filter(({ inJobs }) => inJobs)
  .flatMap(({ rules }) => rules)
  .filter(
    ({ rule, severities }) =>
      severities.some((severity) => severity !== 'stop') ||
      CHECKS.some((check) => check.rule === rule),
  )
  .map(({ rule }) => rule)
  .toSorted();
