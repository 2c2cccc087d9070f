import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { type Strapped, strapStands } from '../helpers/strap-stands.ts';

/**
 * A strap under a floor that slopes, folded from its blank by the witness, which shares no code with
 * what made it, and held against the box that it goes over: plain planes, worked out here.
 */
const SHEET = { material: 's235', thickness: 2, radius: 3 };
const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);

interface Ask {
  readonly across: number;
  readonly height: number;
  readonly rubber: number;
  readonly width: number;
  readonly boltCentres: number;
  readonly pullUp: number;
  readonly slopeAcross: number;
  readonly slopeAlong: number;
  readonly stepB: number;
}

const standing = async (inputs: Record<string, unknown>): Promise<Strapped> => {
  const { part, flat } = await makeOne('strap', { ...SHEET, ...inputs });
  if (part === undefined) throw new Error('no part');
  return strapStands(part, flat);
};

/** The crown lies a rubber over the box, the sides a rubber beside it, the feet on their surfaces. */
const expectHolds = (ask: Ask, s: Strapped): void => {
  const [a, b] = [tan(ask.slopeAcross), tan(ask.slopeAlong)];
  // Height of the box over the surface under foot A, whose underside is pullUp over it; y from its
  // side at A, x from the left edge of the strap.
  const roof = (x: number, y: number): number => ask.height + a * y + b * (x - ask.width / 2);
  for (const [x, y, z] of s.crownInside) {
    const over = z + ask.pullUp - roof(x, y - ask.rubber);
    expect(over / Math.hypot(1, a, b)).toBeCloseTo(ask.rubber, 6);
    // Its ends are square to the sheet, so that the inside is shifted by as much as 2 mm lean.
    expect(x).toBeGreaterThan(-2 * Math.abs(b) - 1e-6);
    expect(x).toBeLessThan(ask.width + 2 * Math.abs(b) + 1e-6);
  }
  for (const [, y] of s.sideInside.A) expect(y).toBeCloseTo(0, 6);
  for (const [, y] of s.sideInside.B) expect(y).toBeCloseTo(ask.across + 2 * ask.rubber, 6);
  for (const [, , z] of s.under.A) expect(z).toBeCloseTo(0, 6);
  for (const [, , z] of s.under.B) expect(z).toBeCloseTo(ask.stepB, 6);
  const [one, other] = [s.bolt.A, s.bolt.B];
  expect(other[1] - one[1]).toBeCloseTo(ask.boltCentres, 6);
  for (const bolt of [one, other]) expect(bolt[0]).toBeCloseTo(ask.width / 2, 6);
  // The sides are plumb: their edges stand over those of the feet.
  for (const [x] of [...s.sideInside.A, ...s.sideInside.B])
    expect(Math.min(Math.abs(x), Math.abs(x - ask.width))).toBeLessThan(1e-6);
};

const ASK: Ask = {
  across: 200,
  height: 150,
  rubber: 3,
  width: 40,
  boltCentres: 280,
  pullUp: 3,
  slopeAcross: 0,
  slopeAlong: 0,
  stepB: 0,
};

describe('a strap over a box that slopes holds it all over', () => {
  test.each<Partial<Ask>>([
    { slopeAcross: 8 },
    { slopeAcross: -8, stepB: 25 },
    { slopeAlong: 6 },
    { slopeAlong: -6, stepB: -30 },
    { slopeAcross: 12, slopeAlong: 7, stepB: 10 },
    { slopeAcross: -30, slopeAlong: 20, pullUp: 0 },
    { stepB: 40 },
  ])('%o', async (more) => {
    const ask = { ...ASK, ...more };
    expectHolds(ask, await standing({ ...ask }));
  });

  test('any slopes, steps and rubber', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.record({
          across: fc.integer({ min: 120, max: 500 }),
          height: fc.integer({ min: 150, max: 400 }),
          rubber: fc.integer({ min: 0, max: 8 }),
          width: fc.integer({ min: 20, max: 80 }),
          pullUp: fc.integer({ min: 0, max: 5 }),
          slopeAcross: fc.double({ min: -15, max: 15, noNaN: true }),
          slopeAlong: fc.double({ min: -25, max: 25, noNaN: true }),
          stepB: fc.integer({ min: -30, max: 30 }),
        }),
        async (random) => {
          const ask: Ask = { ...random, boltCentres: random.across + 2 * random.rubber + 70 };
          const [part] = await make('strap', { ...SHEET, ...ask });
          const stops = rulesOf(part, 'stop');
          if (stops.length > 0) expect(stops).toEqual(['strap-too-low']);
          else expectHolds(ask, await standing({ ...ask }));
        },
      ),
      { numRuns: fuzzRuns(40) },
    );
  });

  test('the other hand leans the other way', async () => {
    const inputs = { ...ASK, slopeAcross: 5, slopeAlong: 8 };
    const right = await standing({ ...inputs, hand: 'right' });
    expectHolds({ ...inputs, slopeAlong: -8 }, right);
  });
});

