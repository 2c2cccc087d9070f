import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { weldsOf } from '../../src/assembly/weld-seams.ts';
import { setsOf } from '../../src/use/assembly/assembled.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily, make } from '../helpers/check-template.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { leftOfPair } from '../helpers/left-of-pair.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { anySteppedRoom, inputsOfRoom } from '../helpers/tank-room.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/** Tanks whose floor has steps. */

type Inputs = Readonly<Record<string, unknown>>;

/** A box of 600 x 400 x 300 inside, with a cross member of 100 x 40 below it, from x 250 to 350. */
const BOX = {
  outline: '0,0; 600,0; 600,400; 0,400',
  floor: 0,
  top: 300,
  floorStep: 'x 250 up 40; x 350 down 40',
  measure: 'inside',
  thickness: 2,
  radius: 3,
  breather: '500,60,10',
  longestBay: 600,
};

const made = async (inputs: Inputs) => {
  const done = madeOnce(await loadFamily('tank-plan'), { ...BOX, ...inputs }, UNPLANNED);
  if (!done.ok) throw new Error(JSON.stringify(done.problems));
  const findings = done.parts.flatMap(({ result }) => result.findings);
  return {
    parts: done.parts,
    report: done.reports[0],
    figures: new Map(done.reports[0]?.figures.map(({ name, value }) => [name, value])),
    findings,
    stops: findings.filter(({ severity }) => severity === 'stop').map(({ rule }) => rule),
  };
};

describe('a box over a cross member', () => {
  test('holds what is left beside and above it, and dips by the litre', async () => {
    const { figures, report } = await made({ filler: '100,200,60' });
    expect(figures.get('gross volume')).toBeCloseTo(72 - 1.6, 9);
    const dip = report?.tables.find(({ title }) => title.startsWith('Dip at filler 1'));
    // Below the step 500 x 400 a millimetre, above it 600 x 400: 8 l stand at 40.
    expect(dip?.rows[3]?.[1]).toBeCloseTo(20, 6);
    expect(dip?.rows[7]?.[1]).toBeCloseTo(40, 6);
    expect(dip?.rows[19]?.[1]).toBeCloseTo(40 + 12e6 / 240_000, 6);
    const above = await made({ filler: '300,200,60' });
    const dry = above.report?.tables.find(({ title }) => title.startsWith('Dip at filler 1'));
    expect([dry?.rows[7]?.[1], dry?.rows[19]?.[1]]).toEqual([
      expect.closeTo(0, 6),
      expect.closeTo(50, 6),
    ]);
  });

  test('measured outside, sheet and air are left on both sides of the member and above it', async () => {
    const { figures } = await made({ measure: 'outside', clearance: 3 });
    const gross = 590 * 390 * 290 - 110 * 390 * 40;
    expect(figures.get('gross volume')).toBeCloseTo(gross / 1e6, 9);
  });

  test('keeps behind the step what does not run over, and says so', async () => {
    const { figures, findings } = await made({ pickup: '60,200,14', pickupEnd: 10 });
    // 10 on 250 x 400 before it, 40 on as much behind.
    expect(figures.get('left below the pick-up')).toBeCloseTo(1 + 4, 9);
    expect(figures.get('drawable volume')).toBeCloseTo(0.95 * 70.4 - 5, 9);
    const parted = findings.find(({ rule }) => rule === 'floor-parts-tank');
    expect(parted?.message).toContain('3 l more stay on the other');
    // A pick-up on either side leaves nothing there but what is below its own end.
    const both = await made({ pickup: '60,200,14; 540,200,14', pickupEnd: 10 });
    expect(both.figures.get('left below the pick-up')).toBeCloseTo(2, 9);
    expect(both.findings.map(({ rule }) => rule)).not.toContain('floor-parts-tank');
    const falling = { pickup: '60,200,14', floorStep: 'x 250 up 40' };
    expect((await made(falling)).findings.map(({ rule }) => rule)).not.toContain(
      'floor-parts-tank',
    );
  });

  test('leans: what lies below the tilted surface, by the wedge', async () => {
    const asked = { pickup: '560,200,14', pickupEnd: 20, tilt: 10, floorStep: 'x 300 down 40' };
    const { report } = await made(asked);
    const left = report?.tables.find(({ title }) => title.startsWith('Left below pick-up'));
    // Right goes down: the surface runs through 20 over the lower floor at 560, 20 and 40 tan 10 at
    // the right end, and down to the floor at 560 - 20 / tan 10.
    const tan = Math.tan(Math.PI / 18);
    const high = 20 + 40 * tan;
    expect(left?.rows[0]?.[2]).toBeCloseTo((400 * high * (high / tan)) / 2 / 1e6, 9);
  });
});

