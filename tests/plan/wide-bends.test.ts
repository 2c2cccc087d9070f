import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { WAY } from '../../src/forms/making.ts';
import type { Machine } from '../../src/model/machine.ts';
import type { Shop } from '../../src/model/shop.ts';
import type { WideBends } from '../../src/model/wide-bends.ts';
import { readShop } from '../../src/shop/read.ts';
import { shopEntries, writeShop } from '../../src/shop/write.ts';
import { type MakeOptions, makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { fuzzRuns, inTurns } from '../helpers/extent.ts';

const ANGLE = { legA: 100, legB: 100, width: 80, thickness: 2, material: 's235', radius: 40 };
const on = (...machines: Machine[]): Shop => ({ ...DEFAULT_SHOP, machines });
const BUMPED: WideBends = { way: 'bumped' };

const partsOf = async (
  inputs: Record<string, unknown> = ANGLE,
  options: MakeOptions = {},
  family = 'bracket-angle',
) => {
  const made = makeParts(await loadFamily(family), inputs, {
    shop: on(BOX_PAN),
    ...options,
  });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.parts;
};

const planOf = async (...asked: Parameters<typeof partsOf>) => {
  const [part] = await partsOf(...asked);
  if (part === undefined || part.stopped) throw new Error(JSON.stringify(part?.result.findings));
  const { foldPlan, findings, blank, proof } = part.result;
  const [step] = foldPlan?.steps ?? [];
  if (step === undefined) throw new Error('no step');
  const told = (rule: string): string =>
    findings
      .filter((f) => f.rule === rule)
      .map((f) => `${f.severity}: ${f.message}`)
      .join('\n');
  return { step, told, blank, proof, part };
};

/** Lines on a layer of a DXF of release 2000, as pairs of points. */
const linesOn = (dxf: string, layer: string): (readonly [number, number, number, number])[] => {
  const rows = dxf.split(/\r?\n/).map((row) => row.trim());
  const found: (readonly [number, number, number, number])[] = [];
  rows.forEach((row, i) => {
    if (row !== 'LINE' || rows[i - 1] !== '0') return;
    const end = rows.findIndex((r, j) => j > i && r === '0' && (j - i) % 2 === 1);
    const pairs = new Map<string, string>();
    for (let j = i + 1; j < end; j += 2) pairs.set(rows[j] as string, rows[j + 1] as string);
    if (pairs.get('8') === layer)
      found.push(['10', '20', '11', '21'].map((c) => Number(pairs.get(c))) as never);
  });
  return found;
};

describe('a bend of radius 40 on a folder with a nose of 2', () => {
  const NOSE = {
    ...BOX_PAN,
    noseRadiiMm: { value: [2], basis: 'measured', source: 'the shop file' },
  } as const;

  test('is a finding with its ways out, and bumped: no stroke', async () => {
    const { step, told } = await planOf(ANGLE, { shop: on(NOSE) });
    expect(step).toMatchObject({ way: 'bumped', nose: null, fingersMm: [], byHandDeg: 0 });
    expect(told('radius-beyond-nose')).toMatch(
      /^warn: Fold A: inside radius 40 is far beyond what .* Bump it in 18 hits of 5 deg, 3\.6 mm apart.*; or roll it .*; or form it round a pipe.*; or give radius 4/s,
    );
    expect(told('radius-not-given')).toBe('');
  });

  test('its figures: pitch, flats, angle, lines from one edge', async () => {
    const { step, blank } = await planOf();
    const { bump } = step;
    // By DIN 6935 the middle of the sheet keeps its length there: 41 pi / 2 in 18 parts, common arithmetic.
    const pitch = (41 * Math.PI) / 2 / 18;
    expect(bump).toMatchObject({
      hits: 18,
      angleDeg: 5,
      pitchMm: expect.closeTo(pitch, 6) as number,
      firstMm: expect.closeTo(pitch / 2, 6) as number,
      standOffMm: expect.closeTo(40 * (1 / Math.cos(Math.PI / 72) - 1), 9) as number,
      isClear: true,
      doubts: [],
    });
    expect(step.stopAtDeg).toBeGreaterThan(5);
    expect(step.from).toBe('the free edge of leg B');
    // Leg B is flat as far as its tangent line, 100 - 42 from its edge.
    expect(bump?.linesMm).toEqual(
      Array.from({ length: 18 }, (_, i): unknown => expect.closeTo(58 + (i + 0.5) * pitch, 6)),
    );
    expect(blank?.heightMm).toBeCloseTo(116 + 18 * pitch, 6);
  });

  test('asked for another way it is made that way, and only noted', async () => {
    for (const [wideBends, way] of [
      [{ way: 'former' }, 'round a former'],
      [{ way: 'rolled' }, 'in rolls'],
      [BUMPED, 'bumped'],
    ] as const) {
      const { step, told } = await planOf(ANGLE, { wideBends });
      expect(step.way).toBe(way);
      expect(told('radius-beyond-nose')).toBe('');
      expect(told('formed-by-hand')).toMatch(/^note: Fold A is no stroke of /);
    }
  });

  test('so many hits as are asked for, or as keep so near to the arc', async () => {
    const { step } = await planOf(ANGLE, { wideBends: { way: 'bumped', hits: 9 } });
    expect(step.bump).toMatchObject({ hits: 9, angleDeg: 10 });
    const near = await planOf(ANGLE, { wideBends: { way: 'bumped', standOffMm: 0.05 } });
    expect(near.step.bump?.hits).toBe(16);
  });

  test('hits too close or too steep are doubtful', async () => {
    const close = await planOf(ANGLE, { wideBends: { way: 'bumped', hits: 40 } });
    expect(close.told('bump-doubtful')).toMatch(/run into one another/);
    const steep = await planOf(ANGLE, { wideBends: { way: 'bumped', hits: 4 } });
    expect(steep.told('bump-doubtful')).toMatch(/22\.5 deg leave flats that are seen/);
  });

  // Trade texts on step bending: the best V is twice the pitch, so that earlier hits stay out of it.
  test('on a brake, earlier hits lie in a V wider than two pitches', async () => {
    const { told, step } = await planOf(ANGLE, { shop: on(PRESS_BRAKE), wideBends: BUMPED });
    expect(step.way).toBe('bumped');
    expect(told('bump-doubtful')).toMatch(/a V of 7\.2 or less keeps clear of them/);
  });
});

describe('the blank', () => {
  const files = async (options: MakeOptions, inputs: Record<string, unknown> = ANGLE) => {
    const { part } = await planOf(inputs, options);
    const dxf = part.files().find((f) => f.name.endsWith('.dxf'))?.contents ?? '';
    return { dxf, part };
  };

  test('is to the byte what it was where hits were not asked for', async () => {
    const [plain, former] = [await files({}), await files({ wideBends: { way: 'former' } })];
    expect(plain.dxf).toBe(former.dxf);
    expect(linesOn(plain.dxf, 'MARK')).toEqual([]);
  });

  test('bears the line of each hit; the fold line in the middle stays', async () => {
    const { dxf, part } = await files({ wideBends: BUMPED });
    const lines = linesOn(dxf, 'MARK').map(([, y]) => y);
    const high = part.result.blank?.heightMm ?? NaN;
    const told = part.result.foldPlan?.steps[0]?.bump?.linesMm ?? [];
    expect(lines.toSorted((a, b) => b - a)).toEqual(
      told.map((mm): unknown => expect.closeTo(high - mm, 3)),
    );
    expect(linesOn(dxf, 'FOLD-UP')).toHaveLength(1);
    expect(dxf).toContain('A 90 UP R40 18 HITS');
  });

  test('of an odd number of hits has one line in the middle, not two', async () => {
    const { dxf } = await files({ wideBends: { way: 'bumped', hits: 9 } });
    expect(linesOn(dxf, 'MARK')).toHaveLength(8);
    expect(linesOn(dxf, 'FOLD-UP')).toHaveLength(1);
  });

  // Every mark with every kerf and hand: the file is proved, and the other hand is its mirror image.
  const WAYS = (['lines', 'nicks', 'none'] as const).flatMap((marks) =>
    [0, 0.2, 'shop'].map((kerf) => [marks, kerf as number | 'shop'] as const),
  );
  test.each(inTurns(WAYS, 1, 4))('%s with kerf %s, in both hands', async (marks, kerf) => {
    const shop = { ...on(BOX_PAN), cutters: DEFAULT_SHOP.cutters.slice(1) };
    const parts = await partsOf(
      { ...ANGLE, hand: 'both', holesB: '20,20,8' },
      { shop, marks, kerf, wideBends: BUMPED },
    );
    const lines = parts.map((part) => {
      if (part.stopped) throw new Error(JSON.stringify(part.result.findings));
      expect(part.result.proof?.worstMm).toBeLessThan(0.01);
      const dxf = part.files().find((f) => f.name.endsWith('.dxf'))?.contents ?? '';
      return linesOn(dxf, 'MARK').map(([x, y, x2, y2]) => [x, y, x2, y2]);
    });
    expect(lines.map((l) => l.length)).toEqual(marks === 'none' ? [0, 0] : [18, 18]);
    const heights = lines.map((l) => l.map(([, y = 0]) => y).toSorted((a, b) => a - b));
    heights[1]?.forEach((y, i) => expect(y).toBeCloseTo(heights[0]?.[i] ?? NaN, 3));
    const corners = parts[0]?.flat?.outline.length ?? 0;
    expect(corners).toBe(4);
  });
});

describe('rolls of the shop', () => {
  const ROLLS = { name: 'slip rolls', width: 1000, leastDiameter: 60, capacity: 1.5 };
  const wayWith = async (rolls: object, inputs: Record<string, unknown> = {}) => {
    const shop = { ...on(BOX_PAN), rolls: [{ ...ROLLS, ...rolls }] };
    const { step, told } = await planOf(
      { ...ANGLE, thickness: 1.5, material: 'dc01', ...inputs },
      { shop },
    );
    return { way: step.way, note: step.note, told };
  };

  test('that take it are taken, and it is no warning', async () => {
    const { way, note, told } = await wayWith({});
    expect(way).toBe('in rolls');
    expect(note).toMatch(/^in slip rolls, to and fro between its tangent lines/);
    expect(told('radius-beyond-nose')).toBe('');
  });

  test.each([
    [{ width: 79.9 }, {}, { width: 80 }],
    [{ capacity: 1.4 }, {}, { capacity: 1.5 }],
    [{ leastDiameter: 80 }, {}, { leastDiameter: 70 }],
    [
      { capacities: [{ material: 'steel', thickness: 1.4 }] },
      {},
      { capacities: [{ material: 'steel', thickness: 1.5 }] },
    ],
    // Stainless of 0.6 of the thickness of mild steel, as on folders.
    [
      { leastDiameter: 50, capacity: 2.4 },
      { material: '1.4301' },
      { leastDiameter: 50, capacity: 2.6 },
    ],
  ])('%o do not take it, %o', async (short, inputs, enough) => {
    expect((await wayWith(short, inputs)).way).not.toBe('in rolls');
    expect((await wayWith(enough, inputs)).way).toBe('in rolls');
  });

  test('stand in the shop file, are written again as they are read, and are none where it has none', () => {
    const text = `rolls: [{ name: slip rolls, width: 1000, leastDiameter: 2 1/2in, capacity: 1.5, capacities: [{ material: aluminium, thickness: 2 }] }]\n`;
    const read = readShop(text);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    expect(read.shop.rolls).toEqual([
      { ...ROLLS, leastDiameter: 63.5, capacities: [{ material: 'aluminium', thickness: 2 }] },
    ]);
    const again = readShop(writeShop(shopEntries(read.shop, {}), 'mine'));
    expect(again.ok && again.shop.rolls).toEqual(read.shop.rolls);
    expect(writeShop(shopEntries(DEFAULT_SHOP, {}), 'mine')).not.toMatch(/rolls/);
  });

  test.each([
    ['rolls: [{ name: a, width: 1000, leastDiameter: 60 }]', 'rolls[0].capacity'],
    ['rolls: [{ name: a, width: 1, leastDiameter: 60, capacity: 2 }]', 'rolls[0].width'],
    [
      'rolls: [{ name: a, width: 900, leastDiameter: 60, capacity: 2 }, { name: A, width: 900, leastDiameter: 60, capacity: 2 }]',
      'rolls[1].name',
    ],
  ])('%s is a problem at %s', (text, input) => {
    const read = readShop(text);
    expect(read.ok ? [] : read.problems.map((p) => p.input)).toContain(input);
  });

  test('that do not take it say why, where it is to be rolled all the same', async () => {
    const shop = { ...on(BOX_PAN), rolls: [{ ...ROLLS, width: 50 }] };
    const { step } = await planOf(ANGLE, { shop, wideBends: { way: 'rolled' } });
    expect(step.note).toContain('slip rolls are 50 mm wide, and this is 80 mm long');
  });
});

describe('every family with a radius', () => {
  const ASKED: readonly (readonly [string, Record<string, unknown>, string])[] = [
    ['bracket-channel', { flangeA: 60, web: 120, flangeB: 60, width: 80 }, 'up'],
    ['bracket-zed', { flangeA: 90, offset: 100, flangeB: 90, width: 60 }, 'up and down'],
    ['plate', { outline: '0,0; 300,0; 300,60; 0,60', folds: '150,0 150,60 70 down' }, 'down'],
    ['panels', { base: '120 x 200', flanges: ['lip on right 90 65 up'] }, 'one flange'],
  ];
  test.each(ASKED)('%s: bumped, %o (%s)', async (family, inputs) => {
    const asked = { ...inputs, thickness: 1.5, material: 'dc01', radius: 25, hand: 'both' };
    const parts = await partsOf(asked, { wideBends: BUMPED }, family);
    for (const { result, stopped } of parts) {
      expect([family, stopped, result.findings.filter((f) => f.severity === 'stop')]).toEqual([
        family,
        false,
        [],
      ]);
      const steps = result.foldPlan?.steps ?? [];
      expect(steps.length).toBe(result.bends.length);
      for (const { bump, bend, stopAtDeg } of steps) {
        const asked = result.bends.find(({ id }) => id === bend);
        expect(bump?.isClear).toBe(true);
        expect((bump?.hits ?? 0) * (bump?.angleDeg ?? 0)).toBeCloseTo(asked?.angleDeg ?? NaN, 9);
        expect((bump?.hits ?? 0) * (bump?.pitchMm ?? 0)).toBeCloseTo(asked?.allowanceMm ?? NaN, 9);
        expect(stopAtDeg).toBeGreaterThan(bump?.angleDeg ?? Infinity);
      }
    }
    const [left, right] = parts.map((p) => p.result.foldPlan?.steps.map((s) => s.bump));
    expect(right).toEqual(left?.map((bump) => nearly(bump)));
  });

  const nearly = (bump: unknown): unknown =>
    Object.fromEntries(
      Object.entries(bump ?? {}).map(([name, value]: [string, unknown]) => [
        name,
        typeof value === 'number'
          ? expect.closeTo(value, 6)
          : name === 'linesMm'
            ? (value as number[]).map((mm): unknown => expect.closeTo(mm, 6))
            : value,
      ]),
    );
});

describe('the hits are followed on the machine', () => {
  const curl = (deg: number, radius: number, leg: number) => ({
    outline: `0,0; ${leg + 60 + (radius * deg * Math.PI) / 180},0; ${leg + 60 + (radius * deg * Math.PI) / 180},60; 0,60`,
    folds: `${60 + (radius * deg * Math.PI) / 360},0 ${60 + (radius * deg * Math.PI) / 360},60 ${deg} up r${radius}`,
    thickness: 1.5,
    material: 'dc01',
  });

  test('a gentle curl is clear', async () => {
    const { step } = await planOf(curl(90, 60, 60), { wideBends: BUMPED }, 'plate');
    expect(step.bump?.isClear).toBe(true);
  });

  test('a tail that curls back onto the beam is not', async () => {
    const { step, told } = await planOf(curl(170, 30, 200), { wideBends: BUMPED }, 'plate');
    expect(step.bump?.isClear).toBe(false);
    expect(told('bump-doubtful')).toMatch(/does not get through: at hit \d+ of \d+, /);
  });

  test('unasked, what does not get through is formed by hand, and says why', async () => {
    const { step } = await planOf(curl(165, 30, 200), {}, 'plate');
    expect(step.way).toBe('round a former');
    expect(step.note).toMatch(/does not get through the hits: at hit /);
  });

  // The base runs on beside the bend, farther than the lines of the last hits: the leaf lifts it too.
  test('metal beside a flange on part of an edge is in the way', async () => {
    const ears = { base: '120 x 200', flanges: ['lip on right 90 65 up from 60 to 160'] };
    const { step } = await planOf(
      { ...ears, thickness: 1.5, material: 'dc01', radius: 25 },
      { wideBends: BUMPED },
      'panels',
    );
    expect(step.bump).toMatchObject({
      isClear: false,
      doubts: [expect.stringMatching(/the leaf swings into base/)],
    });
  });

  test('sheet too thick for the machine is not bumped on it', async () => {
    const { step } = await planOf({ ...ANGLE, thickness: 5, radius: 60, legA: 150, legB: 150 });
    expect(step.way).toBe('round a former');
    expect(step.note).toMatch(/is more than the machine takes/);
  });
});

test('walked along the blank line by line, the legs end where an arc would have them', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.record({
        angle: fc.integer({ min: 20, max: 120 }),
        radius: fc.integer({ min: 20, max: 60 }),
        thickness: fc.constantFrom(1, 1.5, 2),
        hits: fc.integer({ min: 4, max: 20 }),
      }),
      async ({ angle, radius, thickness, hits }) => {
        const leg = 150;
        const { step, blank } = await planOf(
          { ...ANGLE, legA: leg, legB: leg, bendAngle: angle, radius, thickness, rule: 'k:0.5' },
          { wideBends: { way: 'bumped', hits } },
        );
        const { bump } = step;
        const mid = radius + thickness / 2;
        const rad = (angle * Math.PI) / 180;
        // The polygon of the middle of the sheet: straight from line to line, a hit at each.
        const high = blank?.heightMm ?? NaN;
        const stops = [0, ...(bump?.linesMm ?? []), high];
        let [x, y, way] = [0, 0, 0];
        stops.slice(1).forEach((to, i) => {
          x += (to - (stops[i] as number)) * Math.cos(way);
          y += (to - (stops[i] as number)) * Math.sin(way);
          way += rad / hits;
        });
        // The same with the arc, from the same blank.
        const flat = (high - mid * rad) / 2;
        const end = [
          flat + mid * Math.sin(rad) + flat * Math.cos(rad),
          mid * (1 - Math.cos(rad)) + flat * Math.sin(rad),
        ] as const;
        const off = Math.hypot(x - end[0], y - end[1]);
        // Flats of pitch touch a circle that is smaller by about mid h^2 / 12.
        const h = rad / hits;
        const smaller = mid - (mid * h) / 2 / Math.tan(h / 2);
        expect(off).toBeLessThan(2 * smaller * (1 + rad) + 1e-6);
        expect(bump?.shortMm ?? NaN).toBeLessThan(2 * smaller * rad + 1e-6);
      },
    ),
    { numRuns: fuzzRuns(30) },
  );
});

describe('the option', () => {
  const read = (given: unknown): unknown => {
    const found = WAY.wideBends.read(given);
    return found.ok ? found.value : undefined;
  };

  test.each([
    ['rolled', { way: 'rolled' }],
    ['former', { way: 'former' }],
    ['Bumped', BUMPED],
    ['24', { way: 'bumped', hits: 24 }],
    [24, { way: 'bumped', hits: 24 }],
    ['0.1mm', { way: 'bumped', standOffMm: 0.1 }],
    ['1/64 in', { way: 'bumped', standOffMm: 25.4 / 64 }],
  ])('%s', (given, value) => {
    expect(read(given)).toEqual(value);
  });

  test.each(['1', '0', '201', '0.1', '-3', '0.001mm', '25mm', 'bent', ''])('not %s', (given) => {
    expect(read(given)).toBeUndefined();
  });
});
