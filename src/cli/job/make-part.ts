import { withRule } from '../../model/finding-line.ts';
import { join } from 'node:path';
import type { Template } from '../../forms/template.ts';
import type { MadePart } from '../../use/make/make-parts.ts';
import type { JobFile, JobPart } from '../../jobfile/job-file.ts';
import { hasStop } from '../../model/finding.ts';
import type { OutputFile } from '../../model/output-file.ts';
import type { Shop } from '../../model/shop.ts';
import type { FindingResult, PartResult, ReportResult } from '../../contract/part.ts';
import { papersOf } from '../../use/papers.ts';
import { kindAt } from '../disk.ts';
import { VERSION } from '../version.ts';
import type { MakeParts } from './made-parts.ts';
import { type FolderRecord, isWhole, recordIn, sha256, writeFolder } from './part-folder.ts';

/**
 * What is kept of a part in its folder: enough to leave it alone next time, and to prove its files
 * with.
 */
export interface PartRecord extends FolderRecord {
  readonly name: string;
  readonly family: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly note: string | null;
  readonly revision: string | null;
  readonly stopped: boolean;
  readonly silenced: number;
  readonly parts: readonly (PartResult & { readonly files: readonly string[] })[];
  readonly reports: readonly ReportResult[];
}

export type PartOutcome =
  | { readonly status: 'made' | 'unchanged'; readonly record: PartRecord }
  | { readonly status: 'refused'; readonly reason: string; readonly record?: PartRecord };

export interface PartWork {
  readonly job: JobFile;
  readonly part: JobPart;
  readonly template: Template;
  readonly make: MakeParts;
  readonly shop: Shop;
  /** Where its files go. */
  readonly folder: string;
  /** Makes it even when nothing that it depends on has changed. */
  readonly isForcedAnew: boolean;
  /** Replaces files that were not made by this tool, or were changed since. */
  readonly force: boolean;
}

/**
 * Makes one part of a job into its folder, unless it stands there already as it would be made. A
 * part that is stopped leaves no file to cut.
 */
export const makePart = async (work: PartWork): Promise<PartOutcome> => {
  const { part, folder, isForcedAnew, force } = work;
  const kind = kindAt(folder);
  if (kind === 'link')
    return { status: 'refused', reason: `${folder} is a link to another place; remove it` };
  if (kind !== 'nothing' && kind !== 'folder')
    return { status: 'refused', reason: `${folder} is not a folder; move it away` };
  const hash = hashOf(work);
  const known = recordIn<PartRecord>(folder);
  if (!isForcedAnew && known?.hash === hash && isWhole(folder, known))
    return known.stopped
      ? { status: 'refused', reason: stopsOf(known), record: known }
      : { status: 'unchanged', record: known };
  const { parts, reports, files, silenced } = await made(work);
  const stopped = parts.some((p) => hasStop(p.findings));
  const { name, family, inputs, note, revision } = part;
  const record = {
    tool: 'blankwright',
    hash,
    name,
    family,
    inputs,
    note: note ?? null,
    revision: revision ?? null,
    stopped,
    silenced,
    parts,
    reports,
  } as const;
  const written = writeFolder(folder, stopped ? [] : files, record, force);
  if (written.foreign !== undefined)
    return { status: 'refused', reason: foreignReason(join(folder, written.foreign)) };
  const whole: PartRecord = { ...record, files: written.files };
  return stopped
    ? { status: 'refused', reason: stopsOf(whole), record: whole }
    : { status: 'made', record: whole };
};

const foreignReason = (path: string): string =>
  kindAt(path) === 'file'
    ? `${path} was not made by this command, or was changed since. Move it away, or replace it with --force`
    : `${path} is not a file. Move it away`;

const stopsOf = ({ parts }: Pick<PartRecord, 'parts'>): string =>
  [
    ...new Set(parts.flatMap((p) => p.findings.filter((f) => f.severity === 'stop').map(withRule))),
  ].join(' ');

/** Of all that a part's files depend on. */
const hashOf = ({ job: { papers, paper }, part, shop }: PartWork): string =>
  sha256(JSON.stringify([VERSION, part, shop, papers, paper]));

const made = async ({
  job,
  part,
  template,
  make,
  shop,
}: PartWork): Promise<
  Pick<PartRecord, 'parts' | 'reports' | 'silenced'> & { readonly files: readonly OutputFile[] }
> => {
  // How well a part is likely to fit stands on its sheet.
  const result = make(template, part.inputs, {
    ...part.way,
    shop,
    ...(job.papers.includes('sheet') && { fit: {} }),
  });
  // The inputs were read when the job was.
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  let silenced = 0;
  const files: OutputFile[] = [];
  const parts = [];
  for (const [i, one] of result.parts.entries()) {
    const { quiet, count } = withoutSilenced(one, part.silence);
    silenced += count;
    const papers = await papersOf({
      part: quiet,
      kinds: job.papers,
      paper: job.paper,
      report: i === 0 ? result.reports[0] : undefined,
      note: part.note,
      revision: part.revision,
      shop,
    });
    const own = [...quiet.files(), ...papers.files];
    files.push(...own);
    parts.push({
      ...quiet.result,
      findings: [...quiet.result.findings, ...papers.findings],
      files: own.map((f) => f.name),
    });
  }
  return { parts, reports: result.reports, files, silenced };
};

/** Warnings and notes by whose rules the user has said that he knows; a stop stays. */
const withoutSilenced = (
  part: MadePart,
  silence: readonly string[],
): { readonly quiet: MadePart; readonly count: number } => {
  const isSilenced = ({ rule, severity }: FindingResult): boolean =>
    severity !== 'stop' && silence.includes(rule);
  const findings = part.result.findings.filter((f) => !isSilenced(f));
  return {
    quiet: { ...part, result: { ...part.result, findings } },
    count: part.result.findings.length - findings.length,
  };
};