describe('pools over a step', () => {
  const tan = Math.tan(Math.PI / 18);
  const leftOf = async (inputs: Inputs) =>
    (await made(inputs)).report?.tables.find(({ title }) => title.startsWith('Left below pick-up'))
      ?.rows[0];

  test('stay when the tank leans away from the pick-up, as much as does not run back over the member', async () => {
    const row = await leftOf({ pickup: '60,200,14', pickupEnd: 10, tilt: 10 });
    // Left goes down: a wedge 10 + 60 tan high at the left end, and behind the member, whose far edge is
    // 40 high at 350, one that falls away to the right.
    const near = 10 + 60 * tan;
    const pool = (40 * 40) / tan / 2;
    expect(row?.[1]).toBeCloseTo(((near * near) / tan / 2 + pool) * 400e-6, 6);
    // Right goes down: the surface through the pick-up's end lies over the member, and nothing is kept.
    const at = (x: number): number => 10 + (x - 60) * tan;
    const under = (from: number, to: number, floor: number): number =>
      ((at(from) + at(to)) / 2 - floor) * (to - from);
    const dry = 60 - 10 / tan;
    const right = under(dry, 250, 0) + under(250, 350, 40) + under(350, 600, 0);
    expect(row?.[2]).toBeCloseTo(right * 400e-6, 6);
  });

  test('stay on a floor that falls away from its one step', async () => {
    const falling = {
      floor: '1: 0; 2: -20; 4: 0',
      floorStep: 'x 300 up 60',
      pickup: '250,200,14',
      pickupEnd: 10,
    };
    const { figures, findings } = await made(falling);
    // Below the pick-up's end 1.67 and 11.67 deep over 300; over the step 10 deep at its far end.
    const below = ((10 - 250 / 30 + (10 + 50 / 30)) / 2) * 300 * 400e-6;
    expect(figures.get('left below the pick-up')).toBeCloseTo(below + 0.6, 6);
    const told = findings.find(({ rule }) => rule === 'floor-parts-tank')?.message;
    expect(told).toContain('falls away from its step');
    expect(told).toContain('0.6 l more');
  });

  test('stay in the other tank of a pair too, where they do not run to its pipe', async () => {
    const linked = { pickup: '60,200,14', pickupEnd: 10, link: '80,25,20', pair: true };
    const { figures } = await made(linked);
    // The pipe begins at 15: so much on 250 x 400 before the member, and 40 as high as that behind it.
    expect(figures.get('left in the other tank')).toBeCloseTo(1.5 + 4, 9);
    expect(figures.get('drawable volume')).toBeCloseTo(2 * 0.95 * 70.4 - 5 - 5.5, 9);
    // Over a pipe above the member nothing is kept but what lies below that.
    const high = await made({ ...linked, link: '80,60,20' });
    expect(high.figures.get('left in the other tank')).toBeCloseTo(
      500 * 400 * 40e-6 + 240_000 * 10e-6,
      9,
    );
  });
});

