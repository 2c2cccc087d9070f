import type { FindingResult } from '../../contract/part.ts';
import { isCaution } from '../../model/finding-line.ts';
import type { Severity } from '../../model/finding.ts';
import type { FindingMark } from '../draw/finding-marks.ts';
import type { TextBlock } from './content.ts';

const WORDS: Readonly<Record<Severity, string>> = { stop: 'STOP', warn: 'WARNING', note: 'NOTE' };

/** What stops the part first, cautions apart. */
const inOrder = (findings: readonly FindingResult[]): FindingResult[] =>
  (['stop', 'warn', 'note'] as const).flatMap((severity) =>
    findings.filter((f) => f.severity === severity && !isCaution(f)),
  );

/** More marks than these hide the blank. */
const MOST_MARKED = 24;

const markedOf = (findings: readonly FindingResult[]): FindingResult[] =>
  inOrder(findings)
    .filter(({ at }) => at !== undefined)
    .slice(0, MOST_MARKED);

export const marksOf = (findings: readonly FindingResult[]): FindingMark[] =>
  markedOf(findings).flatMap(({ at }, i) => (at === undefined ? [] : [{ at, number: i + 1 }]));

/** Those of some severities, each with the number of its mark on the picture of the blank. */
export const findingsOf = (
  findings: readonly FindingResult[],
  severities: readonly Severity[],
): TextBlock['texts'] => {
  const marked = markedOf(findings);
  const told = inOrder(findings).filter(({ severity }) => severities.includes(severity));
  return told.map((finding) => {
    const number = marked.indexOf(finding) + 1;
    const word = WORDS[finding.severity];
    return { lead: number === 0 ? word : `${word} ${number}`, text: finding.message };
  });
};
