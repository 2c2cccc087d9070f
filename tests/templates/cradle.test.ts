import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { boltedHoles } from '../../src/assembly/bolted-holes.ts';
import type { PlacedPiece } from '../../src/assembly/assembly.ts';
import cradle from '../../templates/cradle/index.ts';
import { checkTemplate, loadFamily, make, rulesOf } from '../helpers/check-template.ts';
import { fuzzRuns, inTurns, oneOfEach } from '../helpers/extent.ts';
import { setsFrom } from '../helpers/made-sets.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';
import { foldedPlaces } from '../helpers/witness.ts';

checkTemplate('cradle', [0]);

const ASK = {
  length: 600,
  width: 350,
  depth: 250,
  slopeAcross: 0,
  slopeAlong: 0,
  drop: 10,
  leftStrap: 120,
  rightStrap: 120,
  strapWidth: 40,
  rubber: 3,
  clearance: 1,
  boltCentres: 430,
  boltHole: 11,
  beyond: 22,
  pullUp: 4,
  railWeb: 50,
  chassisAt: -40,
  chassisPitch: 680,
  chassisHole: 13,
  railBeyond: 25,
};
const SHEET = { material: 's235', thickness: 2, radius: 2.5 };
type Ask = typeof ASK & Readonly<Record<string, unknown>>;
type Point = readonly [x: number, y: number, z: number];

/** The figures of the report by their names. */
const told = (inputs: Readonly<Record<string, unknown>>) => {
  const made = madeOnce(cradle, inputs, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const figures = made.reports[0]?.figures ?? [];
  return (name: string): number => figures.find((f) => f.name === name)?.value ?? NaN;
};

/** Whether two figures are the same but for the noise of the arithmetic. */
const near = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;

/**
 * A piece in the whole by its blank alone: folded up by the witness, which shares no code with the
 * tool, and put where its family says that its root panel stands.
 */
const inWhole = ({ part, flat, pose }: PlacedPiece) => {
  const places = foldedPlaces(flat, part.root);
  const root = flat.panels.find(({ id }) => id === part.root)?.placement;
  if (root === undefined) throw new Error('no root');
  const stand = (panel: string, at: Point): Point => {
    const [x, y, z] = places.get(panel)?.(at) ?? [NaN, NaN, NaN];
    const [dx, dy] = [x - root.x, y - root.y];
    const own = [root.c * dx + root.s * dy, root.c * dy - root.s * dx, z] as const;
    return [0, 1, 2].map(
      (i) =>
        (pose.o[i] ?? NaN) +
        own[0] * (pose.x[i] ?? NaN) +
        own[1] * (pose.y[i] ?? NaN) +
        own[2] * (pose.z[i] ?? NaN),
    ) as unknown as Point;
  };
  /** Corners of the flat metal of a panel, on the face at this height over its lower one. */
  const corners = (panel: string, z: number): Point[] => {
    const found = flat.panels.find(({ id }) => id === panel);
    if (found === undefined) throw new Error(`no ${panel}`);
    const { c, s, x, y } = found.placement;
    return found.region.map((v) => stand(panel, [x + c * v.x - s * v.y, y + s * v.x + c * v.y, z]));
  };
  const middles = (panel: string, from: string): Point[] =>
    flat.cutouts
      .filter((hole) => hole.panel === panel && hole.from.startsWith(from))
      .map((hole) => {
        if (hole.kind === 'round') return stand(panel, [...hole.centre, 0]);
        const mean = (all: readonly number[]): number =>
          all.reduce((sum, n) => sum + n, 0) / all.length;
        const [x, y] = [mean(hole.loop.map((v) => v.x)), mean(hole.loop.map((v) => v.y))];
        return stand(panel, [x, y, 0]);
      });
  return { corners, middles };
};

/** The tank lies on rubber in its straps, and every bolt goes through what it is to go through. */
const expectHeld = (ask: Ask, t: number): void => {
  const [set, ...more] = setsFrom(cradle, { ...SHEET, ...ask, thickness: t, name: 'one' });
  if (set === undefined || more.length > 0) throw new Error('not one set');
  const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);
  const [a, b] = [tan(ask.slopeAlong), tan(ask.slopeAcross)];
  const floor = (x: number, y: number): number => -ask.drop - ask.depth - a * x - b * y;
  const beside = ask.rubber + ask.clearance;
  const pieces = set.assembly.pieces;
  const straps = pieces.filter(({ id }) => id.startsWith('strap'));
  const rail = inWhole(pieces.find(({ id }) => id === 'rail') as PlacedPiece);
  expect(straps).toHaveLength(2);
  // The rail lies against the chassis, its web beyond the feet.
  expect(rail.corners('flange', t).every(([, , z]) => near(z, 0))).toBe(true);
  const across = (ask.width + ask.boltCentres) / 2;
  for (const [i, [x, y]] of rail.middles('flange', 'chassisHole').entries()) {
    expect(x).toBeCloseTo(ask.chassisAt + i * ask.chassisPitch, 6);
    expect(y).toBeCloseTo(across, 6);
  }
  const inRail = rail.middles('flange', 'boltHole');
  const web = Math.min(...rail.corners('web', 0).map(([, y]) => y));
  for (const [i, at] of [ask.leftStrap, ask.length - ask.rightStrap].entries()) {
    const found = straps.map(inWhole).find(({ middles }) => {
      const [x = NaN] = middles('foot A', 'boltHole')[0] ?? [];
      return near(x, at);
    });
    if (found === undefined) throw new Error(`no strap at ${at}`);
    const { corners, middles } = found;
    for (const [x, y, z] of corners('crown', 0))
      expect((floor(x, y) - z) / Math.hypot(1, a, b)).toBeCloseTo(ask.rubber, 6);
    for (const [, y] of corners('side A', 0)) expect(y).toBeCloseTo(-beside, 6);
    for (const [, y] of corners('side B', 0)) expect(y).toBeCloseTo(ask.width + beside, 6);
    for (const [, , z] of corners('foot A', 0)) expect(z).toBeCloseTo(-ask.pullUp, 6);
    for (const [, y, z] of corners('foot B', 0)) {
      expect(z).toBeCloseTo(-ask.pullUp - t, 6);
      expect(y).toBeLessThan(web - ask.clearance + 1e-6);
    }
    // Through the foot and the rail, and through the other foot into the chassis.
    const [inFoot, inRailHere] = [middles('foot B', 'boltHole')[0], inRail[i]];
    expect(inFoot?.[0]).toBeCloseTo(inRailHere?.[0] ?? NaN, 6);
    expect(inFoot?.[1]).toBeCloseTo(inRailHere?.[1] ?? NaN, 6);
    expect(inFoot?.[1]).toBeCloseTo(across, 6);
    expect(middles('foot A', 'boltHole')[0]?.[1]).toBeCloseTo(across - ask.boltCentres, 6);
  }
  // What the papers tell of the bolts is the same.
  const bolts = boltedHoles(set.assembly);
  expect(bolts).toHaveLength(2);
  for (const { asideMm, apartMm } of bolts) {
    expect(asideMm).toBeCloseTo(0, 6);
    expect(apartMm).toBeCloseTo(ask.pullUp, 6);
  }
};

