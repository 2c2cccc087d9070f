import { describe, expect, test } from 'vitest';
import { rectangle } from '../../src/geometry/loop.ts';
import type { BendRule } from '../../src/model/bend-rule.ts';
import type { Part } from '../../src/model/part.ts';
import { fold, panel, part } from '../helpers/parts.ts';
import { blankOf, edited, proofOf, stopsOf } from '../helpers/proved.ts';
import { publishedFile } from '../helpers/published.ts';

const { cases } = publishedFile<{
  readonly cases: readonly {
    readonly id: string;
    readonly inputs: Record<string, unknown>;
    readonly expected: Record<string, number>;
    readonly tolerance: Record<string, number>;
  }[];
}>('bending');

interface Strip {
  readonly legs: readonly number[];
  readonly t: number;
  readonly r: number;
  readonly angleDeg: number;
}

/** A strip 100 wide of legs one after the other, all folded up by one angle. */
const strip = ({ legs, t, r, angleDeg }: Strip): Part =>
  part(
    legs.map((leg, i) => panel(`leg ${i + 1}`, rectangle(0, 0, 100, leg))),
    legs
      .slice(1)
      .map((_, i) =>
        fold(
          `F${i + 1}`,
          { panel: `leg ${i + 1}`, edge: 2 },
          { panel: `leg ${i + 2}`, edge: 0 },
          angleDeg,
          'up',
          r,
        ),
      ),
    { thicknessMm: t },
  );

/**
 * Lengths of the legs, out of flats and the setback r + t of a square or sharper fold at each of
 * their ends.
 */
const withSetbacks = (flats: readonly number[], setback: number): number[] =>
  flats.map((f, i) => f + setback * (i === 0 || i === flats.length - 1 ? 1 : 2));

const IN = 25.4;
const numbers = (value: unknown): number[] => value as number[];

/**
 * Each case as a part, its rule, and the blank's length as the source prints it. All lengths in mm.
 */
const WORKED: Readonly<
  Record<
    string,
    (i: Record<string, unknown>) => { strip: Strip; rule: BendRule; key: string; perMm: number }
  >
> = {
  'din-tab-60': (i) => ({
    strip: {
      legs: [Number(i['a_mm']), Number(i['b_mm'])],
      t: Number(i['s_mm']),
      r: Number(i['r_mm']),
      angleDeg: 120,
    },
    rule: { id: 'din6935' },
    key: 'L_mm_before_rounding',
    perMm: 1,
  }),
  'faa-u': (i) => ({
    strip: {
      legs: numbers(i['mold_line_in']).map((v) => v * IN),
      t: Number(i['T_in']) * IN,
      r: Number(i['R_in']) * IN,
      angleDeg: 90,
    },
    rule: { id: 'faa' },
    key: 'TDW_in',
    perMm: 1 / IN,
  }),
  'gro-ex': (i) => {
    const [t, r] = [Number(i['t_mm']), Number(i['R_mm'])];
    return {
      strip: {
        legs: withSetbacks(numbers(i['flats_mm']), (r + t) * Math.tan(Math.PI / 6)),
        t,
        r,
        angleDeg: 60,
      },
      rule: { id: 'k', k: 0.33 },
      key: 'L_mm',
      perMm: 1,
    };
  },
  'gro-13': (i) => {
    const [t, r] = [Number(i['t_mm']), Number(i['R_mm'])];
    return {
      strip: { legs: withSetbacks(numbers(i['flats_mm']), r + t), t, r, angleDeg: 140 },
      rule: { id: 'k', k: 0.5 },
      key: 'L_mm',
      perMm: 1,
    };
  },
  'hem-open': (i) => {
    const [t, r] = [Number(i['t_mm']), Number(i['inside_radius_mm'])];
    return {
      strip: { legs: withSetbacks(numbers(i['flats_mm']), r + t), t, r, angleDeg: 180 },
      rule: { id: 'k', k: Number(i['K']) },
      key: 'L_mm',
      perMm: 1,
    };
  },
  // Four bends and flats of 82 in all, shared out here.
  'mean-wit': (i) => {
    const [t, r] = [Number(i['thickness_mm']), Number(i['inside_radius_mm'])];
    return {
      strip: { legs: withSetbacks([20, 15, 12, 15, 20], r + t), t, r, angleDeg: 90 },
      rule: { id: 'k', k: 0.5 },
      key: 'L_mm',
      perMm: 1,
    };
  },
};

describe('published worked examples through the whole path', () => {
  test.each(Object.entries(WORKED))(
    '%s: the file is as long as printed, and folds to the legs',
    (id, workedOut) => {
      const published = cases.find((c) => c.id === id);
      if (published === undefined) throw new Error(`no case ${id}`);
      const { strip: asked, rule, key, perMm } = workedOut(published.inputs);
      const blank = blankOf(strip(asked), rule);
      if (blank === undefined) throw new Error('not flat');
      const ys: number[] = [];
      edited(blank.dxf, (g) => {
        if (g.layer === 'OUTLINE' && g.code === 20) ys.push(Number(g.value));
        return undefined;
      });
      const tolerance = published.tolerance[key] ?? published.tolerance['abs'] ?? 0;
      const long = (Math.max(...ys) - Math.min(...ys)) * perMm;
      expect(Math.abs(long - (published.expected[key] ?? NaN))).toBeLessThanOrEqual(
        tolerance + 2e-4,
      );
      const proof = proofOf(blank.dxf, blank.asked);
      expect(stopsOf(proof)).toEqual([]);
      asked.legs.forEach((leg, n) => {
        const found = proof.measures.find((m) => m.name === `leg ${n + 1}`);
        expect([found?.askedMm, found?.foundMm]).toEqual([
          expect.closeTo(leg, 5),
          expect.closeTo(leg, 3),
        ]);
      });
    },
  );
});
