import { describe, expect, test } from 'vitest';
import { FOLD_AXES, type HoleAxes } from '../../src/forms/hole-axes.ts';
import { type HoleSpec, readHoles } from '../../src/forms/holes.ts';
import { placeHole, placeHoles } from '../../src/forms/place-hole.ts';
import { loopExtents } from '../../src/geometry/extents.ts';

const LEG = [FOLD_AXES];

const read = (given: Parameters<typeof readHoles>[0], axes: readonly HoleAxes[] = LEG) => {
  const reading = readHoles(given, axes);
  if (!reading.ok) throw new Error(JSON.stringify(reading));
  return reading.value;
};

/** Without what only tells how it was written. */
const bare = (holes: readonly HoleSpec[]) =>
  holes.map(({ acrossMm, alongMm, datums, shape, use }) => ({
    acrossMm,
    alongMm,
    ...(datums !== undefined && { datums }),
    shape,
    ...(use !== undefined && { use }),
  }));

describe('hole notation', () => {
  test.each([
    ['20,15,6.6', [{ acrossMm: 20, alongMm: 15, shape: { kind: 'round', diameterMm: 6.6 } }]],
    // ISO 273, medium series.
    [
      ' 20 , 15 , M8 ',
      [
        {
          acrossMm: 20,
          alongMm: 15,
          shape: { kind: 'round', diameterMm: 9 },
          use: { screw: 'M8' },
        },
      ],
    ],
    [
      '20,15,m10',
      [
        {
          acrossMm: 20,
          alongMm: 15,
          shape: { kind: 'round', diameterMm: 11 },
          use: { screw: 'M10' },
        },
      ],
    ],
    // An inch is 25.4 mm exactly.
    [
      '1/2in,2in,M6',
      [
        {
          acrossMm: 12.7,
          alongMm: 50.8,
          shape: { kind: 'round', diameterMm: 6.6 },
          use: { screw: 'M6' },
        },
      ],
    ],
    [
      '60-2*3,15,1/4in',
      [{ acrossMm: 54, alongMm: 15, shape: { kind: 'round', diameterMm: 6.35 } }],
    ],
    [
      '20,15,8x20',
      [
        {
          acrossMm: 20,
          alongMm: 15,
          shape: { kind: 'slot', widthMm: 8, lengthMm: 20, turnDeg: 0 },
        },
      ],
    ],
    [
      '20,15,8x20@90',
      [
        {
          acrossMm: 20,
          alongMm: 15,
          shape: { kind: 'slot', widthMm: 8, lengthMm: 20, turnDeg: 90 },
        },
      ],
    ],
    [
      '20,15,8 x 20 @ -30deg',
      [
        {
          acrossMm: 20,
          alongMm: 15,
          shape: { kind: 'slot', widthMm: 8, lengthMm: 20, turnDeg: -30 },
        },
      ],
    ],
    ['-3,15,5', [{ acrossMm: -3, alongMm: 15, shape: { kind: 'round', diameterMm: 5 } }]],
    ['', []],
    [' ; ', undefined],
  ] as const)('%j', (given, holes) => {
    if (holes === undefined) expect(readHoles(given, LEG).ok).toBe(false);
    else expect(bare(read(given))).toEqual(holes);
  });

  test('several holes, a semicolon at the end, lists of texts and of objects', () => {
    const two = read('20,15,5; 20,45,6;');
    expect(two).toHaveLength(2);
    expect(read(['20,15,5', '20,45,6'])).toEqual(two);
    expect(read('20,15,5\n\n20,45,6;\n')).toEqual(two);
    expect(
      read([
        { across: 20, along: '15mm', size: 5 },
        { across: '20', along: 45, size: '6' },
      ]),
    ).toEqual(two);
  });

  test.each([
    ['20,15', "'20,15' as the first hole", /fold, left, size/],
    ['20,15,5;20,,5', "'20,,5' as the second hole", /^left: /],
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
    ['x,y,z', "'x,y,z' as the first hole", /fold: .*left: .*size: /],
    ['99999,15,5', "'99999,15,5' as the first hole", /fold: must lie between/],
  ])('refuses %j and says which hole', (given, named, why) => {
    const reading = readHoles(given, LEG);
    // Every refusal shows the order of the short form.
    expect(reading).toMatchObject({
      ok: false,
      given: named,
      allowed: expect.stringContaining('or short as 35,20,M8 in the order fold, left, size'),
      mend: expect.stringMatching(why),
    });
  });

  test('names the eleventh hole by its number, and refuses a flood', () => {
    expect(readHoles(`${'20,15,5;'.repeat(10)}a,b,c`, LEG)).toMatchObject({
      given: "'a,b,c' as hole 11",
    });
    expect(readHoles('1,1,1;'.repeat(20_001), LEG)).toMatchObject({
      ok: false,
      allowed: 'at most 20000 holes in a panel',
    });
  });
});