describe('a tank hangs in its cradle', () => {
  const asks: readonly Partial<Ask>[] = [
    {},
    { slopeAcross: 5 },
    { slopeAlong: 6 },
    { slopeAlong: -4, slopeAcross: -7, rail: 'channel' },
    { drop: 60, clearance: 0, rubber: 0, pullUp: 0 },
  ];
  test.each(inTurns(asks, 1, 2))('%o', (more) => {
    expectHeld({ ...ASK, ...more }, 2);
  });

  test('any tank that can be hung', () => {
    let hung = 0;
    fc.assert(
      fc.property(
        fc.record({
          length: fc.integer({ min: 300, max: 1200 }),
          width: fc.integer({ min: 150, max: 600 }),
          depth: fc.integer({ min: 120, max: 400 }),
          slopeAcross: fc.double({ min: -12, max: 12, noNaN: true }),
          slopeAlong: fc.double({ min: -8, max: 12, noNaN: true }),
          drop: fc.integer({ min: 0, max: 60 }),
          rubber: fc.integer({ min: 0, max: 8 }),
          clearance: fc.integer({ min: 0, max: 4 }),
          pullUp: fc.integer({ min: 0, max: 6 }),
          rail: fc.constantFrom('angle', 'channel'),
        }),
        (some) => {
          const ask = {
            ...ASK,
            ...some,
            leftStrap: some.length * 0.2,
            rightStrap: some.length * 0.25,
            boltCentres: some.width + 90,
            chassisPitch: some.length + 80,
          };
          const made = makeParts(cradle, { ...SHEET, ...ask }, { foldAt: 'service' });
          if (!made.ok) throw new Error(JSON.stringify(made.problems));
          if (made.parts.some(({ stopped }) => stopped)) return;
          expectHeld(ask, 2);
          hung += 1;
        },
      ),
      { numRuns: fuzzRuns(20) },
    );
    expect(hung).toBeGreaterThan(0);
  });
});