test('two heights by tape are the same as the angle between them, byte for byte', async () => {
  // tan(s) = 30 / 200, with foot B standing 12 higher: by hand.
  const slopeAcross = (Math.atan(30 / 200) * 180) / Math.PI;
  const inputs = { ...SHEET, ...ASK, stepB: 12 };
  const [tape, finder] = await Promise.all(
    [{ heightB: 150 + 30 - 12, slopeAcross: 0 }, { slopeAcross }].map(async (by) =>
      (await makeOne('strap', { ...inputs, ...by })).files().map(({ contents }) => contents),
    ),
  );
  expect(tape?.[0]).toBe(finder?.[0]);
});

test('blank by hand: 10 degrees across, no rubber, no pull-up, K 0.42', async () => {
  const { blank } = await makeOne('strap', {
    ...SHEET,
    radius: 2,
    rule: 'k:0.42',
    ...ASK,
    rubber: 0,
    pullUp: 0,
    slopeAcross: 10,
    beyond: 15,
  });
  // Outside faces meet a thickness out: side A at 150 + 2 / cos 10 - 2 tan 10 = 151.6782, side B at
  // 150 + 2 / cos 10 + 202 tan 10 = 187.6489, crown 204 / cos 10 = 207.1470, feet 40 + 15. Of every
  // bend 2 s - BA is lost: s = 4 tan(A/2), BA = A (2 + 0.84); past square s to where faces meet too.
  const bend = (deg: number): number =>
    8 * Math.tan((deg * Math.PI) / 360) - (deg * Math.PI * 2.84) / 180;
  const legs = 2 * 55 + 151.6782 + 187.6489 + 207.147;
  expect(blank.heightMm).toBeCloseTo(legs - 2 * bend(90) - bend(80) - bend(100), 3);
  expect(blank.widthMm).toBeCloseTo(40, 6);
});

describe('figures that cannot be', () => {
  test('an angle and a second height are too much', async () => {
    const [part] = await make('strap', { ...SHEET, ...ASK, slopeAcross: 5, heightB: 170 });
    expect(rulesOf(part, 'stop')).toEqual(['strap-slope-twice']);
    // atan((170 - 150) / 200) = 5.71 degrees.
    expect(part?.result.findings[0]?.message).toContain('which makes 5.7 degrees');
  });

  test('a second height that is a slip is told with those that would pass', async () => {
    const [part] = await make('strap', { ...SHEET, ...ASK, heightB: 1510 });
    expect(rulesOf(part, 'stop')).toEqual(['strap-too-steep']);
    expect(part?.result.findings[0]?.message).toContain('give 1 to 350');
  });

  test.each([
    ['height', { slopeAcross: -20, stepB: -40 }],
    ['height', { slopeAlong: 30, width: 100 }],
  ])('too low a %s is told with the least that works', async (input, more) => {
    const inputs = { ...SHEET, ...ASK, ...more, [input]: 20 };
    const [part] = await make('strap', inputs);
    expect(rulesOf(part, 'stop')).toEqual(['strap-too-low']);
    const finding = part?.result.findings.find((f) => f.rule === 'strap-too-low');
    const least = finding?.mends?.find((m) => m.input === input)?.atLeast ?? NaN;
    expect(rulesOf((await make('strap', { ...inputs, [input]: least }))[0], 'stop')).toEqual([]);
    expect(rulesOf((await make('strap', { ...inputs, [input]: least - 0.02 }))[0], 'stop')).toEqual(
      ['strap-too-low'],
    );
  });
});
