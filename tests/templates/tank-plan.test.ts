import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ReportResult } from '../../src/contract/part.ts';
import { posePoint } from '../../src/geometry/pose.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { weldsOf } from '../../src/assembly/weld-seams.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { setsOf } from '../../src/use/assembly/assembled.ts';
import { checkTemplate, loadFamily, make, rulesOf } from '../helpers/check-template.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { setsFrom } from '../helpers/made-sets.ts';
import { anyRoom, inputsOfRoom } from '../helpers/tank-room.ts';
import { SENDS_OUT, UNPLANNED } from '../helpers/unplanned.ts';

checkTemplate('tank-plan');

type Inputs = Readonly<Record<string, unknown>>;

/** A box of 600 x 400 x 300 inside. */
const BOX = {
  outline: '0,0; 600,0; 600,400; 0,400',
  floor: 0,
  top: 300,
  measure: 'inside',
  thickness: 2,
  radius: 3,
  breather: '300,60,10',
  longestBay: 600,
};

const reportOf = async (inputs: Inputs): Promise<ReportResult> => {
  const made = madeOnce(await loadFamily('tank-plan'), inputs, UNPLANNED);
  const [report] = made.ok ? made.reports : [];
  if (report === undefined) throw new Error(JSON.stringify(made));
  return report;
};
const figuresOf = async (inputs: Inputs) =>
  new Map((await reportOf(inputs)).figures.map((f) => [f.name, f.value]));
const findingsOf = async (inputs: Inputs) =>
  (await make('tank-plan', inputs)).flatMap((p) => p.result.findings);

describe('a box', () => {
  test('holds what it should, and dips by the litre', async () => {
    const said = await figuresOf({ ...BOX, filler: '100,200,60' });
    expect(said.get('gross volume')).toBeCloseTo(72, 9);
    expect(said.get('level at the fill limit')).toBeCloseTo(285, 6);
    const [dip] = (await reportOf({ ...BOX, filler: '100,200,60' })).tables;
    expect(dip?.rows).toHaveLength(73);
    // A litre on 600 x 400.
    expect(dip?.rows[11]?.[1]).toBeCloseTo(12e6 / 240_000, 6);
  });

  test('measured outside it is smaller by the sheet, and by the air that is left round it', async () => {
    const said = await figuresOf({ ...BOX, measure: 'outside', clearance: 8 });
    expect(said.get('gross volume')).toBeCloseTo((580 * 380 * 280) / 1e6, 9);
  });

  test('has a sender that leaves the reserve, of a length in its steps', async () => {
    const asked = { ...BOX, sender: '300,200,54', reserve: 12, senderStep: 25, senderEmpty: 20 };
    const said = await figuresOf(asked);
    // 12 l stand 50 high: the sender ends 20 below that, 270 below the top, and is sold as 250.
    expect(said.get('length of a sender for the reserve')).toBeCloseTo(270, 6);
    expect(said.get('length of the sender')).toBeCloseTo(250, 9);
    expect(said.get('left when the sender reads empty')).toBeCloseTo(16.8, 9);
    expect(said.get('left when the sender reads full')).toBeCloseTo(64.8, 9);
    expect((await findingsOf(asked)).some((f) => f.rule === 'reserve-missed')).toBe(false);
    const long = await findingsOf({ ...asked, senderLength: 210 });
    const missed = long.find((f) => f.rule === 'reserve-missed');
    expect(missed?.mends).toEqual([{ input: 'senderLength', value: 270 }]);
    const low = (await findingsOf({ ...asked, reserve: 2 })).find(
      (f) => f.rule === 'reserve-not-reached',
    );
    // Its end stays 10 over the floor, and reads empty 20 over that, at 7.2 l.
    expect(low?.mends).toEqual([{ input: 'reserve', atLeast: 8 }]);
    expect(
      (await findingsOf({ ...asked, reserve: 8 })).some((f) => f.rule === 'reserve-not-reached'),
    ).toBe(false);
  });
});

