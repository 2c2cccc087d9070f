import type { ReportResult } from '../../src/contract/part.ts';
import { loadFamily } from './check-template.ts';
import { madeOnce } from './made-once.ts';
import { UNPLANNED } from './unplanned.ts';

/**
 * A tank with inside dimensions 600 x 400 x 300. With K = 0.42, 2 mm and inside radius 3, a right
 * angle takes (pi / 2)(3 + 0.84) = 6.0319 of the flat.
 */
export const TANK_BOX = {
  length: 600,
  width: 400,
  height: 300,
  measure: 'inside',
  material: 's235',
  thickness: 2,
  radius: 3,
  rule: 'k:0.42',
  breather: '60,60,10',
};

/** The report that the maker of a tank gets. */
export async function tankReport(inputs: Record<string, unknown>): Promise<ReportResult> {
  const made = madeOnce(await loadFamily('tank'), inputs, UNPLANNED);
  const [report] = made.ok ? made.reports : [];
  if (report === undefined) throw new Error(JSON.stringify(made));
  return report;
}