describe('holes that say what they are measured from', () => {
  test.each([
    ['from fold 35, from left 20, M8', '35,20,M8'],
    ['from left 20, from fold 35, M8', '35,20,M8'],
    ['Fold 35, LEFT 20, M8', '35,20,M8'],
    ['from the fold 1 in, from the left 20, M8', '1in,20,M8'],
  ])('%s is %s', (named, short) => {
    expect(bare(read(named))).toEqual(bare(read(short)));
    expect([read(named)[0]?.isShort, read(short)[0]?.isShort]).toEqual([undefined, true]);
  });

  test('from opposite, and from the middle', () => {
    const frame = {
      origin: [0, 0],
      across: [0, 1],
      along: [1, 0],
      spanMm: [60, 80],
      thicknessMm: 2,
    } as const;
    const places = (text: string) =>
      placeHoles('h', read(text), frame).map((c) => (c.kind === 'round' ? c.centre : []));
    expect(places('from edge 25, from right 60, 9')).toEqual([[20, 35]]);
    expect(places('from fold 35, middle, 9; from left 20, middle, 9; middle, 9')).toEqual([
      [40, 35],
      [20, 30],
      [40, 30],
    ]);
    // A pattern grows towards the far side, wherever its place is measured from.
    expect(places('from edge 25, from right 60, grid 1 x 2 pitch 10 5')).toEqual([
      [15, 35],
      [25, 35],
    ]);
  });

  test.each([
    ['from fold 35, 20, M8', /write both figures with what they are measured from/],
    ['from fold 35, from edge 20, M8', /in the same direction/],
    ['from fold 35, M8', /a second figure is missing/],
    ['from fold 35, from left 20, middle, M8', /leave out middle/],
    ['from floor 35, from left 20, M8', /'from floor 35'/],
    ['from fold , from left 20, M8', /'from fold'/],
  ])('refuses %s', (given, why) => {
    expect(readHoles(given, LEG)).toMatchObject({ ok: false, mend: expect.stringMatching(why) });
  });

  test('a field whose panel another input chooses takes the names of any, together', () => {
    const axes: HoleAxes[] = [
      [
        { from: 'deep', at: 'the deep end' },
        { from: 'left', at: 'the left' },
      ],
      [
        { from: 'floor', at: 'the floor' },
        { from: 'left', at: 'the left' },
      ],
    ];
    expect(read('from left 20, from floor 30, 5', axes)).toMatchObject([
      { acrossMm: 30, alongMm: 20, axes: axes[1] },
    ]);
    expect(readHoles('from deep 20, from floor 30, 5', axes)).toMatchObject({
      ok: false,
      mend: expect.stringContaining('do not go together'),
    });
    expect(readHoles('from deep 20, middle, 5', axes).ok).toBe(false);
  });
});

describe('what a hole is for', () => {
  const one = (size: string) =>
    bare(read(`0,0,${size}`)).map(({ shape, use }) => ({ shape, use }))[0];
  test.each([
    ['9 for M8', { kind: 'round', diameterMm: 9 }, { screw: 'M8' }],
    [
      '8x20@90 for M6 to rail',
      { kind: 'slot', widthMm: 8, lengthMm: 20, turnDeg: 90 },
      { screw: 'M6', meets: 'rail' },
    ],
    ['M8 to floor rail', { kind: 'round', diameterMm: 9 }, { screw: 'M8', meets: 'floor rail' }],
    ['RN6', { kind: 'round', diameterMm: 9 }, { screw: 'M6', thread: { kind: 'rivet nut' } }],
    // Tapping drills after ISO 2306: M8 6.8; a fine thread leaves its size less its pitch.
    [
      'M8 tapped',
      { kind: 'round', diameterMm: 6.8 },
      { screw: 'M8', thread: { kind: 'tapped', pitchMm: 1.25 } },
    ],
    [
      'M8x1 tapped',
      { kind: 'round', diameterMm: 7 },
      { screw: 'M8', thread: { kind: 'tapped', pitchMm: 1 } },
    ],
    [
      'M4 drill tapped',
      { kind: 'round', diameterMm: 3.3 },
      { screw: 'M4', thread: { kind: 'tapped', pitchMm: 0.7 }, isDrilled: true },
    ],
    ['3.2 drill', { kind: 'round', diameterMm: 3.2 }, { isDrilled: true }],
    // Heads after ISO 10642: M6 13.44.
    [
      'M6 csk up',
      { kind: 'round', diameterMm: 6.6 },
      { screw: 'M6', countersink: { diameterMm: 13.44, face: 'up' } },
    ],
    [
      '5 csk 9.5 down',
      { kind: 'round', diameterMm: 5 },
      { countersink: { diameterMm: 9.5, face: 'down' } },
    ],
    ['square 8.5@45', { kind: 'square', widthMm: 8.5, turnDeg: 45 }, undefined],
    ['hex 19 for M12', { kind: 'hex', widthMm: 19, turnDeg: 0 }, { screw: 'M12' }],
  ])('%s', (size, shape, use) => {
    expect(one(size)).toEqual({ shape, use });
  });

  test.each([
    ['9 for', /write the screw behind for/],
    ['9 for M10', /M10 does not go through 9/],
    ['M8 for M6', /for M8 already/],
    ['9 to rail', /say which screw it takes/],
    ['9 tapped', /write the thread before tapped/],
    ['M9 tapped', /the threads known are/],
    ['M8x2 tapped', /the pitch of a fine M8 is from/],
    ['M6 csk', /from which face/],
    ['6 csk up', /write the diameter of the countersink/],
    ['6 csk 5 up', /wider than its hole/],
    ['8x20 csk 12 up', /only a plain round hole/],
    ['8x20 drill', /only a round hole can be drilled/],
    ['5 drill drill', /once/],
    ['5 drill deep', /nothing behind drill/],
    ['square 0', /more than 0/],
  ])('refuses %s', (size, why) => {
    expect(readHoles(`0,0,${size}`, LEG)).toMatchObject({
      ok: false,
      mend: expect.stringMatching(why),
    });
  });

  test('a square and a hexagon stand with two sides along the fold', () => {
    const frame = { origin: [0, 0], across: [0, 1], along: [1, 0], thicknessMm: 2 } as const;
    const boxes = placeHoles('h', read('0,0,square 10; 0,0,hex 19; 0,0,square 10@45'), frame).map(
      (c) => (c.kind === 'loop' ? loopExtents(c.loop) : undefined),
    );
    // Over corners a hexagon is 2 / root 3 of its flats, a square root 2.
    expect(boxes).toEqual([
      box(-5, -5, 5, 5),
      box(-19 / Math.sqrt(3), -9.5, 19 / Math.sqrt(3), 9.5),
      box(-5 * Math.SQRT2, -5 * Math.SQRT2, 5 * Math.SQRT2, 5 * Math.SQRT2),
    ]);
  });
});