test('two unlike tanks that are linked: what both hold, what stays behind, and what is left for the sender', async () => {
  const asked = {
    ...BOX,
    pickup: '60,60,12',
    pickupEnd: 10,
    link: '80,60,20',
    other: '20: 0; 120: 10; 220: 30',
    sender: '300,200,54',
    senderLength: 280,
  };
  const said = await figuresOf(asked);
  expect(said.get('lower edge of the link pipe')).toBeCloseTo(50, 9);
  expect(said.get('usable volume of the pair')).toBeCloseTo(0.95 * (72 + 30), 9);
  // The other keeps 30 of its first 100 mm, a litre each 10 mm; this one 10 mm of 0.24 l each.
  expect(said.get('left in the other tank')).toBeCloseTo(3, 9);
  expect(said.get('drawable volume')).toBeCloseTo(0.95 * 102 - 3 - 2.4, 9);
  // The sender ends 20 over the floor and reads empty at 40, below the pipe.
  expect(said.get('left in the pair when the sender reads empty')).toBeCloseTo(9.6 + 3, 9);
  // Of 15 l in both, 3 stay in the other: 12 stand 50 high here.
  const reserve = await figuresOf({ ...asked, reserve: 15 });
  expect(reserve.get('level of the reserve in the pair')).toBeCloseTo(50, 6);
  const held = (await reportOf(asked)).tables.find(({ title }) => title.startsWith('Heights'));
  expect(held?.columns.map(({ name }) => name)).toEqual(['height', 'volume', 'other tank', 'both']);
  // Half way, at 150: 36 l here, and 10 + 6 there.
  expect(held?.rows[12]).toEqual([150, 36, 16, 52].map((n) => expect.closeTo(n, 6) as number));
  const [part] = await make('tank-plan', { ...asked, link: undefined });
  expect(rulesOf(part, 'stop')).toEqual(['link-missing']);
});

test('welds are as wide as was asked, and up to the lean of the sheet wider at a floor that falls', async () => {
  const family = await loadFamily('tank-plan');
  const gaps = (inputs: Inputs) =>
    setsFrom(family, inputs).flatMap(({ assembly }) =>
      weldsOf(assembly).flatMap(({ gapMm }) => gapMm),
    );
  for (const blanks of ['wrap', 'halves', 'plates', 'pan']) {
    const level = gaps({ ...BOX, blanks, cornerGap: 0.8 });
    expect(level.length).toBeGreaterThan(3);
    for (const gap of level) expect(gap).toBeCloseTo(0.8, 6);
    // The outside of a side that is cut square stands t sin(fall) nearer to a floor that rises outwards.
    const most = 0.8 + 2 * Math.sin(Math.atan(Math.hypot(0.05, 0.03)));
    for (const gap of gaps({ ...BOX, blanks, cornerGap: 0.8, floor: '1: 0; 2: 30; 4: 12' })) {
      expect(gap).toBeGreaterThan(0.8 - 1e-6);
      expect(gap).toBeLessThan(most + 1e-6);
    }
  }
});

test('any room makes whole blanks, alike in both hands, that are welded as wide as was asked', async () => {
  const family = await loadFamily('tank-plan');
  fc.assert(
    fc.property(
      anyRoom,
      fc.constantFrom('wrap', 'halves', 'plates', 'pan'),
      fc.constantFrom('inside', 'outside'),
      fc.constantFrom(1, 1.5, 3),
      (room, blanks, measure, thickness) => {
        const made = makeParts(
          family,
          {
            name: 'p',
            ...inputsOfRoom(room),
            hand: 'both',
            cornerGap: 0.6,
            radius: 2,
            blanks,
            measure,
            thickness,
          },
          UNPLANNED,
        );
        if (!made.ok) throw new Error(JSON.stringify(made.problems));
        // The only plans here with a corner that points inwards have six.
        if (blanks === 'pan' && room.corners.length === 6) {
          expect(rulesOf(made.parts[0], 'stop')).toEqual(['pan-corner-inwards']);
          return;
        }
        const half = made.parts.length / 2;
        for (const { result, stopped } of made.parts) {
          expect([result.name, stopped]).toEqual([result.name, false]);
        }
        const lefts = made.parts.filter(({ result }) => result.hand === 'left');
        expect(lefts).toHaveLength(half);
        for (const left of lefts) {
          const right = made.parts.find(
            ({ result }) => result.hand === 'right' && result.piece === left.result.piece,
          );
          expect(right?.result.blank?.areaMm2).toBeCloseTo(left.result.blank?.areaMm2 ?? 0, 4);
          expect(right?.result.blank?.cutLengthMm).toBeCloseTo(
            left.result.blank?.cutLengthMm ?? 0,
            4,
          );
        }
        const [set] = setsOf(lefts);
        if (set === undefined) throw new Error('no set');
        // A side that is cut square comes nearer to floor and top by its lean against them, and
        // its neighbour on one blank ends with it.
        const most = 0.6 + thickness * 0.4;
        for (const { pieces, gapMm } of weldsOf(set.assembly))
          for (const gap of gapMm) {
            const isBaffle = pieces.some((id) => id.startsWith('baffle'));
            if (isBaffle) expect(gap).toBeCloseTo(1, 6);
            else {
              expect(gap).toBeGreaterThan(0.6 - 1e-6);
              expect(gap).toBeLessThan(most);
            }
          }
      },
    ),
    { numRuns: fuzzRuns(60, 20) },
  );
});

