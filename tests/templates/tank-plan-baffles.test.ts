import { describe, expect, test } from 'vitest';
import { readLines } from '../../src/forms/places.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/** Baffles of a tank by its plan that stand along lines. */

type Inputs = Readonly<Record<string, unknown>>;

/** A box of 600 x 400 x 300 inside. */
const BOX = {
  outline: '0,0; 600,0; 600,400; 0,400',
  floor: 0,
  top: 300,
  measure: 'inside',
  thickness: 2,
  radius: 3,
  longestBay: 320,
};

const made = async (inputs: Inputs) => {
  const done = madeOnce(await loadFamily('tank-plan'), { ...BOX, ...inputs }, UNPLANNED);
  if (!done.ok) throw new Error(JSON.stringify(done.problems));
  const findings = done.parts.flatMap(({ result }) => result.findings);
  return {
    baffles: done.parts.flatMap(({ result }) =>
      result.piece?.startsWith('baffle') === true ? [result] : [],
    ),
    tables: done.reports[0]?.tables ?? [],
    findings,
    stops: findings.filter(({ severity }) => severity === 'stop'),
  };
};

const DEG = Math.PI / 180;

describe('a baffle along a line', () => {
  test('is the same blank as one that stands across the plan there, whichever way the plan is turned', async () => {
    const across = (await made({})).baffles;
    expect(across).toHaveLength(1);
    const areaMm2 = across[0]?.blank?.areaMm2 ?? 0;
    for (const deg of [0, 30, 137, 251]) {
      const at = (x: number, y: number): string =>
        [
          x * Math.cos(deg * DEG) - y * Math.sin(deg * DEG),
          x * Math.sin(deg * DEG) + y * Math.cos(deg * DEG),
        ].join(',');
      const turned = await made({
        outline: [at(0, 0), at(600, 0), at(600, 400), at(0, 400)].join('; '),
        baffleLines: `${at(300, 50)} ${at(300, 350)}`,
      });
      expect(turned.stops).toEqual([]);
      expect(turned.baffles).toHaveLength(1);
      expect(turned.baffles[0]?.blank?.areaMm2).toBeCloseTo(areaMm2, 4);
      expect(turned.baffles[0]?.bends.map(({ angleDeg }) => angleDeg)).toEqual(
        across[0]?.bends.map(({ angleDeg }) => expect.closeTo(angleDeg, 6) as number),
      );
    }
  });

  test('parts the tank by the wedge that it cuts off', async () => {
    const { tables, baffles } = await made({ baffleLines: '200,0 300,400' });
    const table = tables.find(({ title }) => title.startsWith('Baffles along their lines'));
    // A trapezium of 200 and 300 over 400, 300 high, on the left of who goes up along it.
    expect(table?.rows).toEqual([[1, expect.closeTo(30, 6), expect.closeTo(42, 6)]]);
    // It meets both long sides 14 degrees off square, one under and one over.
    const off = Math.atan2(100, 400) / DEG;
    expect(baffles[0]?.bends.map(({ angleDeg }) => angleDeg).toSorted((a, b) => a - b)).toEqual(
      [90 - off, 90, 90 + off].map((deg) => expect.closeTo(deg, 6) as number),
    );
  });

  test('goes by names of points and corners of the outline', async () => {
    const named = await made({
      points: 'A-B: 600; A-C: 721.11; B-C: 400; A-B-C: left',
      outline: 'A; B; C; 0,400',
      baffleLines: 'A 350,420',
    });
    expect(named.stops[0]?.message).toContain('corner 1 of the plan');
    expect((await made({ baffleLines: '1 350,420' })).stops[0]?.rule).toBe('baffle-at-corner');
    expect((await made({ baffleLines: 'K 350,420' })).stops[0]?.rule).toBe('unknown-point');
  });

  test('leaves only its own part of a plan with two arms', async () => {
    const outline = '0,0; 600,0; 600,400; 400,400; 400,150; 200,150; 200,400; 0,400';
    const both = await made({ outline, baffleLines: '20,280 640,300' });
    expect(both.baffles.map(({ piece }) => piece)).toEqual(['baffle-1a', 'baffle-1b']);
    const one = await made({ outline, baffleLines: '20,280 180,285' });
    expect(one.baffles.map(({ piece }) => piece)).toEqual(['baffle-1']);
  });

  test('at a corner, at a step or across another is told, and the move that is told passes', async () => {
    const [corner] = (await made({ baffleLines: '585,-10 595,410' })).stops;
    const left = Number(/move it (\d+(?:\.\d+)?) to its left/.exec(corner?.message ?? '')?.[1]);
    // Square to the line, which leans 10 over 420.
    const by = left / Math.cos(Math.atan2(10, 420));
    expect((await made({ baffleLines: `${585 - by},-10 ${595 - by},410` })).stops).toEqual([]);
    const step = { floorStep: 'x 300 up 40' };
    expect((await made({ ...step, baffleLines: '290,-10 300,410' })).stops[0]?.message).toContain(
      'step 1 of floorStep',
    );
    expect((await made({ baffleLines: '200,0 400,400; 400,0 200,400' })).stops[0]?.rule).toBe(
      'baffles-meet',
    );
    expect((await made({ baffleLines: '200,0 240,400; 230,0 300,400' })).stops[0]?.message).toMatch(
      /come within 2\d/,
    );
    expect((await made({ baffleLines: '700,0 760,400' })).stops[0]?.rule).toBe('baffle-off-plan');
    expect((await made({ baffleLines: '300,200 303,204' })).stops[0]?.rule).toBe('baffle-off-plan');
  });

  test('under a fitting is told with the move that clears it', async () => {
    const warned = async (breather: string) =>
      (await made({ baffleLines: '300,0 300,400', breather })).findings.find(
        ({ rule }) => rule === 'hole-on-baffle',
      );
    const told = (await warned('302,200,10'))?.message ?? '';
    const [, left, right] =
      /move it (\S+) to the left of line 1, or (\S+) to its right/.exec(told) ?? [];
    expect([Number(left), Number(right)]).toEqual([7, 5]);
    expect(await warned('295,200,10')).toBeUndefined();
    expect(await warned('307,200,10')).toBeUndefined();
  });
});

test('lines are read by coordinates and names, in any unit', () => {
  expect(readLines('0,1in 20,30; A 5,5')).toEqual({
    ok: true,
    value: [
      [{ at: [0, expect.closeTo(25.4, 9)] }, { at: [20, 30] }],
      [{ name: 'A' }, { at: [5, 5] }],
    ],
  });
  expect(readLines('0,1 20,30; A')).toMatchObject({ ok: false });
  expect(readLines('')).toMatchObject({ ok: false, mend: 'give one line at least' });
  const many = Array.from({ length: 13 }, () => 'A B').join('; ');
  expect(readLines(many)).toMatchObject({ ok: false, mend: 'give at most 12' });
});
