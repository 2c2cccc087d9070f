import { bendFigures } from '../../bending/bend.ts';
import { bendRemarks } from '../../bending/rule-findings.ts';
import { workedSums } from '../../bending/sums.ts';
import type { BendSums } from '../../contract/bend-sums.ts';
import type { Done, Refused } from '../use-case.ts';
import { type GivenBend, readBend } from './read-bend.ts';

export interface WorkedBend extends Done<BendSums> {
  /** The sums worked out as on paper, a line each, with remarks. */
  readonly lines: readonly string[];
}

/** The sums of one bend by a rule. It never throws. */
export function bendSums(given: GivenBend): Refused | WorkedBend {
  const read = readBend(given);
  if (!read.ok) return read;
  const { bend, rule, measure } = read;
  const findings = bendRemarks(rule, bend);
  const remarks = findings.map(({ message }) => message);
  return {
    ok: true,
    result: { ...bendFigures(rule, bend, measure), measure, remarks },
    findings,
    files: [],
    lines: [...workedSums(rule, bend, measure), ...remarks],
  };
}
