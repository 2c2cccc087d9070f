import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { checkTemplate, loadFamily, makeOne } from '../helpers/check-template.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { foldedPlaces } from '../helpers/witness.ts';

checkTemplate('saddle');

const SHEET = { material: 's235', thickness: 2, radius: 2, rule: 'k:0.42' };
const HALF = {
  ...SHEET,
  kind: 'saddle',
  diameter: 40,
  rubber: 2,
  seat: 26,
  gap: 3,
  boltFrom: 45,
  beyond: 14,
  boltHole: 9,
  width: 30,
};

const resultOf = async (inputs: Record<string, unknown>, options: object = {}) => {
  const made = makeParts(await loadFamily('saddle'), inputs, { shop: DEFAULT_SHOP, ...options });
  const result = made.ok ? made.parts[0]?.result : undefined;
  if (result === undefined) throw new Error(JSON.stringify(made));
  return result;
};

const rulesOf = async (inputs: Record<string, unknown>): Promise<string[]> =>
  (await resultOf(inputs)).findings.map(({ rule }) => rule);

/** Of a bend of the ears by K 0.42, and of a hug whose middle keeps its length, in degrees. */
const ear = (deg: number, r: number, t: number): number => ((Math.PI * deg) / 180) * (r + 0.42 * t);
const hug = (deg: number, r: number, t: number): number => ((Math.PI * deg) / 180) * (r + t / 2);

/** What is no flat that anybody sees, but is metal: how far the crown may make a clip longer, mm. */
const CROWN = 0.003;

describe('flat lengths by arcs and straights', () => {
  test('a half clip of 180 degrees', async () => {
    const { blank, folded } = await makeOne('saddle', HALF);
    // R 22; straight 26 - 3 - (2 + 2) = 19 beside it; the ear is flat from 22 + 2 + 2 on.
    const flat = 2 * (45 + 14 - 26) + 2 * ear(90, 2, 2) + 2 * 19 + hug(180, 22, 2);
    expect(Math.abs(blank.heightMm - flat)).toBeLessThan(CROWN);
    expect(blank.widthMm).toBeCloseTo(30, 6);
    // From ear to ear; from the underside of an ear to the top of the hug.
    expect(folded.sizeMm).toEqual(
      [30, 118, 26 - 3 + 22 + 2].map((mm): unknown => expect.closeTo(mm, 2)),
    );
  });

  test('two halves and a P clip, their hugs found by walking', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.record({
          kind: fc.constantFrom('halves', 'p'),
          diameter: fc.integer({ min: 16, max: 120 }),
          rubber: fc.integer({ min: 0, max: 4 }),
          gap: fc.integer({ min: 1, max: 5 }),
          t: fc.constantFrom(1, 1.5, 2),
          r: fc.constantFrom(1.5, 2, 3),
        }),
        async ({ kind, diameter, rubber, gap, t, r }) => {
          const R = diameter / 2 + rubber;
          const boltFrom = R + 40;
          const asked = { ...HALF, kind, diameter, rubber, gap, thickness: t, radius: r, boltFrom };
          const { seat: _, ...inputs } = asked;
          const { blank } = await makeOne('saddle', inputs);
          const walked = kind === 'p' ? roundOnce(R, r, t, gap) : half(R, r, t, gap);
          const flat =
            kind === 'p'
              ? boltFrom + 14 + (boltFrom + 14 - walked.x) + t + hug(walked.hug, R, t)
              : 2 * (boltFrom + 14 - walked.x) + 2 * t + hug(walked.hug, R, t);
          const ears = (kind === 'p' ? 1 : 2) * ear(walked.ear, r, t);
          expect(Math.abs(blank.heightMm - flat - ears)).toBeLessThan(CROWN);
        },
      ),
      { numRuns: fuzzRuns(60) },
    );
  });
});

interface Walked {
  readonly hug: number;
  readonly ear: number;
  /** From the middle of the tube to where the ear is flat. */
  readonly x: number;
}

/** Walks the face towards the tube: an arc to the right of R, a straight of t, an arc to the left. */
const walk = (
  from: readonly [number, number, number],
  R: number,
  r: number,
  t: number,
  hugDeg: number,
  earDeg: number,
): readonly [number, number] => {
  let [x, y, way] = from;
  const turn = (radius: number, deg: number): void => {
    const steps = 2000;
    for (let i = 0; i < steps; i++) {
      const a = (Math.sign(radius) * deg * Math.PI) / 180 / steps;
      const chord = 2 * Math.abs(radius) * Math.sin(Math.abs(a) / 2);
      x += chord * Math.cos(way + a / 2);
      y += chord * Math.sin(way + a / 2);
      way += a;
    }
  };
  turn(-R, hugDeg);
  x += t * Math.cos(way);
  y += t * Math.sin(way);
  turn(r + t, earDeg);
  return [x, y];
};

