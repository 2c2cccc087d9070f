import { describe, expect, test } from 'vitest';
import { bendFigures } from '../../src/bending/bend.ts';
import { setbackMm } from '../../src/bending/setback.ts';
import { type Answers, type Inputs, NOT_RUN, RUN } from '../helpers/bending-cases.ts';
import { publishedFile } from '../helpers/published.ts';

/**
 * A case of tests/published/bending.json: its source and how far it is trusted stand beside it
 * there.
 */
interface Case {
  readonly id: string;
  readonly topic: string;
  readonly inputs: Inputs;
  readonly expected: Answers;
  readonly tolerance: Readonly<Record<string, number>>;
}

const { cases } = publishedFile<{ readonly cases: readonly Case[] }>('bending');

const answersOf = ({ id, topic, inputs }: Case): Answers => {
  if (id in NOT_RUN || topic in NOT_RUN) return {};
  return (RUN[id] ?? RUN[topic])?.(inputs) ?? {};
};

/** Names under which a value may be excused. */
const excuses = ({ id, topic }: Case, key: string): readonly string[] =>
  [`${id}.${key}`, id, topic].filter((name) => name in NOT_RUN);

/** Flats have no tolerance of their own: they are legs less at most two setbacks. */
const toleranceOf = ({ tolerance, expected }: Case, key: string): number => {
  if (key === 'flats_in') return 2 * (tolerance['setback_in'] ?? 0);
  return (
    tolerance[key] ?? tolerance['abs'] ?? (tolerance['rel'] ?? 0) * Math.abs(Number(expected[key]))
  );
};

const figures = (value: number | boolean | readonly number[] | undefined): readonly number[] =>
  typeof value === 'object' ? value : value === undefined ? [] : [Number(value)];

/** Room for the last bits of a binary fraction, where a case allows nothing. */
const NOISE = 1e-9;

describe('published bending cases', () => {
  const run = cases.filter((c) => Object.keys(c.expected).some((key) => key in answersOf(c)));

  test.each(run.map((c) => [c.id, c] as const))('%s', (_, c) => {
    const answers = answersOf(c);
    for (const key of Object.keys(c.expected).filter((name) => name in answers)) {
      const [asked, got] = [figures(c.expected[key]), figures(answers[key])];
      expect(got.length, key).toBe(asked.length);
      asked.forEach((figure, i) => {
        expect(
          Math.abs((got[i] ?? Number.NaN) - figure),
          `${key}: ${got[i]} for ${figure}`,
        ).toBeLessThanOrEqual(toleranceOf(c, key) + NOISE);
      });
    }
  });

  test('every value is either worked out or excused, never both', () => {
    expect(cases.length).toBe(104);
    for (const c of cases) {
      for (const key of Object.keys(c.expected)) {
        expect(Number(key in answersOf(c)) + excuses(c, key).length, `${c.id}.${key}`).toBe(1);
      }
    }
  });

  test('every excuse excuses something', () => {
    const used = new Set(
      cases.flatMap((c) => Object.keys(c.expected).flatMap((key) => excuses(c, key))),
    );
    expect(Object.keys(NOT_RUN).filter((name) => !used.has(name))).toEqual([]);
  });

  test('no case is excused that used to be worked out', () => {
    expect(run.length).toBe(79);
  });
});

const tables = publishedFile<{
  readonly ac4313_K_chart: { readonly K_by_bend_deg: Readonly<Record<string, number>> };
  readonly din6935_v_90_deduct_mm: {
    readonly rows: Readonly<Record<string, Readonly<Record<string, number>>>>;
  };
}>('bending-tables');

// FAA AC 43.13-1B, table 4-7 (K-chart), p. 4-15: setback = K (R + T). Printed with four decimals.
describe('setback against the K-chart up to 90 degrees', () => {
  test.each(
    Object.entries(tables.ac4313_K_chart.K_by_bend_deg).filter(([deg]) => Number(deg) <= 90),
  )('%s degrees', (deg, K) => {
    expect(Math.abs(setbackMm(Number(deg), 1.2, 0.8, 'outside') / 2 - K)).toBeLessThan(0.0002);
  });
});

// Tabellenbuch Metall, table after DIN 6935 supplement 2, rounded to 0.1: from memory, so a check
// of consistency only.
describe('deduction of a square bend against the recalled table of DIN 6935', () => {
  const cells = Object.entries(tables.din6935_v_90_deduct_mm.rows).flatMap(([r, row]) =>
    Object.entries(row).map(([s, v]) => [r, s, v] as const),
  );
  test.each(cells)('r = %s, s = %s', (r, s, v) => {
    const { deductionMm } = bendFigures(
      { id: 'din6935' },
      { thicknessMm: Number(s), insideRadiusMm: Number(r), angleDeg: 90 },
      'outside',
    );
    expect(Math.abs(deductionMm - v)).toBeLessThan(0.06);
  });
});
