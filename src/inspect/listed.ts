import { byKey } from '../text/grouped.ts';
import type { Finding } from '../model/finding.ts';

/** The most of one sort that are listed; the rest are counted. */
export const MOST_LISTED = 20;

/** The first findings of each rule and severity, and a line that counts the rest of them. */
export const listed = (findings: readonly Finding[]): Finding[] =>
  [...byKey(findings, ({ rule, severity }) => `${severity} ${rule}`).values()].flatMap(
    (all): Finding[] => {
      const [first, more] = [all[0] as Finding, all.length - MOST_LISTED];
      if (more <= 0) return all;
      return [
        ...all.slice(0, MOST_LISTED),
        { rule: first.rule, severity: first.severity, message: `${more} more of the same.` },
      ];
    },
  );

/** The first lines of one sort, and one line that counts the rest. */
export const listedLines = (lines: readonly string[]): string[] =>
  lines.length <= MOST_LISTED
    ? [...lines]
    : [...lines.slice(0, MOST_LISTED), `${lines.length - MOST_LISTED} more of the same.`];

/** A number with its noun: `1 line`, `2 lines`. */
export const counted = (n: number, one: string, many = `${one}s`): string =>
  `${n} ${n === 1 ? one : many}`;
