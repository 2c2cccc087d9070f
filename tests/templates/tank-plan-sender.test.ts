import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { readInputs } from '../../src/forms/read.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily, make, rulesOf } from '../helpers/check-template.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { loadSolids } from '../helpers/solid.ts';
import { blockBeyond, roomSolid } from '../helpers/tank-room.ts';
import { SENDS_OUT, UNPLANNED } from '../helpers/unplanned.ts';

/** Where a sender has to stand so that it leaves a wanted reserve. */

type Inputs = Readonly<Record<string, unknown>>;

const made = async (inputs: Inputs) => {
  const done = makeParts(await loadFamily('tank-plan'), inputs, UNPLANNED);
  if (!done.ok) throw new Error(JSON.stringify(done.problems));
  return {
    figures: new Map(done.reports[0]?.figures.map(({ name, value }) => [name, value])),
    findings: done.parts.flatMap(({ result }) => result.findings),
    parts: done.parts,
  };
};

/** What the family says of its inputs, without the blanks being laid flat and proved. */
const said = async (inputs: Inputs) => {
  const family = await loadFamily('tank-plan');
  const read = readInputs(family, inputs);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { report, findings = [] } = family.build(read.values);
  return {
    figures: new Map(report?.figures.map(({ name, value }) => [name, value])),
    findings,
  };
};

/** A box of 500 x 300 inside whose floor rises along x by one in ten, and whose top falls by one in fifty. */
const SLOPING = {
  outline: '0,0; 500,0; 500,300; 0,300',
  floor: '1: 0; 2: 50; 4: 0',
  top: '1: 300; 2: 290; 4: 300',
  measure: 'inside',
  thickness: 2,
  longestBay: 600,
  sender: '400,150,54',
  senderAt: 'reserve',
  senderFoot: 10,
  senderEmpty: 20,
  breather: '30,30,10',
};

