import { describe, expect, test } from 'vitest';
import { readHoles } from '../../src/input/holes.ts';
import { placeHole, placeHoles } from '../../src/input/place-hole.ts';
import { loopExtents } from '../../src/geometry/extents.ts';

const read = (given: Parameters<typeof readHoles>[0]) => {
  const reading = readHoles(given);
  if (!reading.ok) throw new Error(JSON.stringify(reading));
  return reading.value;
};

describe('hole notation', () => {
  test.each([
    ['20,15,6.6', [{ acrossMm: 20, alongMm: 15, shape: { kind: 'round', diameterMm: 6.6 } }]],
    // ISO 273, medium series.
    [' 20 , 15 , M8 ', [{ acrossMm: 20, alongMm: 15, shape: { kind: 'round', diameterMm: 9 } }]],
    ['20,15,m10', [{ acrossMm: 20, alongMm: 15, shape: { kind: 'round', diameterMm: 11 } }]],
    // An inch is 25.4 mm exactly.
    ['1/2in,2in,M6', [{ acrossMm: 12.7, alongMm: 50.8, shape: { kind: 'round', diameterMm: 6.6 } }]],
    ['60-2*3,15,1/4in', [{ acrossMm: 54, alongMm: 15, shape: { kind: 'round', diameterMm: 6.35 } }]],
    ['20,15,8x20', [{ acrossMm: 20, alongMm: 15, shape: { kind: 'slot', widthMm: 8, lengthMm: 20, turnDeg: 0 } }]],
    ['20,15,8x20@90', [{ acrossMm: 20, alongMm: 15, shape: { kind: 'slot', widthMm: 8, lengthMm: 20, turnDeg: 90 } }]],
    ['20,15,8 x 20 @ -30deg', [{ acrossMm: 20, alongMm: 15, shape: { kind: 'slot', widthMm: 8, lengthMm: 20, turnDeg: -30 } }]],
    ['-3,15,5', [{ acrossMm: -3, alongMm: 15, shape: { kind: 'round', diameterMm: 5 } }]],
    ['', []],
    [' ; ', undefined],
  ] as const)('%j', (given, holes) => {
    if (holes === undefined) expect(readHoles(given).ok).toBe(false);
    else expect(read(given)).toEqual(holes);
  });

  test('several holes, a semicolon at the end, lists of texts and of objects', () => {
    const two = read('20,15,5; 20,45,6;');
    expect(two).toHaveLength(2);
    expect(read(['20,15,5', '20,45,6'])).toEqual(two);
    expect(read([{ across: 20, along: '15mm', size: 5 }, { across: '20', along: 45, size: '6' }])).toEqual(two);
  });

  test.each([
    ['20,15', "'20,15' as the first hole", /across, along and size/],
    ['20,15,5;20,,5', "'20,,5' as the second hole", /^along: /],
    ['20,15,5;;20,45,5', "'' as the second hole", /three figures/],
    ['20,15,5,3', "'20,15,5,3' as the first hole", /';' before the next hole/],
    ['20,15,0', "'20,15,0' as the first hole", /more than 0/],
    ['20,15,20x8', "'20,15,20x8' as the first hole", /write 8x20/],
    ['20,15,8x8', "'20,15,8x8' as the first hole", /a diameter/],
    ['20,15,6@90', "'20,15,6@90' as the first hole", /only a slot/],
    ['20,15,8x20x3', "'20,15,8x20x3' as the first hole", /width x length/],
    ['20,15,M8x20', "'20,15,M8x20' as the first hole", /size: /],
    ['20,15,M7.3', "'20,15,M7.3' as the first hole", /size: /],
    ['20,15,RN99', "'20,15,RN99' as the first hole", /size: /],
    ['x,y,z', "'x,y,z' as the first hole", /across: .*along: .*size: /],
    ['99999,15,5', "'99999,15,5' as the first hole", /across: must lie between/],
  ])('refuses %j and says which hole', (given, named, why) => {
    const reading = readHoles(given);
    expect(reading).toMatchObject({ ok: false, given: named, allowed: expect.stringContaining('across,along,size'), mend: expect.stringMatching(why) });
  });

  test('names the eleventh hole by its number, and refuses a flood', () => {
    expect(readHoles(`${'20,15,5;'.repeat(10)}a,b,c`)).toMatchObject({ given: "'a,b,c' as hole 11" });
    expect(readHoles('1,1,1;'.repeat(1001))).toMatchObject({ ok: false, allowed: 'at most 1000 holes in a panel' });
  });
});

const box = (minX: number, minY: number, maxX: number, maxY: number) => ({
  minX: expect.closeTo(minX, 9),
  minY: expect.closeTo(minY, 9),
  maxX: expect.closeTo(maxX, 9),
  maxY: expect.closeTo(maxY, 9),
});

describe('placing', () => {
  /** A leg below its fold: across runs down. */
  const frame = { origin: [0, 60], across: [0, -1], along: [1, 0] } as const;

  test('a round hole', () => {
    const [hole] = read('20,15,6.6');
    expect(hole && placeHole(hole, 'holesA 1', frame)).toEqual({ kind: 'round', from: 'holesA 1', centre: [15, 40], diameterMm: 6.6 });
  });

  test('a slot runs along the fold, on any panel, and turns counter-clockwise', () => {
    const boxes = placeHoles('holesA', read('20,15,8x20;20,15,8x20@90'), frame).map((c) => (c.kind === 'loop' ? loopExtents(c.loop) : undefined));
    expect(boxes).toEqual([box(5, 36, 25, 44), box(11, 30, 19, 50)]);
    const upright = placeHoles('holesA', read('20,15,8x20'), { origin: [0, 0], across: [1, 0], along: [0, 1] });
    expect(upright.map((c) => (c.kind === 'loop' ? loopExtents(c.loop) : undefined))).toEqual([box(16, 5, 24, 25)]);
  });
});