describe('the blanks', () => {
  test('floor of five panels and four folds, sides cut to it, welded as wide as was asked', async () => {
    const { parts, stops } = await made({ blanks: 'wrap', cornerGap: 0.6 });
    expect(stops).toEqual([]);
    const floor = parts.find(({ result }) => result.piece === 'floor')?.result;
    expect(floor?.bends.map(({ angleDeg }) => angleDeg)).toEqual([90, 90, 90, 90]);
    expect(floor?.bends.map(({ direction }) => direction)).toEqual(['up', 'down', 'down', 'up']);
    const [set] = setsOf(parts);
    if (set === undefined) throw new Error('no set');
    const welds = weldsOf(set.assembly);
    expect(welds.flatMap(({ gapMm }) => gapMm).every((g) => Math.abs(g - 0.6) < 1e-6)).toBe(true);
    // All round the floor, up and down both steps on both sides: less at corners and bends alone.
    const foot = welds.filter(({ pieces }) => pieces.includes('floor'));
    const length = foot.reduce((sum, weld) => sum + weld.lengthMm, 0);
    expect(length).toBeLessThan(2 * 1000 + 4 * 40);
    expect(length).toBeGreaterThan(2 * 1000 + 4 * 40 - 4 * 10 - 8 * 12);
  });

  test('a baffle that runs over the step is cut round it, with a flange on each floor', async () => {
    const { parts, stops } = await made({ bafflesAcross: 'y', longestBay: 250 });
    expect(stops).toEqual([]);
    const baffle = parts.find(({ result }) => result.piece === 'baffle-1')?.result;
    // Three floors and two sides.
    expect(baffle?.bends).toHaveLength(5);
    const [set] = setsOf(parts);
    if (set === undefined) throw new Error('no set');
    for (const { pieces, gapMm } of weldsOf(set.assembly))
      if (pieces.includes('baffle-1')) for (const g of gapMm) expect(g).toBeCloseTo(1, 6);
  });

  test('a baffle that would stand on a step stands beside it', async () => {
    const { parts, report, stops } = await made({ floorStep: 'x 300 up 40', longestBay: 320 });
    expect(stops).toEqual([]);
    expect(parts.some(({ result }) => result.piece === 'baffle-1')).toBe(true);
    const bays = report?.tables.find(({ title }) => title.startsWith('Bays along x'));
    expect(Math.abs((bays?.rows[1]?.[1] ?? 0) - 300)).toBeGreaterThan(8);
    const held = (bays?.rows ?? []).reduce((sum, row) => sum + (row[3] ?? 0), 0);
    expect(held).toBeGreaterThan(0.98 * (72 - 300 * 400 * 40e-6));
  });

  test('a drain is cut into the floor below it, and not into a step', async () => {
    const { parts } = await made({ drain: '500,200,20' });
    const floor = parts.find(({ result }) => result.piece === 'floor')?.result;
    expect(floor?.blank?.holes.map(({ size }) => size)).toEqual(['Ø20']);
    expect((await made({ drain: '355,200,20' })).stops).toEqual(['hole-meets-wall']);
  });

  test('in any stepped room they are whole, alike in both hands, and no weld is narrower than asked', async () => {
    const family = await loadFamily('tank-plan');
    fc.assert(
      fc.property(
        anySteppedRoom,
        fc.constantFrom('wrap', 'halves', 'plates'),
        fc.constantFrom('folded', 'pieces'),
        fc.constantFrom(1, 2),
        (room, blanks, floorBlanks, thickness) => {
          const done = makeParts(
            family,
            {
              ...inputsOfRoom(room),
              floorStep: room.steps
                .map(
                  ({ axis, atMm, upMm }) =>
                    `${axis} ${atMm} ${upMm > 0 ? 'up' : 'down'} ${Math.abs(upMm)}`,
                )
                .join('; '),
              hand: 'both',
              cornerGap: 0.6,
              radius: 2,
              openPercent: 5,
              measure: 'inside',
              blanks,
              floorBlanks,
              thickness,
            },
            UNPLANNED,
          );
          const set = leftOfPair(done);
          for (const { pieces, gapMm } of weldsOf(set.assembly))
            for (const gap of gapMm) {
              const isBaffle = pieces.some((id) => id.startsWith('baffle'));
              expect(gap).toBeGreaterThan((isBaffle ? 1 : 0.6) - 1e-6);
              expect(gap).toBeLessThan((isBaffle ? 1 : 0.6) + thickness * 0.6);
            }
        },
      ),
      { numRuns: fuzzRuns(24, 10) },
    );
  });
});