test('left and right that differ in the height of the top fold on the built-in folders, each with its reserve', async () => {
  const family = await loadFamily('tank-plan');
  const made = [{ hand: 'left' }, { hand: 'right', top: 255 }].map((own) =>
    makeParts(
      family,
      { ...family.examples[0]?.inputs, ...own },
      { ...UNPLANNED, shop: { ...SENDS_OUT, machines: DEFAULT_SHOP.machines } },
    ),
  );
  const heights = made.map((one) => {
    if (!one.ok) throw new Error(JSON.stringify(one.problems));
    for (const { result } of one.parts)
      expect([result.name, result.foldPlan?.feasible ?? true]).toEqual([result.name, true]);
    expect(one.parts.some(({ result }) => result.piece === 'baffle-1')).toBe(true);
    const figures = new Map(one.reports[0]?.figures.map((f) => [f.name, f.value]));
    const left = figures.get('left when the sender reads empty') ?? NaN;
    expect(left).toBeGreaterThanOrEqual(5);
    // The next longer sender of its steps, 2 mm, would leave less.
    expect(left).toBeLessThan(5 + 2 * 0.24);
    return figures.get('length of the sender');
  });
  // 25 less of depth over the same floor, in steps of 2.
  expect((heights[0] ?? NaN) - (heights[1] ?? NaN)).toBeOneOf([24, 26]);
});

test('holes stand plumb over their place in the plan, and in a side at their height, whatever leans', async () => {
  const [set] = setsFrom(await loadFamily('tank-plan'), {
    ...BOX,
    blanks: 'plates',
    outlineAt: 100,
    lean: '2: 6',
    floor: '1: 0; 2: 20; 4: 12',
    top: '1: 300; 2: 280; 4: 310',
    filler: '120,150,60',
    drain: '90,70,20',
    link: '150,80,30',
    linkOn: 2,
    longestBay: 600,
  });
  const centreOf = (from: string): readonly number[] => {
    for (const { part, pose } of set?.assembly.pieces ?? [])
      for (const cutout of part.panels[0]?.cutouts ?? []) {
        if (cutout.from !== from || cutout.kind !== 'round') continue;
        return posePoint(pose, [...cutout.centre, from.startsWith('filler') ? 0 : 2]);
      }
    throw new Error(`no ${from}`);
  };
  // On the inside faces, whose heights are those of the planes.
  expect(centreOf('filler 1')).toEqual(
    [120, 150, 300 - (20 * 120) / 600 + (10 * 150) / 400].map(
      (mm) => expect.closeTo(mm, 9) as number,
    ),
  );
  expect(centreOf('drain 1')).toEqual(
    [90, 70, (20 * 90) / 600 + (12 * 70) / 400].map((mm) => expect.closeTo(mm, 9) as number),
  );
  // Side 2 runs from 600,0 to 600,400, and leans outwards by 6 degrees above and below 100.
  expect(centreOf('link 1')).toEqual(
    [600 - 20 * Math.tan(Math.PI / 30), 150, 80].map((mm) => expect.closeTo(mm, 9) as number),
  );
});

describe('sides that lean from one outline to another', () => {
  const OVER = { ...BOX, outlineOverAt: 300, breather: '' };

  test('make a frustum, and tell by how much a corner is off its side', async () => {
    // 600 x 400 at the floor, 640 x 420 at the top: sections in between are of both.
    const over = '-20,-10; 620,-10; 620,410; -20,410';
    const said = await figuresOf({ ...OVER, outlineOver: over });
    const [a, m, b] = [600 * 400, 620 * 410, 640 * 420];
    expect(said.get('gross volume')).toBeCloseTo(((300 / 6) * (a + 4 * m + b)) / 1e6, 9);
    const twisted = { ...OVER, outlineOver: '-20,-10; 620,-10; 624,410; -20,410' };
    // Side 2 goes half way between its ends, 2 off both.
    const figures = await figuresOf(twisted);
    expect(figures.get('residual of outlineOver at corner 2, side 2')).toBeCloseTo(2, 9);
    expect(figures.get('residual of outlineOver at corner 3, side 2')).toBeCloseTo(-2, 9);
    expect((await findingsOf(twisted)).map((f) => f.rule)).not.toContain('height-off-plane');
    const slip = await findingsOf({ ...OVER, outlineOver: '-20,-10; 620,-10; 630,410; -20,410' });
    expect(slip.find((f) => f.rule === 'height-off-plane')?.message).toContain(
      'corner 2, side 2 lies 5 mm inside',
    );
  });

  test('are of the same corners, at two heights, and lean no more than is made', async () => {
    for (const wrong of [
      { outlineOver: '0,0; 600,0; 600,400 c40; 0,400' },
      { outlineOver: '0,0; 600,0; 600,400; 0,400', outlineOverAt: 0 },
      { outlineOver: '600,0; 600,400; 0,400; 0,0' },
    ]) {
      const [part] = await make('tank-plan', { ...OVER, ...wrong });
      expect(new Set(rulesOf(part, 'stop'))).toEqual(new Set(['outlines-unlike']));
    }
  });
});