const bisect = (low: number, high: number, isOver: (deg: number) => boolean): number => {
  let [a, b] = [low, high];
  for (let i = 0; i < 60; i++) {
    const mid = (a + b) / 2;
    if (isOver(mid)) b = mid;
    else a = mid;
  }
  return (a + b) / 2;
};

/** From the top of the tube down to an ear half a gap over the middle. */
const half = (R: number, r: number, t: number, gap: number): Walked => {
  const end = (deg: number) => walk([0, R, 0], R, r, t, deg, deg);
  const deg = bisect(5, 120, (d) => end(d)[1] < gap / 2);
  return { hug: 2 * deg, ear: deg, x: end(deg)[0] };
};

/** From under the tube once round, to an ear that lies a gap over the foot. */
const roundOnce = (R: number, r: number, t: number, gap: number): Walked => {
  const end = (deg: number) => walk([0, -R, Math.PI], R, r, t, deg, deg - 180);
  const deg = bisect(200, 359, (d) => end(d)[1] < -R + gap);
  return { hug: deg, ear: deg - 180, x: end(deg)[0] };
};

const KINDS: readonly (readonly [string, Record<string, unknown>])[] = [
  ['half', HALF],
  ['half, unequal ears', { ...HALF, boltFromB: 58 }],
  ['less than half', { ...HALF, around: 120, boltFrom: 60 }],
  ['omega', { ...HALF, around: 230, seat: 34 }],
  ['halves', { ...HALF, kind: 'halves', seat: undefined }],
  ['p', { ...HALF, kind: 'p', seat: undefined }],
  ['p, inches', { ...HALF, kind: 'p', seat: undefined, diameter: '1.5in', gap: '3/32in' }],
];

describe('folded up by other code, it hugs the tube with its gap left', () => {
  test.each(KINDS)('%s, both hands', async (_, inputs) => {
    const made = makeParts(
      await loadFamily('saddle'),
      { ...inputs, hand: 'both' },
      { shop: DEFAULT_SHOP },
    );
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    expect(made.parts).toHaveLength(2);
    for (const { flat, part, stopped, result } of made.parts) {
      if (flat === undefined || part === undefined) throw new Error('no blank');
      expect([stopped, result.proof?.worstMm]).toEqual([false, expect.closeTo(0, 2)]);
      const places = foldedPlaces(flat, 'crown');
      const hugs = flat.bends.filter(({ direction }) => direction === 'down');
      const R = hugs[0]?.insideRadiusMm ?? NaN;
      const [y0, y1] = hugs.map(({ centreLine }) => centreLine[0][1]);
      // The middle of the tube lies R under the crown, between the two bends of the hug.
      const O = [((y0 ?? 0) + (y1 ?? 0)) / 2, -R] as const;
      const at = (panel: string, x: number, y: number): readonly [number, number] => {
        const [, py, pz] = places.get(panel)?.([x, y, 0]) ?? [NaN, NaN, NaN];
        return [py - O[0], pz - O[1]];
      };
      for (const { parent, child, parentTangent, childTangent } of hugs)
        for (const [panel, [p]] of [
          [parent, parentTangent],
          [child, childTangent],
        ] as const)
          expect(Math.abs(Math.hypot(...at(panel, p[0], p[1])) - R)).toBeLessThan(CROWN);
      const bolts = flat.cutouts.map((hole) => {
        if (hole.kind !== 'round') throw new Error('no round hole');
        return at(hole.panel, ...hole.centre);
      }) as [readonly [number, number], readonly [number, number]];
      checkBolts(bolts, R, inputs);
    }
  });

  const checkBolts = (
    [a, b]: readonly [readonly [number, number], readonly [number, number]],
    R: number,
    v: Record<string, unknown>,
  ): void => {
    const figure = (name: string): number => Number(v[name] ?? NaN);
    if (v['kind'] === 'p') {
      const gap = typeof v['gap'] === 'string' ? (3 / 32) * 25.4 : figure('gap');
      expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeCloseTo(gap, 2);
      // The foot runs square to the radius that it begins at.
      expect(Math.hypot(...a)).toBeCloseTo(Math.hypot(R, figure('boltFrom')), 2);
      return;
    }
    const low = v['kind'] === 'halves' ? figure('gap') / 2 : figure('gap') - figure('seat');
    expect([a[1], b[1]]).toEqual([expect.closeTo(low, 2), expect.closeTo(low, 2)]);
    const reach = [figure('boltFrom'), Number(v['boltFromB'] ?? v['boltFrom'])];
    expect([a, b].map(([y]) => Math.abs(y)).toSorted((p, q) => p - q)).toEqual(
      reach.toSorted((p, q) => p - q).map((mm): unknown => expect.closeTo(mm, 2)),
    );
  };
});

