import { grouped } from '../../text/grouped.ts';
import type { PartResult } from '../../contract/part.ts';

/** An entry of a job by its name, with all blanks and hands that were made from it. */
export interface WarnedPart {
  readonly name: string;
  readonly parts: readonly Pick<PartResult, 'findings'>[];
}

/** A warning, and all entries of the job that it concerns. */
interface Warning {
  readonly rule: string;
  readonly message: string;
  readonly of: readonly string[];
}

/**
 * Most warnings under one heading: a user who has more of them mends the first ones and runs the
 * job again.
 */
const MOST_TOLD = 10;

/**
 * The warnings of a job as a person reads them, sorted by rule. Each is told once, however many
 * hands and pieces it concerns, and what all warnings of a rule have in common stands in their
 * heading.
 */
export const warningsText = (
  parts: readonly WarnedPart[],
): { readonly count: number; readonly lines: readonly string[] } => {
  const warnings = warningsOf(parts);
  return {
    count: warnings.length,
    lines: grouped(warnings, ({ rule }) => rule).flatMap(ruleLines),
  };
};

/** Each warning once, with the entries that it concerns. */
export const warningsOf = (parts: readonly WarnedPart[]): Warning[] => {
  const all = parts.flatMap(({ name, parts: blanks }) =>
    blanks.flatMap(({ findings }) =>
      findings.filter((f) => f.severity === 'warn').map((f) => ({ ...f, name })),
    ),
  );
  return grouped(all, ({ rule, message }) => `${rule} ${message}`).map((same) => {
    const [{ rule, message }] = same as [(typeof same)[number]];
    return { rule, message, of: [...new Set(same.map(({ name }) => name))] };
  });
};

const ruleLines = (warnings: readonly Warning[]): string[] => {
  const [{ rule }] = warnings as readonly [Warning];
  const common =
    warnings.length === 1
      ? []
      : sentencesOf(warnings[0]?.message ?? '').filter((sentence) =>
          warnings.every(({ message }) => sentencesOf(message).includes(sentence)),
        );
  const more = warnings.length - MOST_TOLD;
  return [
    `  ${[`${rule}${common.length === 0 ? '' : ':'}`, ...common].join(' ')}`,
    ...warnings.slice(0, MOST_TOLD).map(
      ({ message, of }) =>
        `    ${of.join(', ')}: ${sentencesOf(message)
          .filter((sentence) => !common.includes(sentence))
          .join(' ')}`,
    ),
    ...(more > 0 ? [`    ... and ${more} more of this rule; --json lists all of them`] : []),
  ];
};

const sentencesOf = (message: string): string[] => message.split(/(?<=\.) (?=[A-Z]|blankwright )/);