describe('baffles', () => {
  const sizes = async (inputs: Inputs) =>
    (await make('tank-plan', { ...BOX, ...inputs }))
      .filter(({ result }) => result.piece?.startsWith('baffle') === true)
      .map(({ result }) => result.folded?.sizeMm ?? []);

  test('fill the section a millimetre off all round, their flanges square to it in a box', async () => {
    const [one, ...more] = await sizes({ longestBay: 300, breather: '' });
    expect(more).toEqual([]);
    expect(one).toEqual([398, 298, 22].map((mm) => expect.closeTo(mm, 6) as number));
    const [across] = await sizes({ longestBay: 300, breather: '', bafflesAcross: 'y' });
    expect(across).toEqual([598, 298, 22].map((mm) => expect.closeTo(mm, 6) as number));
  });

  test('stand in equal bays that hold the tank, but not at a corner of the plan', async () => {
    const bays = async (inputs: Inputs) => {
      const { tables } = await reportOf({ ...BOX, breather: '', ...inputs });
      return tables.find(({ title }) => title.startsWith('Bays'))?.rows ?? [];
    };
    const even = await bays({ longestBay: 200 });
    // Two baffles of 2 would leave 198 2/3.
    expect(even.map((row) => row[2])).toEqual([1, 2, 3].map(() => expect.closeTo(596 / 3, 6)));
    expect(even.reduce((sum, row) => sum + (row[3] ?? 0), 0)).toBeCloseTo(
      72 - (2 * 2 * 120_000) / 1e6,
      6,
    );
    // A corner cut off from x 310 on: half way it would bend the flange; it stands before the bend.
    const off = await bays({ longestBay: 350, outline: '0,0; 600,0; 600,110; 310,400; 0,400' });
    const bend = 3 * Math.tan(Math.PI / 8) + 2 * 2 + 1;
    expect(off[1]?.[1]).toBeCloseTo(310 - bend - 22 + 2, 6);
    const long = await findingsOf({
      ...BOX,
      breather: '',
      longestBay: 305,
      outline: '0,0; 600,0; 600,110; 310,400; 0,400',
    });
    expect(long.map((f) => f.rule)).not.toContain('bay-longer');
  });

  test('leave as much open as was asked, and no fitting above them', async () => {
    const made = await make('tank-plan', { ...BOX, longestBay: 300, openPercent: 20 });
    const baffle = made.find(({ result }) => result.piece === 'baffle-1');
    const holes = (baffle?.flat?.cutouts.length ?? 0) * (Math.PI / 4) * 40 ** 2;
    // Four corners of 25, less a little for the millimetre all round.
    const open = holes + (4 * (25 * 25)) / 2;
    expect(open / 120_000).toBeGreaterThan(0.2);
    expect(open / 120_000).toBeLessThan(0.2 + (Math.PI * 20 ** 2) / 120_000);
    const warned = made
      .flatMap(({ result }) => result.findings)
      .find((f) => f.rule === 'hole-on-baffle');
    expect(warned?.message).toContain('give x 294 or less, or 306 or more');
    expect(
      (await findingsOf({ ...BOX, longestBay: 300, breather: '306,60,10' })).map((f) => f.rule),
    ).not.toContain('hole-on-baffle');
    expect(
      (await findingsOf({ ...BOX, longestBay: 300, openPercent: 70 })).map((f) => f.rule),
    ).toContain('flow-holes-do-not-fit');
    expect(
      (await findingsOf({ ...BOX, longestBay: 300, limber: 200, vent: 200 })).map((f) => f.rule),
    ).toContain('corner-cuts-meet');
  });
});

