import type { ReportResult } from '../../src/contract/part.ts';
import { loadFamily } from './check-template.ts';
import { madeOnce } from './made-once.ts';

/** The report of these inputs; the test fails when there is none. */
export async function reportOf(
  family: string,
  inputs: Record<string, unknown>,
): Promise<ReportResult> {
  const made = madeOnce(await loadFamily(family), inputs, { cutOnly: false, dxfVersion: 'r2000' });
  const [report] = made.ok ? made.reports : [];
  if (report === undefined) throw new Error(`no report: ${JSON.stringify(made)}`);
  return report;
}