describe('what hangs in it', () => {
  test('a box of 600 x 350 x 250 with diesel, by hand', () => {
    // 52.5 l of 0.845 kg and 17 kg of tank: 61.3625 kg, half of it on either strap.
    const value = told({ ...SHEET, ...ASK, emptyMass: 17 });
    expect(value('volume by the outside')).toBeCloseTo(52.5, 6);
    expect(value('mass of the fluid')).toBeCloseTo(44.3625, 6);
    expect(value('mass of the tank full')).toBeCloseTo(61.3625, 6);
    expect(value('of it on the left strap')).toBeCloseTo(30.68125, 6);
    expect(value('rubber under the left strap')).toBeCloseTo(850, 6);
  });

  test('a wedge: its middle lies at two thirds, by the sum of thin slices', () => {
    const ask = { ...ASK, slopeAlong: 15, slopeAcross: -3 };
    const value = told({ ...SHEET, ...ask });
    let [volume, moment] = [0, 0];
    const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);
    for (let i = 0; i < 600; i += 1)
      for (let j = 0; j < 35; j += 1) {
        const [x, y] = [i + 0.5, 10 * (j + 0.5)];
        const slice = 10 * (250 + tan(15) * x + tan(-3) * y);
        volume += slice;
        moment += slice * x;
      }
    expect(value('volume by the outside')).toBeCloseTo(volume / 1e6, 3);
    expect(value('its middle, from the left end')).toBeCloseTo(moment / volume, 2);
    const first = value('of it on the left strap');
    const second = value('of it on the right strap');
    // Turned about the left strap, the second holds the weight at its lever.
    const lever = (moment / volume - 120) / (480 - 120);
    expect(second / (first + second)).toBeCloseTo(lever, 4);
  });
});

describe('the examples', () => {
  const all = cradle.examples.map((e, i) => [i, e] as const);
  test.each(oneOfEach(all, () => 'any'))(
    '%i: every blank is folded on the built-in shop',
    async (_, { inputs }) => {
      const made = makeParts(await loadFamily('cradle'), inputs);
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      for (const { result } of made.parts) {
        expect(rulesOf({ result } as (typeof made.parts)[number], 'stop')).toEqual([]);
        expect(result.findings.map(({ rule }) => rule)).not.toContain('no-fold-order');
        expect(result.foldPlan?.steps.length, result.name).toBeGreaterThan(0);
      }
    },
  );
});

describe('figures that cannot be', () => {
  const bad = [
    ['cradle-no-depth', { depth: 20, slopeAcross: -10 }, 'depth'],
    ['cradle-strap-off-tank', { leftStrap: 15 }, 'leftStrap'],
    ['cradle-strap-off-tank', { rightStrap: 19 }, 'rightStrap'],
    ['cradle-straps-meet', { rightStrap: 450 }, 'length'],
    ['cradle-too-shallow', { depth: 10, drop: 0, pullUp: 10, beyond: 40 }, 'depth'],
    ['bolts-too-close', { boltCentres: 380 }, 'boltCentres'],
    ['foot-too-short', { beyond: 9 }, 'beyond'],
    ['strap-too-narrow', { strapWidth: 14 }, 'strapWidth'],
    ['cradle-rail-hole', { chassisHole: 45 }, 'chassisHole'],
    ['cradle-lip-covers-bolts', { rail: 'channel', railLip: 30 }, 'railLip'],
  ] as const;
  test.each(oneOfEach(bad, ([rule]) => rule))(
    '%s: the figure that works is given, and works',
    async (rule, more, input) => {
      const inputs = { ...SHEET, ...ASK, ...more };
      const [bad] = await make('cradle', inputs);
      expect(rulesOf(bad, 'stop')).toContain(rule);
      const finding = bad?.result.findings.find((f) => f.rule === rule);
      const mend = finding?.mends?.find((m) => m.input === input);
      const value = mend?.atLeast ?? mend?.atMost;
      expect(value).toBeDefined();
      expect(finding?.message).toContain(`${String(value)} or`);
      const good = await make('cradle', { ...inputs, [input]: value });
      expect(good.flatMap((part) => rulesOf(part, 'stop'))).not.toContain(rule);
    },
  );

  test.each([
    ['cradle-tips', { leftStrap: 400, rightStrap: 100 }],
    ['cradle-bolt-covered', { chassisAt: 100, chassisPitch: 450 }],
    ['strap-corner', { radius: 12, rubber: 2, boltCentres: 470 }],
  ] as const)('%s is a warning', async (rule, more) => {
    const [bad] = await make('cradle', { ...SHEET, ...ASK, ...more });
    expect(rulesOf(bad, 'warn')).toContain(rule);
    const [good] = await make('cradle', { ...SHEET, ...ASK });
    expect(rulesOf(good, 'warn')).not.toContain(rule);
  });
});
