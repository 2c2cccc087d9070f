import { describe, expect, test } from 'vitest';
import { readInputs } from '../../src/forms/read.ts';
import { loadFamily } from '../helpers/check-template.ts';

/** What a sender shows over its stroke, a stick's and an arm's. */

type Inputs = Readonly<Record<string, unknown>>;

/** A box of 600 x 400 x 300 inside: a litre on every 1/0.24 mm. */
const BOX = {
  outline: '0,0; 600,0; 600,400; 0,400',
  floor: 0,
  top: 300,
  measure: 'inside',
  thickness: 2,
  longestBay: 600,
  sender: '300,200,54',
};

const LITRES_A_MM = 0.24;

/** An arm of 200 whose pivot hangs 100 below the top, from 45 degrees below the level to 15 over it. */
const ARM = { senderKind: 'arm', senderArm: 200, senderPivot: 100, senderDown: 45, senderUp: 15 };

const said = async (inputs: Inputs) => {
  const family = await loadFamily('tank-plan');
  const read = readInputs(family, { ...BOX, ...inputs });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { report, findings = [] } = family.build(read.values);
  return {
    figures: new Map(report?.figures.map(({ name, value }) => [name, value])),
    shows: report?.tables?.find(({ title }) => title.startsWith('What the sender shows')),
    stop: findings.find(({ severity }) => severity === 'stop'),
    findings,
  };
};

const sin = (deg: number): number => Math.sin((deg * Math.PI) / 180);

describe('an arm', () => {
  test('reads empty and full where its float is, with what is in the tank then', async () => {
    const { figures, shows, stop } = await said({ ...ARM, ohmsEmpty: 10, ohmsFull: 180 });
    expect(stop).toBeUndefined();
    const [empty, full] = [200 - 200 * sin(45), 200 + 200 * sin(15)];
    expect(figures.get('left when the sender reads empty')).toBeCloseTo(LITRES_A_MM * empty, 9);
    expect(figures.get('left when the sender reads full')).toBeCloseTo(LITRES_A_MM * full, 9);
    expect(figures.get('stroke of the sender')).toBeCloseTo(full - empty, 9);
    expect(figures.has('length of the sender')).toBe(false);
    // Half of its angle is 15 degrees below the level, at half of its ohms.
    expect(shows?.rows[4]?.slice(0, 4)).toEqual(
      [50, 95, 100 + 200 * sin(15), LITRES_A_MM * (200 - 200 * sin(15))].map(
        (n) => expect.closeTo(n, 6) as number,
      ),
    );
    expect(shows?.rows[0]?.[3]).toBeCloseTo(LITRES_A_MM * empty, 9);
    expect(shows?.rows.at(-1)?.[1]).toBe(180);
  });

  test('that misses the reserve is told with the pivot that leaves it', async () => {
    const { figures, findings } = await said({ ...ARM, reserve: 12 });
    // 12 l stand 50 high.
    const pivot = 250 - 200 * sin(45);
    expect(figures.get('depth of the pivot for the reserve')).toBeCloseTo(pivot, 6);
    const missed = findings.find(({ rule }) => rule === 'reserve-missed');
    expect(missed?.mends).toEqual([{ input: 'senderPivot', value: Number(pivot.toFixed(1)) }]);
    const again = await said({ ...ARM, reserve: 12, senderPivot: pivot });
    expect(again.findings.some(({ rule }) => rule === 'reserve-missed')).toBe(false);
    expect(again.figures.get('left when the sender reads empty')).toBeCloseTo(12, 6);
  });

  test('swings free of floor, top, sides and baffles, or is told what passes', async () => {
    // Its float hangs 20 and a foot of 10 over the floor at most 270 down.
    const deep = (await said({ ...ARM, senderPivot: 140 })).stop;
    const most = 270 - 200 * sin(45);
    expect(deep?.mends).toEqual([
      { input: 'senderPivot', atMost: expect.closeTo(most, 1) as number },
    ]);
    expect((await said({ ...ARM, senderPivot: most - 0.01 })).stop).toBeUndefined();
    const high = (await said({ ...ARM, senderPivot: 60 })).stop;
    expect(high?.mends).toEqual([
      { input: 'senderPivot', atLeast: expect.closeTo(20 + 200 * sin(15), 1) as number },
    ]);
    // 200 out from y 200 its float meets the side at 400; along x it does not, until that is near.
    expect((await said({ ...ARM, senderTurn: 90 })).stop?.message).toContain('a side');
    expect((await said({ ...ARM, senderTurn: 180 })).stop).toBeUndefined();
    expect((await said({ ...ARM, sender: '390,200,54' })).stop?.message).toContain('a side');
    const baffled = { ...ARM, baffleLines: '380,0 380,400' };
    expect((await said(baffled)).stop?.message).toContain('a baffle');
    expect((await said({ ...baffled, senderTurn: 180 })).stop).toBeUndefined();
    expect((await said({ ...ARM, senderUp: 0, senderDown: 0 })).stop?.rule).toBe(
      'sender-arm-fouls',
    );
  });
});

test('a stick goes by its stroke, and by its ohms as they fall', async () => {
  const { shows } = await said({ senderLength: 270, ohmsEmpty: 240, ohmsFull: 33 });
  // From 20 over its end, 50 over the floor, to 30 below the top.
  expect(shows?.rows[0]).toEqual([0, 240, 250, 12, expect.closeTo((100 * 12) / 68.4, 6)]);
  expect(shows?.rows[8]?.slice(0, 4)).toEqual([100, 33, 30, expect.closeTo(64.8, 9)]);
  expect(shows?.rows[2]?.slice(0, 4)).toEqual(
    [25, 240 - 207 / 4, 195, 105 * LITRES_A_MM].map((n) => expect.closeTo(n, 9) as number),
  );
  expect((await said({ senderLength: 270 })).shows).toBeUndefined();
});
