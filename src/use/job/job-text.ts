import { printedFinding } from '../../model/printed-finding.ts';
import { printedIn, type PrintUnit } from '../../text/printed.ts';
import type { JobOutcome, JobResult } from '../../contract/job.ts';
import { cautionsAmong } from '../../data/cautions.ts';
import { isCaution } from '../../model/finding-line.ts';
import { warningsText } from './warnings-text.ts';

/** What became of a part of a job, on one line. */
export const jobLine = ({ name, outcome }: JobOutcome): string => {
  if (outcome.status === 'refused') return `refused    ${name}: ${outcome.reason}`;
  return `${outcome.status.padEnd(10)} ${name}${outcome.status === 'made' ? `, ${outcome.record.files.length} files` : ''}`;
};

/** The outcome of a job besides its result. */
export interface JobEnd {
  readonly folder: string;
  /** Path of the page to begin with. */
  readonly index: string;
  readonly removed: readonly string[];
  readonly shopFile: string | undefined;
  readonly printUnits?: PrintUnit | undefined;
}

/** Each caution once, with the parts that it concerns, in the order of the work. */
const cautionLines = (parts: JobResult['parts']): string[] => {
  const findings = parts.flatMap((p) => p.parts.flatMap((one) => one.findings));
  return cautionsAmong(findings).map(({ text }) => {
    const of = parts.filter((p) =>
      p.parts.some((one) => one.findings.some((f) => isCaution(f) && f.message === text)),
    );
    const whom =
      of.length === parts.length && of.length > 1 ? 'all' : of.map(({ name }) => name).join(', ');
    return `  CAUTION ${text} (${whom})`;
  });
};

/** The end of a job as a person reads it, a line each: its warnings and its outcome. */
export const jobSummary = (
  { parts, summary, left }: JobResult,
  { folder, index, removed, shopFile, printUnits }: JobEnd,
): string[] => {
  const print = printedIn(printUnits);
  const warned = warningsText(
    parts.map((p) => ({
      name: p.name,
      parts: p.parts.map(({ findings }) => ({
        findings: findings.map((f) => printedFinding(f, print)),
      })),
    })),
  );
  const cautions = cautionLines(parts);
  return [
    ...(cautions.length === 0 ? [] : ['Cautions', ...cautions]),
    ...(warned.count === 0
      ? []
      : [
          'Warnings, by their rules; silence: [RULE] in the job file leaves out those that you know of:',
          ...warned.lines,
        ]),
    `${summary.made} made, ${summary.unchanged} unchanged, ${summary.refused} refused; ${warned.count} ${warned.count === 1 ? 'warning' : 'warnings'}${summary.silenced > 0 ? `, ${summary.silenced} silenced` : ''}.`,
    ...(shopFile === undefined ? [] : [`Checked against the shop of ${shopFile}`]),
    ...(removed.length > 0 ? [`No longer in the job, and taken away: ${removed.join(', ')}`] : []),
    ...(left.length > 0
      ? [`Left alone, since this command did not make it: ${left.join(', ')}`]
      : []),
    `Everything is in ${folder}; begin with ${index}.`,
  ];
};
