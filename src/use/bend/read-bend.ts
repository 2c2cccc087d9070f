import type { Bend } from '../../bending/bend.ts';
import { lackingTeardropMm, leastTeardropMm } from '../../bending/hem.ts';
import { BEND_RULES, parseRule, ruleProblem } from '../../bending/rule.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { BendRule } from '../../model/bend-rule.ts';
import type { Measure } from '../../model/part.ts';
import { atLeast, figure } from '../../text/figures.ts';
import { parseAngle, parseLength, type ParsedNumber } from '../../text/units.ts';
import type { Refused } from '../use-case.ts';

/** One bend, each figure as typed. */
export interface GivenBend {
  readonly thickness?: string | undefined;
  /** Inside radius; the thickness when left out. */
  readonly radius?: string | undefined;
  /** How far the metal is turned; 90 degrees when left out. */
  readonly angle?: string | undefined;
  /** Depth of a teardrop hem. */
  readonly teardrop?: string | undefined;
  /** Bend rule; `din6935` when left out. */
  readonly rule?: string | undefined;
  /** Measure, `outside` or `inside`; outside when left out. */
  readonly measure?: string | undefined;
}

export interface ReadBend {
  readonly ok: true;
  readonly bend: Bend;
  readonly rule: BendRule;
  readonly measure: Measure;
}

/** Reads a bend; everything that is wrong with it is told at once. */
export function readBend(given: GivenBend): Refused | ReadBend {
  const problems: InputProblem[] = [];
  const bend = readSizes(given, problems);
  const ruleText = given.rule ?? 'din6935';
  const rule = parseRule(ruleText);
  if (!rule.ok)
    problems.push({
      input: 'rule',
      given: `'${ruleText}'`,
      allowed: BEND_RULES.map((r) => r.text).join(', '),
      mend: rule.reason,
    });
  const measure = given.measure ?? 'outside';
  if (measure !== 'outside' && measure !== 'inside')
    problems.push({ input: 'measure', given: `'${measure}'`, allowed: 'outside or inside' });
  if (problems.length > 0 || !rule.ok) return { ok: false, problems };
  const lacking = ruleProblem(rule.value, bend);
  if (lacking !== undefined)
    return {
      ok: false,
      problems: [
        {
          input: 'rule',
          given: `'${ruleText}'`,
          allowed: 'a rule with figures for this bend',
          mend: lacking,
        },
      ],
    };
  return { ok: true, bend, rule: rule.value, measure: measure as Measure };
}

/** Reads one figure of a bend; a figure with a problem is told and becomes NaN. */
const numberOf =
  (given: GivenBend, problems: InputProblem[]) =>
  (
    name: 'thickness' | 'radius' | 'angle' | 'teardrop',
    read: (t: string) => ParsedNumber,
    allowed: string,
    ok: (n: number) => boolean,
    otherwise?: number,
  ): number => {
    const text = given[name];
    if (text === undefined && otherwise !== undefined) return otherwise;
    const parsed =
      text === undefined
        ? { ok: false as const, reason: `give it, such as --${name} 3` }
        : read(text);
    if (parsed.ok && ok(parsed.value)) return parsed.value;
    problems.push({
      input: name,
      given: text === undefined ? 'nothing' : `'${text}'`,
      allowed,
      ...(parsed.ok ? {} : { mend: parsed.reason }),
    });
    return Number.NaN;
  };

const readSizes = (given: GivenBend, problems: InputProblem[]): Bend => {
  const number = numberOf(given, problems);
  const thicknessMm = number(
    'thickness',
    parseLength,
    'a thickness over 0 and up to 25 mm',
    (n) => n > 0 && n <= 25,
  );
  const insideRadiusMm = number(
    'radius',
    parseLength,
    'a radius from 0 to 1000 mm',
    (n) => n >= 0 && n <= 1000,
    thicknessMm,
  );
  const isTeardrop = given.teardrop !== undefined;
  const angleDeg = number(
    'angle',
    parseAngle,
    'an angle from 0 to 180 degrees',
    (n) => n >= 0 && n <= 180,
    isTeardrop ? 180 : 90,
  );
  const least = leastTeardropMm(insideRadiusMm, thicknessMm);
  const teardropMm = isTeardrop
    ? number(
        'teardrop',
        parseLength,
        `a depth from ${atLeast(least)} mm (twice radius and thickness) to 500 mm`,
        (n) => lackingTeardropMm(insideRadiusMm, thicknessMm, n) === undefined && n <= 500,
      )
    : undefined;
  if (isTeardrop && angleDeg !== 180)
    problems.push({
      input: 'angle',
      given: figure(angleDeg),
      allowed: '180 or none beside teardrop',
    });
  return { thicknessMm, insideRadiusMm, angleDeg, teardropMm };
};
