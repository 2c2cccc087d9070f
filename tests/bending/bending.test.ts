import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allowanceMm, bendFigures } from '../../src/bending/bend.ts';
import { parseRule, ruleProblem, ruleText } from '../../src/bending/rule.ts';
import { bendRemarks } from '../../src/bending/rule-findings.ts';
import { din6935K } from '../../src/bending/rules/din6935.ts';
import { measuredSpringback } from '../../src/bending/rules/measured.ts';
import { setbackMm } from '../../src/bending/setback.ts';
import { workedSums } from '../../src/bending/sums.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import type { BendRule, MeasuredBend } from '../../src/model/bend-rule.ts';
import { MM_PER_INCH } from '../../src/text/units.ts';
import { angle } from '../helpers/parts.ts';

const DIN: BendRule = { id: 'din6935' };
const FAA: BendRule = { id: 'faa' };
const kRule = (k: number): BendRule => ({ id: 'k', k });

const OWN = {
  machine: 'folder',
  tool: 'nose',
  kError: 0.02,
  radiusErrorMm: 0.1,
  correlation: 0,
  spreadMm: 0,
} as const;

const anyBend = fc.record({
  thicknessMm: fc.integer({ min: 3, max: 80 }).map((n) => n / 10),
  insideRadiusMm: fc.integer({ min: 0, max: 200 }).map((n) => n / 10),
  angleDeg: fc.integer({ min: 0, max: 180 }),
});
const anyRule = fc.constantFrom<BendRule>(
  DIN,
  FAA,
  { id: 'mh1' },
  { id: 'mh2' },
  { id: 'mh3' },
  kRule(0.42),
);