describe('a stepped floor in pieces', () => {
  test('is flat blanks, welded to each other, to the sides and to the baffles as wide as was asked', async () => {
    const folded = await made({ blanks: 'wrap' });
    const { parts, stops, figures, report } = await made({
      blanks: 'wrap',
      floorBlanks: 'pieces',
      cornerGap: 0.6,
    });
    expect(stops).toEqual([]);
    const floor = parts.filter(({ result }) => /^(floor|riser)/.test(result.piece ?? ''));
    expect(floor.map(({ result }) => [result.piece, result.bends.length])).toEqual([
      ['floor', 0],
      ['riser-1', 0],
      ['floor-2', 0],
      ['riser-2', 0],
      ['floor-3', 0],
    ]);
    // Steps stand between the floors: 40 high less a floor and two gaps, and both plates at the head
    // stand back half of the sheet from their faces.
    const blank = (piece: string) =>
      parts.find(({ result }) => result.piece === piece)?.result.blank;
    const [wide, high] = [blank('riser-1')?.widthMm, blank('riser-1')?.heightMm].toSorted(
      (a, b) => (b ?? 0) - (a ?? 0),
    );
    expect(high).toBeCloseTo(40 - 2 - 2 * 0.6, 6);
    // Over the edges of both sides, as far back as the floor.
    expect(wide).toBeCloseTo(400 + 2 * (2 - 1), 6);
    expect(Math.min(blank('floor-2')?.widthMm ?? 0, blank('floor-2')?.heightMm ?? 0)).toBeCloseTo(
      100 - 2 * 1,
      6,
    );
    expect(figures.get('gross volume')).toBeCloseTo(folded.figures.get('gross volume') ?? 0, 9);
    expect(report?.tables).toEqual(folded.report?.tables);
    const [set] = setsOf(parts);
    if (set === undefined) throw new Error('no set');
    const welds = weldsOf(set.assembly);
    for (const gap of welds.flatMap(({ gapMm }) => gapMm)) expect(gap).toBeCloseTo(0.6, 6);
    const between = welds.filter(
      ({ pieces }) =>
        pieces.some((id) => id.startsWith('riser')) && pieces.some((id) => id.startsWith('floor')),
    );
    expect(between.map(({ pieces }) => pieces.join(' '))).toEqual([
      'floor riser-1',
      'riser-1 floor-2',
      'floor-2 riser-2',
      'riser-2 floor-3',
    ]);
    for (const { lengthMm } of between) expect(lengthMm).toBeGreaterThan(380);
  });

  test('is what auto takes where the shop cannot fold the steps, and says so', async () => {
    const family = await loadFamily('tank-plan');
    const chosen = (inputs: Inputs) => {
      const done = makeParts(family, {
        ...BOX,
        blanks: 'plates',
        floorStep: 'x 250 up 45',
        ...inputs,
      });
      if (!done.ok) throw new Error(JSON.stringify(done.problems));
      return {
        pieces: done.parts.map(({ result }) => result.piece),
        note: done.parts[0]?.result.findings.find(({ rule }) => rule === 'chosen-by-machine')
          ?.message,
        isFolded: done.parts.every(({ result }) => result.foldPlan?.feasible !== false),
      };
    };
    const { pieces, note, isFolded } = chosen({});
    expect(note).toContain('floorBlanks pieces was taken for auto');
    expect(pieces).toContain('riser-1');
    expect(isFolded).toBe(true);
    expect(chosen({ floorBlanks: 'folded' }).pieces).not.toContain('riser-1');
  });
});

describe('a step that cannot be made is told with the figure that can', () => {
  const told = async (inputs: Inputs, rule: string): Promise<string> => {
    const [part] = await make('tank-plan', { ...BOX, ...inputs });
    const finding = part?.result.findings.find((each) => each.rule === rule);
    return finding?.message ?? '';
  };
  const passes = async (inputs: Inputs) => expect((await made(inputs)).stops).toEqual([]);

  test('too low for its bends', async () => {
    // Bends of 3 and 3 + 2, a thickness, and two gaps of the default.
    const message = await told({ floorStep: 'x 250 up 8' }, 'step-too-low');
    const least = /give (\d+(?:\.\d+)?) or more/.exec(message)?.[1];
    expect(Number(least)).toBeGreaterThan(10 - 1e-9);
    await passes({ floorStep: `x 250 up ${least ?? ''}` });
  });

  test('at a corner of the plan, or beside it', async () => {
    const message = await told({ floorStep: 'x 595 up 40' }, 'step-at-corner');
    const place = /give it at (\d+(?:\.\d+)?)/.exec(message)?.[1];
    expect(Number(place)).toBeLessThan(595);
    expect(Number(place)).toBeGreaterThan(570);
    await passes({ floorStep: `x ${place ?? ''} up 40` });
    expect(await told({ floorStep: 'x 700 up 40' }, 'step-off-plan')).toContain('from 0 to 600');
  });

  test('two that leave nothing between, in a channel and on a ridge', async () => {
    for (const [one, other] of [
      ['up', 'down'],
      ['down', 'up'],
    ]) {
      const message = await told(
        { floorStep: `x 250 ${one} 40; x 255 ${other} 40` },
        'steps-too-near',
      );
      const place = /give it at (\d+(?:\.\d+)?)/.exec(message)?.[1];
      expect(Number(place)).toBeGreaterThan(255);
      await passes({ floorStep: `x 250 ${one} 40; x ${place ?? ''} ${other} 40` });
    }
  });

  test('up to the top, across a notch, and in a pan', async () => {
    const message = await told({ floorStep: 'x 250 up 295' }, 'floor-above-top');
    const more = Number(/top that is (\d+(?:\.\d+)?)/.exec(message)?.[1]);
    await passes({ floorStep: 'x 250 up 295', top: 300 + more });
    expect(
      await told(
        {
          outline: '0,0; 600,0; 600,400; 400,400; 400,200; 200,200; 200,400; 0,400',
          floorStep: 'y 300 up 40',
        },
        'step-off-plan',
      ),
    ).toContain('meets 4 sides');
    expect(await told({ blanks: 'pan' }, 'pan-floor-stepped')).toContain('pan');
  });
});