describe('what makes no tank is told with what would', () => {
  const rules = async (inputs: Inputs) => {
    const [part] = await make('tank-plan', { ...BOX, ...inputs });
    return rulesOf(part, 'stop');
  };
  const message = async (inputs: Inputs, rule: string) =>
    (await findingsOf({ ...BOX, ...inputs })).find((f) => f.rule === rule)?.message;

  test('floors above tops, by how much at which corner', async () => {
    expect(await rules({ top: '1: 20; 2: 200; 4: 150', floor: 30 })).toContain('floor-above-top');
    expect(await message({ top: '1: 20; 2: 200; 4: 150', floor: 30 }, 'floor-above-top')).toContain(
      'floor lies 10 above top at corner 1',
    );
    // 10, the walls and both gaps are the least: 15 over the floor.
    expect(await rules({ top: 14.9 })).toContain('floor-above-top');
    expect(await rules({ top: 15 })).not.toContain('floor-above-top');
  });

  test('walls that cross, heights that fix no plane, corners that are none', async () => {
    const narrow = '0,0; 200,0; 200,400; 0,400';
    expect(await rules({ lean: '2: -29; 4: -29', outline: narrow })).toEqual(['walls-cross']);
    // 95 inwards on each side over 300 leave the 10 that are the least: 17.57 degrees of 29.
    expect(await message({ lean: '2: -29; 4: -29', outline: narrow }, 'walls-cross')).toContain(
      'lean the sides 60 % of that, or less',
    );
    const strip = { outline: '0,0; 600,0; 600,60; 0,60', measure: 'outside', clearance: 24 };
    expect(await rules(strip)).toEqual(['walls-cross']);
    // 60 less two sheets of 2 and 10 that are the least leave 23 on each side.
    expect((await findingsOf({ ...BOX, ...strip }))[0]?.mends).toEqual([
      { input: 'clearance', atMost: expect.closeTo(23, 1) as number },
    ]);
    expect(await rules({ ...strip, clearance: 22.9 })).not.toContain('walls-cross');
    expect(await rules({ floor: '1: 0; 2: 5' })).toEqual(['heights-too-few']);
    expect(await rules({ floor: '0,0: 0; 100,0: 1; 200,0: 3' })).toEqual(['heights-too-few']);
    expect(await rules({ outline: '0,0; 300,1; 600,0; 600,400; 0,400' })).toEqual(['plan-corner']);
    expect(await rules({ outline: '0,0; 600,0; 600,400 r40; 0,400' })).toEqual([
      'plan-not-straight',
    ]);
    expect(await rules({ floor: '1: 0; 2: 390; 4: 0', top: 600 })).toEqual(['face-too-steep']);
    expect(await rules({ lean: '5: 3' })).toEqual(['no-such-side']);
    expect(await rules({ floor: 'A: 0; B: 5; C: 2' })).toEqual(['unknown-point']);
    expect(await rules({ outline: '0,0; 600,0; 600,400; 595,405; 0,405' })).not.toEqual([]);
  });

  test('a height that a tape slipped at', async () => {
    const off = await findingsOf({ ...BOX, floor: '1: 0; 2: 0; 3: 16; 4: 0' });
    expect(off.filter((f) => f.rule === 'height-off-plane').length).toBeGreaterThan(0);
    expect(
      (await findingsOf({ ...BOX, floor: '1: 0; 2: 0; 3: 11; 4: 0' })).map((f) => f.rule),
    ).not.toContain('height-off-plane');
  });

  test('holes in a wall, senders on the floor, sides that are all bend', async () => {
    expect(await rules({ filler: '20,200,60' })).toEqual(['hole-meets-wall']);
    expect(await rules({ filler: '30,200,60' })).toEqual([]);
    expect(await rules({ sender: '300,200,54', senderLength: 295 })).toEqual([
      'sender-not-fitting',
    ]);
    expect(await rules({ sender: '300,200,54', senderLength: 290 })).toEqual([]);
    expect(await rules({ outline: '0,0; 600,0; 600,400 c12; 0,400', radius: 25 })).toContain(
      'side-all-bend',
    );
    expect(
      await rules({ outline: '0,0; 600,0; 600,400 c12; 0,400', radius: 25, blanks: 'plates' }),
    ).toEqual([]);
    expect(await rules({ pair: true })).toEqual(['link-missing']);
    expect(await rules({ setback: 1.2 })).toEqual(['top-falls-in']);
  });
});