describe('a sender that is moved', () => {
  test('stands where a length that is sold leaves the reserve, as near as it may', async () => {
    // 6 l on 500 x 300 over a floor that is 25 high in the mean stand at 40 + 25: its end lies 20 below
    // that, and 10 over the floor, which so may be 35 high, at x 350. The sender is 300 - x / 50 - 65 + 20
    // long: 250 at x 250, and from there on the next shorter one would leave more.
    const { figures, findings, parts } = await made({ ...SLOPING, reserve: 6 });
    expect(['x', 'y'].map((axis) => figures.get(`place of the sender, ${axis}`))).toEqual([
      250, 150,
    ]);
    expect(figures.get('length of the sender')).toBe(250);
    expect(figures.get('length of a sender for the reserve')).toBeCloseTo(250, 9);
    expect(findings.find(({ rule }) => rule === 'sender-moved')?.message).toContain('250,150');
    expect(findings.map(({ rule }) => rule)).not.toContain('reserve-missed');
    const top = parts.find(({ result }) => result.piece === 'top');
    const hole = top?.result.blank?.holes.find(({ inputs }) => inputs.includes('sender'));
    expect(hole?.size).toBe('Ø54');
  });

  test('stays where it leaves the reserve already, and its screws go with it', async () => {
    const stays = await said({ ...SLOPING, sender: '230,150,54', reserve: 6 });
    expect(stays.figures.get('place of the sender, x')).toBe(230);
    expect(stays.findings.map(({ rule }) => rule)).not.toContain('sender-moved');
    const screws = await made({
      ...SLOPING,
      sender: '400,150,54; 440,150,5; 360,150,5',
      reserve: 6,
    });
    expect(screws.figures.get('place of the sender, x')).toBe(250);
    const top = screws.parts.find(({ result }) => result.piece === 'top');
    const at = (top?.result.blank?.holes ?? []).flatMap(({ inputs, at: [x] }) =>
      inputs.includes('sender') ? [x] : [],
    );
    // On the top, which falls by one in fifty, 40 of the plan are a hundredth more.
    expect(Math.max(...at) - Math.min(...at)).toBeCloseTo(80 * Math.hypot(1, 1 / 50), 6);
  });

  test('keeps off walls, baffles and other fittings', async () => {
    const near = await said({ ...SLOPING, reserve: 6, return: '250,150,40' });
    const [x = NaN, y = NaN] = ['x', 'y'].map((axis) =>
      near.figures.get(`place of the sender, ${axis}`),
    );
    expect(Math.hypot(x - 250, y - 150)).toBeGreaterThanOrEqual(27 + 20 + 10);
    const baffle = await said({ ...SLOPING, reserve: 6, longestBay: 300 });
    expect(baffle.findings.map(({ rule }) => rule)).not.toContain('hole-on-baffle');
    const corner = await said({ ...SLOPING, reserve: 6, sender: '495,295,54' });
    expect(corner.figures.get('place of the sender, y')).toBeLessThanOrEqual(300 - 27 - 10);
    expect(corner.findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
  });

  test('is told of where no place does, with the reserve that would', async () => {
    const none = await said({ ...SLOPING, reserve: 1 });
    const finding = none.findings.find(({ rule }) => rule === 'sender-no-place');
    // 37 from the wall the floor lies at 3.7: 10 and 20 over that, 33.7, are 1.7 l.
    expect(finding?.mends).toEqual([{ input: 'reserve', atLeast: 2 }]);
    const does = await said({ ...SLOPING, reserve: 2 });
    expect(does.findings.map(({ rule }) => rule)).not.toContain('sender-no-place');
    const [part] = await make('tank-plan', { ...SLOPING, reserve: 0 });
    expect(rulesOf(part, 'note')).toContain('input-unused');
  });
});

describe('in any room, by the kernel', async () => {
  const withSolids = await loadSolids();
  test('the sender reads empty when the reserve is left, where bisection puts its level', async () => {
    const slope = fc.integer({ min: -80, max: 80 }).map((n) => n / 1000);
    await fc.assert(
      fc.asyncProperty(
        fc.tuple(slope, slope, slope, slope),
        fc.integer({ min: 3, max: 12 }),
        async ([a, b, c, d], reserve) => {
          const room = {
            corners: [
              [0, 0],
              [560, 0],
              [560, 300],
              [480, 380],
              [0, 380],
            ] as const,
            outlineAtMm: 0,
            leanDeg: [0, 0, 0, 0, 0],
            floor: { heightMm: 0, alongX: a, alongY: b },
            top: { heightMm: 320, alongX: c, alongY: d },
            steps: [],
          };
          const heights = ({ heightMm, alongX, alongY }: typeof room.floor): string =>
            ['0,0', '200,10', '30,170']
              .map((at) => {
                const [x = 0, y = 0] = at.split(',').map(Number);
                return `${at}: ${heightMm + alongX * x + alongY * y}`;
              })
              .join('; ');
          const { figures, findings } = await said({
            outline: room.corners.map((p) => p.join(',')).join('; '),
            floor: heights(room.floor),
            top: heights(room.top),
            measure: 'inside',
            thickness: 2,
            longestBay: 600,
            breather: '30,30,10',
            sender: '280,190,54',
            senderAt: 'reserve',
            senderStep: 5,
            reserve,
          });
          if (findings.some(({ rule }) => rule === 'sender-no-place')) return;
          const figure = (name: string): number => figures.get(name) ?? NaN;
          const [x, y] = [figure('place of the sender, x'), figure('place of the sender, y')];
          withSolids((solids) => {
            const solid = roomSolid(solids, room);
            const litres = (z: number): number =>
              solids.volume(solids.cut(solid, [blockBeyond(solids, [0, 0, z], [0, 0, 1])])) / 1e6;
            let [low, high] = [-100, 400];
            while (high - low > 0.01) {
              const middle = (low + high) / 2;
              if (litres(middle) < reserve) low = middle;
              else high = middle;
            }
            const top = 320 + c * x + d * y;
            const floor = a * x + b * y;
            const wanted = top - low + 20;
            expect(Math.abs(figure('length of a sender for the reserve') - wanted)).toBeLessThan(
              0.02,
            );
            const length = figure('length of the sender');
            expect(top - length - floor).toBeGreaterThan(10 - 1e-6);
            expect(wanted - length).toBeGreaterThan(-0.02);
            expect(wanted - length).toBeLessThan(5);
          });
        },
      ),
      { numRuns: fuzzRuns(20, 15) },
    );
  });
});

test('a cavity taped at eight corners becomes a pair with one difference, each with five litres left, on a finger folder', async () => {
  const family = await loadFamily('tank-plan');
  const example = family.examples.find(({ inputs }) => inputs.name === 'cart-tank');
  const shop = {
    ...SENDS_OUT,
    machines: DEFAULT_SHOP.machines.filter(({ id }) => id === BOX_PAN.id),
  };
  const pair = makeParts(family, example?.inputs ?? {}, { ...UNPLANNED, shop });
  if (!pair.ok) throw new Error(JSON.stringify(pair.problems));
  const pieces = ['floor', 'wrap', 'baffle-1', 'top'];
  expect(pair.parts.map(({ result }) => `${result.hand} ${result.piece}`)).toEqual(
    ['left', 'right'].flatMap((hand) => pieces.map((piece) => `${hand} ${piece}`)),
  );
  for (const { result, stopped } of pair.parts) {
    expect([result.name, stopped]).toEqual([result.name, false]);
    expect(result.proof?.worstMm).toBeLessThan(0.01);
    if (result.bends.length > 0) expect(result.foldPlan?.feasible).toBe(true);
    for (const step of result.foldPlan?.steps ?? []) expect(step.way).toBe('machine');
    // Nothing is left to be decided.
    expect(result.findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
  }
  for (const { figures } of pair.reports) {
    const said = new Map(figures.map(({ name, value }) => [name, value]));
    const left = said.get('left when the sender reads empty') ?? NaN;
    expect(left).toBeGreaterThanOrEqual(5);
    expect(left).toBeLessThan(5.25);
  }
});

describe('fittings against each other, seams and the level', () => {
  const BOX = {
    outline: '0,0; 600,0; 600,400; 0,400',
    floor: 0,
    top: 300,
    measure: 'inside',
    thickness: 2,
    longestBay: 650,
  };
  const found = async (inputs: Inputs, rule: string) =>
    (await said({ ...BOX, ...inputs })).findings.filter((finding) => finding.rule === rule);

  test('ten millimetres are left between them, and to a side', async () => {
    const beside = { filler: '100,200,60', breather: '145,200,10' };
    expect(await found(beside, 'fitting-too-near')).toEqual([]);
    const [near] = await found({ ...beside, breather: '144,200,10' }, 'fitting-too-near');
    expect(near?.message).toContain('move them 1 further apart');
    const [over] = await found({ ...beside, breather: '130,200,10' }, 'fitting-too-near');
    expect(over?.message).toContain('overlap by 5');
    expect(await found({ drain: '300,20,20' }, 'fitting-too-near')).toEqual([]);
    const [seam] = await found({ drain: '300,19,20' }, 'fitting-too-near');
    expect(seam?.message).toContain('move it in by 1');
    // A sender and its screws are one, and what a wall is in the way of is refused as that.
    expect(await found({ sender: '300,200,54; 332,200,5' }, 'fitting-too-near')).toEqual([]);
    expect(await found({ drain: '300,9,20' }, 'fitting-too-near')).toEqual([]);
  });

  test('a link above the fill limit is refused with the height, or the limit, that would do', async () => {
    // 95 % of a box 300 high stand at 285.
    expect(await found({ link: '120,294,20', pair: true }, 'link-above-fill')).toEqual([]);
    const [high] = await found(
      { link: '120,280,20', pair: true, fillLimit: 90 },
      'link-above-fill',
    );
    expect(high?.message).toContain('260 or less from zero');
    expect(high?.mends).toEqual([{ input: 'fillLimit', atLeast: 91 }]);
    for (const mended of [{ fillLimit: 91 }, { fillLimit: 90, link: '120,260,20' }])
      expect(await found({ link: '120,280,20', pair: true, ...mended }, 'link-above-fill')).toEqual(
        [],
      );
  });
});