describe('rules', () => {
  it('an allowance grows with the angle and does not depend on how legs are measured', () => {
    fc.assert(
      fc.property(anyBend, anyRule, (bend, rule) => {
        const figures = (['outside', 'inside'] as const).map((m) => bendFigures(rule, bend, m));
        expect(figures[0]?.allowanceMm).toBe(figures[1]?.allowanceMm);
        expect(figures[0]?.allowanceMm).toBeGreaterThanOrEqual(0);
        // DIN 6935 jumps at 15 degrees, where its v comes in.
        if (bend.angleDeg > 15 && bend.angleDeg < 180)
          expect(
            allowanceMm(rule, { ...bend, angleDeg: bend.angleDeg + 0.5 }),
          ).toBeGreaterThanOrEqual(figures[0]?.allowanceMm ?? NaN);
      }),
    );
  });

  it('the K that is reported gives the allowance back', () => {
    fc.assert(
      fc.property(anyBend, anyRule, (bend, rule) => {
        const { kFactor, allowanceMm: wanted } = bendFigures(rule, bend, 'outside');
        expect(allowanceMm(kRule(kFactor), bend)).toBeCloseTo(wanted, 9);
      }),
    );
  });

  it('k of DIN 6935 lies between 0 and 1 and grows with the radius, down to no radius at all', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (a, b) => {
          const [smaller, larger] = [Math.min(a, b), Math.max(a, b)].map((r) => din6935K(r, 1)) as [
            number,
            number,
          ];
          expect(smaller).toBeGreaterThanOrEqual(0);
          expect(larger).toBeLessThanOrEqual(1);
          expect(smaller).toBeLessThanOrEqual(larger);
        },
      ),
    );
    // 0.65 + 0.5 lg(r / s) comes to -0.35 and to no number.
    for (const r of [0.01, 0]) expect(din6935K(r, 1)).toBe(0);
  });

  // DIN 6935: legs of a bend over 90 degrees go to its outermost tangent, which is r + s from the
  // tangent line.
  it.each([90, 90.5, 95, 135, 180])(
    'the setback of %d degrees is the same as of 90',
    (angleDeg) => {
      expect(setbackMm(angleDeg, 2, 1.5, 'outside')).toBe(3.5);
      expect(setbackMm(angleDeg, 2, 1.5, 'inside')).toBe(2);
    },
  );

  it('a bend of no angle takes nothing, and its K is that of the middle of the sheet', () => {
    fc.assert(
      fc.property(anyBend, anyRule, (bend, rule) => {
        const {
          allowanceMm: BA,
          setbackMm: s,
          kFactor,
        } = bendFigures(rule, { ...bend, angleDeg: 0 }, 'outside');
        expect([BA, s, kFactor]).toEqual([0, 0, 0.5]);
      }),
    );
  });

  it.each(['din6935', 'faa', 'mh1', 'mh2', 'mh3', 'k:0.42', 'measured'])(
    '%s is read and written the same',
    (text) => {
      const read = parseRule(` ${text.toUpperCase()} `);
      expect(read.ok && ruleText(read.value)).toBe(text);
    },
  );

  it.each(['', 'din', 'k:', 'k:2', 'k:-1', 'k:0,42', 'mh4'])(
    '%j is refused with what is allowed',
    (text) => {
      const read = parseRule(text);
      expect(read.ok).toBe(false);
      expect(!read.ok && read.reason).toMatch(/k:0\.42/);
    },
  );

  it('measured bends are interpolated, and not stretched far beyond what was measured', () => {
    const rows: MeasuredBend[] = [
      {
        ...OWN,
        thicknessMm: 2,
        insideRadiusMm: 2,
        kFactor: 0.4,
        anglesDeg: [45, 90],
        springback: 0.98,
      },
      { ...OWN, thicknessMm: 4, insideRadiusMm: 4, kFactor: 0.44, anglesDeg: [90, 90] },
    ];
    const rule: BendRule = { id: 'measured', rows };
    const bend = (thicknessMm: number, angleDeg = 90) => ({
      thicknessMm,
      insideRadiusMm: 3,
      angleDeg,
    });
    expect(bendFigures(rule, bend(3), 'outside').kFactor).toBeCloseTo(0.42, 12);
    expect(ruleProblem(rule, bend(4.9))).toBeUndefined();
    expect(ruleProblem(rule, bend(5.1))).toMatch(/do not reach 90 degrees on 5.1 mm/);
    // 30 degrees past what was measured, and no further; each sheet by its own angles.
    expect([ruleProblem(rule, bend(2, 15)), ruleProblem(rule, bend(4, 120))]).toEqual([
      undefined,
      undefined,
    ]);
    expect([ruleProblem(rule, bend(2, 14.9)), ruleProblem(rule, bend(4, 121))]).toEqual([
      expect.stringContaining('do not reach 14.9 degrees'),
      expect.stringContaining('do not reach 121 degrees'),
    ]);
    const told = (b: ReturnType<typeof bend>) =>
      bendRemarks(rule, b)
        .map((f) => f.message)
        .join();
    expect(told(bend(2))).toBe('');
    expect([told(bend(3)), told(bend(2.2, 30)), told(bend(2, 30))]).toEqual([
      'K lies between those measured on 2 and 4 mm sheet.',
      'K is that measured on 2 mm sheet, the nearest there is.',
      'K was measured on bends of 45 to 90 degrees.',
    ]);
    expect(measuredSpringback(rows, bend(2.4))).toBeCloseTo(0.98, 12);
    expect(measuredSpringback(rows, bend(4))).toBeUndefined();
    expect(ruleProblem({ id: 'measured', rows: [] }, bend(3))).toMatch(/needs measured bends/);
  });

  it('the sums on paper end in the figures of the bend', () => {
    fc.assert(
      fc.property(
        anyBend,
        anyRule,
        fc.constantFrom('outside' as const, 'inside' as const),
        (bend, rule, measure) => {
          const text = workedSums(rule, bend, measure).join('\n');
          const { allowanceMm: BA, deductionMm: BD } = bendFigures(rule, bend, measure);
          const shown = (n: number): string => String(Number(n.toFixed(4)) + 0);
          expect(text).toContain(`= ${shown(BA)}`);
          expect(text).toContain(`= ${shown(BD)}`);
        },
      ),
    );
  });
});

it('a bracket in inches has the blank of the same bracket in millimetres', () => {
  const inch = flatten(
    angle(
      2 * MM_PER_INCH,
      1.5 * MM_PER_INCH,
      3 * MM_PER_INCH,
      90,
      0.125 * MM_PER_INCH,
      0.125 * MM_PER_INCH,
    ),
    DIN,
  );
  const mm = flatten(angle(50.8, 38.1, 76.2, 90, 3.175, 3.175), DIN);
  expect(inch.outline.map((p) => [p.x, p.y])).toEqual(
    mm.outline.map((p) => [expect.closeTo(p.x, 9), expect.closeTo(p.y, 9)]),
  );
});
