import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { weldsOf } from '../../src/assembly/weld-seams.ts';
import { setsOf } from '../../src/use/assembly/assembled.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { leftOfPair } from '../helpers/left-of-pair.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { anyRoom, inputsOfRoom } from '../helpers/tank-room.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/** Tanks whose floor and top have edges of their own folded, or tabs to hold them. */

type Inputs = Readonly<Record<string, unknown>>;

/** A box of 600 x 400 x 300 outside. */
const BOX = {
  outline: '0,0; 600,0; 600,400; 0,400',
  floor: 0,
  top: 300,
  thickness: 2,
  radius: 3,
  cornerGap: 0.5,
  leastSlot: 4,
  longestBay: 600,
};

const made = async (inputs: Inputs) => {
  const done = madeOnce(await loadFamily('tank-plan'), { ...BOX, ...inputs }, UNPLANNED);
  if (!done.ok) throw new Error(JSON.stringify(done.problems));
  const findings = done.parts.flatMap(({ result }) => result.findings);
  const [set] = setsOf(done.parts);
  return {
    part: (piece: string) => done.parts.find(({ result }) => result.piece === piece),
    litres: done.reports[0]?.figures.find(({ name }) => name === 'gross volume')?.value,
    welds: set === undefined ? [] : weldsOf(set.assembly),
    findings,
    rules: findings.map(({ rule }) => rule),
    stops: findings.filter(({ severity }) => severity === 'stop'),
  };
};

describe('the edges of floor and top', () => {
  test('lapped over the sides take a sheet and a gap of the room all round', async () => {
    const { litres, stops, part } = await made({ topSeam: 'lapped', seamFlange: 25 });
    expect(stops).toEqual([]);
    // Outside the flanges it is what was measured; the sides stand 2 and 0.5 within that.
    expect(litres).toBeCloseTo((591 * 391 * 296) / 1e6, 9);
    const top = part('top')?.result;
    expect(top?.bends).toHaveLength(4);
    expect(top?.bends.every(({ direction }) => direction === 'down')).toBe(true);
  });

  test('flanged stand out beyond the liquid, and the sides with them', async () => {
    const { litres, part } = await made({ topSeam: 'flanged', floorSeam: 'flanged' });
    expect(litres).toBeCloseTo((596 * 396 * 260) / 1e6, 9);
    expect(part('top')?.result.bends.map(({ direction }) => direction)).toContain('up');
    // The sides are as high as what was measured.
    const wrap = part('wrap')?.result.blank;
    expect(Math.min(wrap?.widthMm ?? 0, wrap?.heightMm ?? 0)).toBeCloseTo(300, 6);
  });

  test('are told apart in the weld list, along every side, with the gap between them', async () => {
    for (const [topSeam, kind] of [
      ['lapped', 'flange'],
      ['flanged', 'edge'],
    ]) {
      const { welds } = await made({ topSeam });
      const weld = welds.find((w) => w.pieces.includes('top') && w.kind === kind);
      expect(weld?.runs).toHaveLength(4);
      expect(weld?.lengthMm).toBeGreaterThan(1900);
      for (const gap of weld?.gapMm ?? []) expect(gap).toBeCloseTo(0.5, 6);
    }
  });

  test('cannot be folded at a corner that points inwards, over a step, or where nothing is left', async () => {
    const notch = '0,0; 600,0; 600,400; 300,400; 300,250; 0,250';
    const stopsOf = async (inputs: Inputs) => (await made(inputs)).stops;
    const [inwards] = await stopsOf({ topSeam: 'lapped', outline: notch });
    expect([inwards?.rule, inwards?.mends]).toEqual([
      'seam-corner-inwards',
      [{ input: 'topSeam', value: 'edge' }],
    ]);
    const [stepped] = await stopsOf({ floorSeam: 'flanged', floorStep: 'x 250 up 45' });
    expect(stepped?.rule).toBe('seam-floor-stepped');
    const [bend] = await stopsOf({ topSeam: 'lapped', seamFlange: 6 });
    expect(bend?.mends).toEqual([{ input: 'seamFlange', atLeast: 7 }]);
    expect(await stopsOf({ topSeam: 'lapped', seamFlange: 7 })).toEqual([]);
    const both = { topSeam: 'lapped', floorSeam: 'lapped', top: 120 };
    const [meet] = await stopsOf({ ...both, seamFlange: 80 });
    // 116 inside, of which 10 stay free between two flanges of 53 beyond the face of the plate.
    expect(meet?.mends).toEqual([{ input: 'seamFlange', atMost: 55 }]);
    expect(await stopsOf({ ...both, seamFlange: 55 })).toEqual([]);
    // A pipe that a flange lies over leads nowhere.
    const [covered] = await stopsOf({ topSeam: 'lapped', link: '100,285,20' });
    expect(covered?.rule).toBe('hole-meets-wall');
  });
});