describe('patterns', () => {
  const places = (text: string) =>
    read(text).map(({ acrossMm, alongMm }) =>
      [acrossMm, alongMm].map((n) => Math.round(n * 1e6) / 1e6 + 0),
    );

  test('on a pitch circle, the first along the fold', () => {
    expect(places('50,40,4 off PC 60 M6')).toEqual([
      [50, 70],
      [80, 40],
      [50, 10],
      [20, 40],
    ]);
    expect(places('50,40,3 off PC 60@90 5')).toEqual([
      [80, 40],
      [35, 14.019238],
      [35, 65.980762],
    ]);
    expect(read('1,1,5; 50,40,4 off PC 60 M6').map((h) => h.number)).toEqual([
      '1',
      '2.1',
      '2.2',
      '2.3',
      '2.4',
    ]);
  });

  test('on a grid, its middle at the place', () => {
    expect(places('50,40,grid 2 x 3 pitch 20 M6')).toEqual([
      [40, 20],
      [40, 40],
      [40, 60],
      [60, 20],
      [60, 40],
      [60, 60],
    ]);
    expect(places('50,40,grid 2 x 1 pitch 20 x 30 5x9')).toEqual([
      [40, 40],
      [60, 40],
    ]);
    expect(places('0,0,grid 1 x 2 pitch 20@90 5')).toEqual([
      [-10, 0],
      [10, 0],
    ]);
  });

  test.each([
    ['0,0,1 off PC 60 M6', /whole number from 2/],
    ['0,0,4 off 60 M6', /4 off PC 95/],
    ['0,0,grid 3 pitch 20 M6', /grid 3 x 4 pitch 20/],
    ['0,0,grid 150 x 150 pitch 20 M6', /at most 20000 holes/],
    ['0,0,grid 2.5 x 4 pitch 20 M6', /whole number/],
    ['0,0,grid 3 x 4 pitch 0 M6', /more than 0/],
  ])('refuses %s', (given, why) => {
    expect(readHoles(given, LEG)).toMatchObject({ ok: false, mend: expect.stringMatching(why) });
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
  const frame = { origin: [0, 60], across: [0, -1], along: [1, 0], thicknessMm: 2 } as const;

  test('a round hole', () => {
    const [hole] = read('20,15,6.6');
    expect(hole && placeHole(hole, 'holesA 1', frame)).toEqual({
      kind: 'round',
      from: 'holesA 1',
      centre: [15, 40],
      diameterMm: 6.6,
      otherWay: [20, 45],
      figures: [
        { from: 'from fold', mm: 20, towards: [0, -1] },
        { from: 'from left', mm: 15, towards: [1, 0] },
      ],
    });
  });

  test('a slot runs along the fold, on any panel, and turns counter-clockwise', () => {
    const boxes = placeHoles('holesA', read('20,15,8x20;20,15,8x20@90'), frame).map((c) =>
      c.kind === 'loop' ? loopExtents(c.loop) : undefined,
    );
    expect(boxes).toEqual([box(5, 36, 25, 44), box(11, 30, 19, 50)]);
    const upright = placeHoles('holesA', read('20,15,8x20'), {
      origin: [0, 0],
      across: [1, 0],
      along: [0, 1],
      thicknessMm: 2,
    });
    expect(upright.map((c) => (c.kind === 'loop' ? loopExtents(c.loop) : undefined))).toEqual([
      box(16, 5, 24, 25),
    ]);
  });
});