describe('the plan', () => {
  test.each(KINDS)('%s: ears by the folder, then the hug round a former', async (_, inputs) => {
    const { foldPlan } = await resultOf(inputs);
    expect(foldPlan?.feasible).toBe(true);
    const ways = foldPlan?.steps.map(({ way }) => way) ?? [];
    const hugs = ways.filter((way) => way === 'round a former').length;
    expect(hugs).toBe(2);
    expect(ways.slice(-2)).toEqual(['round a former', 'round a former']);
    expect(ways.slice(0, -2).every((way) => way === 'machine')).toBe(true);
  });

  test('rolled where the shop has rolls, bumped where that is asked for', async () => {
    const rolls = [{ name: 'rolls', width: 600, leastDiameter: 30, capacity: 3 }];
    const waysOf = async (options: object) =>
      (await resultOf(HALF, options)).foldPlan?.steps.slice(-2).map(({ way }) => way);
    expect(await waysOf({ shop: { ...DEFAULT_SHOP, rolls } })).toEqual(['in rolls', 'in rolls']);
    expect(await waysOf({ wideBends: { way: 'bumped' } })).toEqual(['bumped', 'bumped']);
  });

  // kR of the table (Tabellenbuch Metall) for DC01 at r / t = 11 lies between 0.96 and 0.93.
  test('the former is smaller than the tube by the springback', async () => {
    const { findings } = await resultOf({ ...HALF, material: 'dc01' });
    const told = findings.find((f) => f.rule === 'clip-hug')?.message ?? '';
    const across = Number(/bar of ([\d.]+) across/.exec(told)?.[1]);
    expect(across).toBeGreaterThan(2 * (0.93 * 23 - 1));
    expect(across).toBeLessThan(2 * (0.96 * 23 - 1));
  });
});

describe('what cannot be made', () => {
  test.each([
    ['clip-too-low', { seat: 6 }],
    ['clip-bolt-in-bend', { boltFrom: 30 }],
    ['clip-bolt-in-bend', { boltFromB: 30 }],
    ['clip-ear-too-short', { beyond: 6 }],
    ['clip-too-narrow', { width: 12 }],
    ['clip-neck-closed', { around: 300, seat: 60, diameter: 12, rubber: 0 }],
    ['clip-gap-too-wide', { kind: 'halves', seat: undefined, gap: 30 }],
    ['clip-gap-too-wide', { kind: 'p', seat: undefined, gap: 30 }],
  ])('%s: %o', async (rule, inputs) => {
    expect(await rulesOf({ ...HALF, ...inputs })).toContain(rule);
  });

  test('the mend of each passes', async () => {
    for (const inputs of [{ seat: 6 }, { boltFrom: 30 }, { beyond: 6 }, { width: 12 }]) {
      const { findings } = await resultOf({ ...HALF, ...inputs });
      const stop = findings.find(({ severity }) => severity === 'stop');
      const [name] = Object.keys(inputs);
      const passes = Number(/(\d+(?:\.\d+)?) or more/.exec(stop?.message ?? '')?.[1]);
      expect(await rulesOf({ ...HALF, [name ?? '']: passes })).not.toContain(stop?.rule);
    }
  });

  test('a bolt that nobody places has room for its washer', async () => {
    const { boltFrom: _, ...inputs } = HALF;
    const { folded } = await makeOne('saddle', inputs);
    // Flat from 22 + 2 + 2; a hole of 9 and a thickness from there on.
    expect(folded.sizeMm[1]).toBeCloseTo(2 * (37 + 14), 2);
  });

  test('a gap of nothing worth on a bare tube is loose', async () => {
    const bare = { ...HALF, rubber: 0, gap: 0.5 };
    expect(await rulesOf(bare)).toContain('clip-loose');
    expect(await rulesOf({ ...bare, gap: 0.7 })).not.toContain('clip-loose');
  });
});