describe('tabs', () => {
  test('are teeth as long as the plate is thick and the gap wide, in slots or in notches', async () => {
    const bare = await made({ blanks: 'plates' });
    const { part, rules, welds } = await made({ blanks: 'plates', tabs: 2, tabWidth: 24 });
    expect(rules).toContain('tab-clearance');
    const high = (of: typeof bare): number => of.part('side-1')?.result.blank?.heightMm ?? 0;
    expect(high({ ...bare, part }) - high(bare)).toBeCloseTo(2 * (2 + 0.5), 6);
    // Half of the sheet lies over the sides: the slots run out of the edge.
    expect(part('top')?.result.blank?.holes).toEqual([]);
    expect(part('top')?.result.blank?.areaMm2).toBeLessThan(
      bare.part('top')?.result.blank?.areaMm2 ?? 0,
    );
    const over = await made({ blanks: 'plates', tabs: 2, tabWidth: 24, setback: -10 });
    expect(over.part('top')?.result.blank?.holes).toHaveLength(8);
    // What is welded is as long as before, but for the sides of the teeth.
    const along = (all: typeof welds): number =>
      all.reduce((sum, { pieces, lengthMm }) => sum + (pieces.includes('top') ? lengthMm : 0), 0);
    expect(Math.abs(along(welds) - along(bare.welds))).toBeLessThan(16 * (4 + 1));
  });

  test('that have no room are fewer, and too narrow ones are refused with the width that passes', async () => {
    // Of 396 inside six have 66 each: of seven the first relief would reach into the bend of 3.
    const { findings } = await made({ tabs: 9, tabWidth: 40 });
    expect(findings.find(({ rule }) => rule === 'tabs-fewer')?.message).toContain(
      'side 2 at top: 6',
    );
    const { stops } = await made({ tabs: 2, tabWidth: 10 });
    expect(stops[0]?.mends).toEqual([{ input: 'tabWidth', atLeast: 12 }]);
    expect((await made({ tabs: 2, tabWidth: 12 })).stops).toEqual([]);
  });
});

test('any room closes with its edges folded, or held by tabs, alike in both hands', async () => {
  const family = await loadFamily('tank-plan');
  fc.assert(
    fc.property(
      anyRoom.filter(({ corners }) => corners.length < 6),
      fc.constantFrom('wrap', 'halves', 'plates'),
      fc.constantFrom('inside', 'outside'),
      fc.constantFrom('edge', 'flanged', 'lapped'),
      fc.constantFrom('edge', 'flanged', 'lapped'),
      (room, blanks, measure, floorSeam, topSeam) => {
        const hasTabs = floorSeam === 'edge' || topSeam === 'edge';
        const hasFlanges = floorSeam !== 'edge' || topSeam !== 'edge';
        const done = makeParts(
          family,
          {
            ...inputsOfRoom(room),
            ...(hasTabs && { tabs: 2 }),
            ...(hasFlanges && { seamFlange: 18 }),
            longestBay: 1000,
            hand: 'both',
            cornerGap: 0.6,
            radius: 2,
            thickness: 2,
            blanks,
            measure,
            floorSeam,
            topSeam,
          },
          UNPLANNED,
        );
        const set = leftOfPair(done);
        const welds = weldsOf(set.assembly);
        for (const plate of ['floor', 'top']) {
          const seam = plate === 'floor' ? floorSeam : topSeam;
          if (seam === 'edge') continue;
          const kind = seam === 'lapped' ? 'flange' : 'edge';
          const runs = welds
            .filter((w) => w.pieces.includes(plate) && w.pieces[0] !== w.pieces[1])
            .filter((w) => w.kind === kind)
            .flatMap((w) => w.runs);
          expect(runs).toHaveLength(room.corners.length);
          for (const { gapMm } of runs) expect(gapMm).toBeCloseTo(0.6, 3);
        }
      },
    ),
    { numRuns: fuzzRuns(40, 12) },
  );
});
