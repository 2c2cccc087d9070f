import { type Finding, note } from '../model/finding.ts';

/** More of the same are counted, not listed. */
const MOST_LISTED = 20;

/** The first of many findings of one rule, and a line that counts the rest. */
export const listed = (findings: readonly Finding[]): Finding[] => {
  const first = findings[0];
  const more = findings.length - MOST_LISTED;
  if (first === undefined || more <= 0) return [...findings];
  return [...findings.slice(0, MOST_LISTED), { ...note(first.rule, `${more} more of the same.`), severity: first.severity }];
};

/** `1 line`, `2 lines`. */
export const counted = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;
