import { bendFigures, type Bend } from '../../bending/bend.ts';
import { lackingTeardropMm, leastTeardropMm } from '../../bending/hem.ts';
import { parseRule, ruleProblem, RULES } from '../../bending/rule.ts';
import { bendRemarks } from '../../bending/rule-findings.ts';
import { workedSums } from '../../bending/sums.ts';
import { atLeast, figure } from '../../text/figures.ts';
import type { InputProblem } from '../../forms/problem.ts';
import type { Measure } from '../../model/part.ts';
import { parseAngle, parseLength, type ParsedNumber } from '../../text/units.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type Flags, type FlagSpecs, textOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import type { RunCommand } from './index.ts';

/** Flags of `bend`, for help. */
export const BEND_FLAGS = {
  thickness: { type: 'string', describe: 'Thickness of the sheet, such as 3 or 1/8in' },
  radius: { type: 'string', describe: 'Inside radius; the thickness when left out' },
  angle: {
    type: 'string',
    describe: 'How far the metal is turned, 0 to 180 degrees; 90 when left out',
  },
  rule: {
    type: 'string',
    describe: `Bend rule, din6935 when left out. ${RULES.map(({ text, about, range }) => `${text}: ${about}; for ${range}`).join('. ')}`,
  },
  teardrop: {
    type: 'string',
    describe:
      'Depth of a teardrop hem, from its edge to the outermost point of its loop; the radius is that of the loop',
  },
  measure: { type: 'string', describe: 'outside or inside dimensions; outside when left out' },
} as const satisfies FlagSpecs;

export const BEND_USAGE = 'bend --thickness 3 --radius 3 --angle 90 --rule din6935';

/**
 * `bend`: the sums of one bend, worked out as on paper, and what is to be known of them. JSON:
 * `{"allowanceMm", "setbackMm","deductionMm","kFactor","rule","measure","remarks"}`.
 */
export const bend = (flags: Flags, json: boolean, { out }: Console): number => {
  const problems: InputProblem[] = [];
  const number = (
    name: string,
    read: (t: string) => ParsedNumber,
    allowed: string,
    ok: (n: number) => boolean,
    otherwise?: number,
  ): number => {
    const text = textOf(flags, name);
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
  const isTeardrop = textOf(flags, 'teardrop') !== undefined;
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
  const ruleText = textOf(flags, 'rule') ?? 'din6935';
  const rule = parseRule(ruleText);
  if (!rule.ok)
    problems.push({
      input: 'rule',
      given: `'${ruleText}'`,
      allowed: RULES.map((r) => r.text).join(', '),
      mend: rule.reason,
    });
  const measure = textOf(flags, 'measure') ?? 'outside';
  if (measure !== 'outside' && measure !== 'inside')
    problems.push({ input: 'measure', given: `'${measure}'`, allowed: 'outside or inside' });
  if (problems.length > 0 || !rule.ok) throw new WrongInput(problems);
  const asked: Bend = { thicknessMm, insideRadiusMm, angleDeg, teardropMm };
  const lacking = ruleProblem(rule.value, asked);
  if (lacking !== undefined)
    throw new WrongInput([
      {
        input: 'rule',
        given: `'${ruleText}'`,
        allowed: 'a rule with figures for this bend',
        mend: lacking,
      },
    ]);
  const remarks = bendRemarks(rule.value, asked).map(({ message }) => message);
  if (json)
    out(
      JSON.stringify({ ...bendFigures(rule.value, asked, measure as Measure), measure, remarks }),
    );
  else out([...workedSums(rule.value, asked, measure as Measure), ...remarks].join('\n'));
  return EXIT.made;
};

export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, { usage: BEND_USAGE, flags: BEND_FLAGS, words: 1 });
  return flags === undefined ? EXIT.made : bend(flags, flags['json'] === true, console);
};
