import { describe, expect, test } from 'vitest';
import { movePoint } from '../../src/geometry/motion2.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import { checkTemplate, loadFamily, make, rulesOf } from '../helpers/check-template.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';
import { TANK_BOX, tankReport } from '../helpers/tank-box.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

checkTemplate('tank');

/** What a right angle of `TANK_BOX` takes of the flat, mm. */
const BENT = (Math.PI / 2) * 3.84;

const figuresOf = async (inputs: Record<string, unknown>) =>
  new Map((await tankReport(inputs)).figures.map((f) => [f.name, f.value]));

const piecesOf = async (inputs: Record<string, unknown>) =>
  new Map((await make('tank', inputs)).map((p) => [p.result.piece, p]));
const sizeOf = (p: Awaited<ReturnType<typeof make>>[number] | undefined) => [
  p?.result.blank?.widthMm ?? NaN,
  p?.result.blank?.heightMm ?? NaN,
];
/** Where the holes of a panel lie on it, in its own coordinates turned onto the blank. */
const holesOn = (flat: FlatPattern | undefined, panel: string) =>
  (flat?.cutouts ?? []).flatMap((c) =>
    c.panel === panel && c.kind === 'round' ? [[...c.centre, c.diameterMm]] : [],
  );

describe('a box of 600 x 400 x 300 inside', () => {
  test('wrap, sides, top and baffle', async () => {
    const pieces = await piecesOf(TANK_BOX);
    expect([...pieces.keys()]).toEqual(['wrap', 'end-left', 'end-right', 'top', 'baffle-1']);
    // Both ends stop half a millimetre below the top; the bends take their flat for two radii each.
    expect(sizeOf(pieces.get('wrap'))).toEqual(
      [404, 600 + 2 * 299.5 - 4 * 3 + 2 * BENT].map((n) => expect.closeTo(n, 9)),
    );
    expect(pieces.get('wrap')?.result.folded?.sizeMm).toEqual(
      [404, 604, 301.5].map((n) => expect.closeTo(n, 6)),
    );
    expect(pieces.get('wrap')?.result.bends.map((b) => [b.id, b.angleDeg, b.direction])).toEqual([
      ['A', 90, 'up'],
      ['B', 90, 'up'],
    ]);
    for (const side of ['end-left', 'end-right'])
      expect(sizeOf(pieces.get(side))).toEqual([599, 299].map((n) => expect.closeTo(n, 9)));
    // Back by half the thickness from the outside: 604 - 2, 404 - 2.
    expect(sizeOf(pieces.get('top'))).toEqual([402, 602].map((n) => expect.closeTo(n, 9)));
    // One bay of 600 is longer than 400: one baffle, (600 - 2) / 2.
    const said = await figuresOf(TANK_BOX);
    expect([said.get('baffles'), said.get('bay length')]).toEqual([1, 299]);
    expect(pieces.get('baffle-1')?.result.folded?.sizeMm).toEqual(
      [398, 298, 20 + 2].map((n) => expect.closeTo(n, 6)),
    );
  });

  test('the sides follow the bends of the wrap: a parallel curve, A - P g + (2 + pi / 2) g2', async () => {
    const g = 0.5;
    const [area, girth] = [180_000 - 2 * 9 * (1 - Math.PI / 4), 1800 - 2 * 3 * (2 - Math.PI / 2)];
    const end = (await piecesOf({ ...TANK_BOX, radius: 3 })).get('end-right');
    // Steiner's formula: two square corners give 1 each, and arcs half of what they turn, pi in
    // all.
    expect(end?.result.blank?.areaMm2).toBeCloseTo(area - girth * g + (2 + Math.PI / 2) * g * g, 6);
  });

  test('is told what it holds and weighs', async () => {
    const said = await figuresOf({
      ...TANK_BOX,
      radius: 0,
      outlet: '111,200,22',
      consumption: 8.5,
    });
    expect(said.get('gross volume')).toBeCloseTo(72, 9);
    expect(said.get('usable volume')).toBeCloseTo(68.4, 9);
    expect(said.get('level at the fill limit')).toBeCloseTo(285, 2);
    // The hole's lower edge is at 100: a third of 72.
    expect(said.get('lower edge of the outlet')).toBeCloseTo(100, 9);
    expect(said.get('volume below the outlet')).toBeCloseTo(24, 9);
    expect(said.get('volume above the outlet')).toBeCloseTo(44.4, 9);
    expect(said.get('range')).toBeCloseTo(4440 / 8.5, 9);
    expect((said.get('full mass') ?? NaN) - (said.get('empty mass') ?? NaN)).toBeCloseTo(
      68.4 * 0.845,
      9,
    );
    expect(
      (await figuresOf({ ...TANK_BOX, radius: 0, outlet: '111,200,22', consumption: '4 l/h' })).get(
        'running time',
      ),
    ).toBeCloseTo(44.4 / 4, 9);
  });

  test('the sheet weighs what its blanks do, reliefs and trimmed corners off', async () => {
    for (const inputs of [
      TANK_BOX,
      { ...TANK_BOX, ends: 'flanged', longestBay: 150 },
      { ...TANK_BOX, heightShallow: 180, filler: '80,200,60' },
    ]) {
      const blanks = (await make('tank', inputs)).reduce(
        (sum, p) => sum + (p.result.blank?.massKg ?? NaN) * p.result.quantity,
        0,
      );
      expect(((await figuresOf(inputs)).get('empty mass') ?? NaN) / blanks).toBeCloseTo(1, 9);
    }
  });

  test('its dip tables run in steps to the full depth', async () => {
    const { tables } = await tankReport({ ...TANK_BOX, radius: 0, dipStep: 70 });
    const rows = [
      [0, 0, 0],
      [70, 16.8, 70 / 3],
      [140, 33.6, 140 / 3],
      [210, 50.4, 70],
      [280, 67.2, 280 / 3],
      [300, 72, 100],
    ];
    const near = rows.map((row) => row.map((n) => expect.closeTo(n, 9)));
    expect(tables.slice(0, 2).map((t) => t.rows)).toEqual([near, near]);
  });
});

describe('flanged sides', () => {
  const FLANGED = {
    ...TANK_BOX,
    measure: 'outside',
    length: 800,
    width: 450,
    height: 260,
    ends: 'flanged',
    endFlange: 18,
    longestBay: 250,
  };

  test('leave the width between their plates, their flanges ending at the edges of the wrap', async () => {
    const [said, pieces] = [await figuresOf(FLANGED), await piecesOf(FLANGED)];
    expect(
      ['length', 'width', 'depth at the deep end'].map((n) => said.get(`inside ${n}`)),
    ).toEqual([796, 450 - 36, 256].map((n) => expect.closeTo(n, 9)));
    // (796 - 250) / 252 = 2.2: three baffles, all alike.
    expect([pieces.get('baffle-1')?.result.quantity, said.get('bay length')]).toEqual([
      3,
      (796 - 6) / 4,
    ]);
    const end = pieces.get('end-left');
    expect(end?.result.folded?.sizeMm).toEqual([795, 255, 18].map((n) => expect.closeTo(n, 6)));
    expect(end?.result.bends.map((b) => [b.angleDeg, b.direction])).toEqual(
      Array(4).fill([90, 'up']),
    );
    // Over two flanges: 795 + 2 (18 - 2 x 5 + 6.0319).
    expect(sizeOf(end)).toEqual([795, 255].map((n) => expect.closeTo(n + 2 * (18 - 10 + BENT), 6)));
    for (const side of ['end-left', 'end-right']) {
      const { part, flat } = pieces.get(side) ?? {};
      if (part === undefined || flat === undefined) throw new Error('no plate');
      expectFoldsBack(part, flat);
    }
  });
});

describe('a wedge, outside 400 long, 304 falling to 4 from the crossing: 3-4-5', () => {
  // Slope 3/5: tan(A / 2) is 2 at the deep end, where the bend is 126.87 degrees, and 1/2 at the
  // shallow one.
  const WEDGE = {
    ...TANK_BOX,
    measure: 'outside',
    length: 400,
    width: 204,
    height: 500,
    heightShallow: 200,
    longestBay: 4000,
  };

  test('inside and outside have the same slope', async () => {
    const said = await figuresOf(WEDGE);
    const [length, deep, shallow] = [396, 500 - 2 - 4, 200 - 2 - 1];
    expect(
      ['length', 'depth at the deep end', 'depth at the shallow end'].map((n) =>
        said.get(`inside ${n}`),
      ),
    ).toEqual([length, deep, shallow].map((n) => expect.closeTo(n, 9)));
    expect(said.get('slope of the floor')).toBeCloseTo((Math.asin(0.6) * 180) / Math.PI, 9);
    expect((deep - shallow) / length).toBe(0.75);
  });

  test('the wrap turns by 126.87 and 53.13 degrees, and its flat is its legs less what the bends save', async () => {
    const wrap = (await piecesOf(WEDGE)).get('wrap');
    const slope = Math.asin(0.6);
    expect(wrap?.result.bends.map((b) => [b.id, b.angleDeg])).toEqual([
      ['A', expect.closeTo(90 + (slope * 180) / Math.PI, 9)],
      ['B', expect.closeTo(90 - (slope * 180) / Math.PI, 9)],
    ]);
    // Inside: 493.5, 396 x 5/4 = 495 and 196.5; a bend begins r tan(A / 2) from its corner, 6 and
    // 1.5.
    const straight = 493.5 - 6 + (495 - 6 - 1.5) + 196.5 - 1.5;
    expect(sizeOf(wrap)).toEqual([204, straight + 3.84 * Math.PI].map((n) => expect.closeTo(n, 9)));
  });

  test('holes keep their places, however the bend is measured', async () => {
    const pieces = await piecesOf({
      ...WEDGE,
      outlet: '64,52,20',
      holesFloor: '94,102,30',
      holesShallow: '51,52,12',
      holesLeft: '104,152,10',
      holesRight: '104,152,10',
    });
    const flat = pieces.get('wrap')?.flat;
    const start =
      flat?.panels
        .find((p) => p.id === 'deep')
        ?.region.map(
          (v) =>
            movePoint(
              (flat.panels.find((p) => p.id === 'deep') as (typeof flat.panels)[number]).placement,
              [v.x, v.y],
            )[1],
        ) ?? [];
    const [top, bendDeep] = [Math.min(...start), Math.max(...start)];
    // Deep end, below on the blank: 64 up from the outside corner is 60 from the inside one, 54
    // past the bend.
    const deep = holesOn(flat, 'deep')[0] ?? [];
    expect([deep[0], bendDeep - (deep[1] ?? NaN), deep[2]]).toEqual(
      [52, 54, 20].map((n) => expect.closeTo(n, 9)),
    );
    expect(bendDeep - top).toBeCloseTo(493.5 - 6, 9);
    // Floor: 94 from the outside corner is 90 from the inside one, 84 past the bend, whose flat is
    // 3.84 x 2.2143.
    const bent = 3.84 * (Math.PI / 2 + Math.asin(0.6));
    const floor = holesOn(flat, 'floor')[0] ?? [];
    expect([floor[0], (floor[1] ?? NaN) - bendDeep - bent]).toEqual(
      [102, 84].map((n) => expect.closeTo(n, 9)),
    );
    const shallow = holesOn(flat, 'shallow')[0] ?? [];
    // 487.5 of flat floor, the other bend, and 50 from the inside corner, 1.5 of them bend.
    const other = 3.84 * (Math.PI / 2 - Math.asin(0.6));
    expect([shallow[0], (shallow[1] ?? NaN) - bendDeep - bent - 487.5 - other]).toEqual(
      [52, 48.5].map((n) => expect.closeTo(n, 9)),
    );
    // The plates are mirror images, 150 from the inside of the deep end: its edge stands half a
    // millimetre further in.
    const [left, right] = [pieces.get('end-left'), pieces.get('end-right')].map(
      (p) => holesOn(p?.flat, p?.part?.root ?? '')[0] ?? [],
    );
    const [leftmost, rightmost] = [
      Math.min(...(pieces.get('end-right')?.flat?.outline ?? []).map((v) => v.x)),
      Math.max(...(pieces.get('end-left')?.flat?.outline ?? []).map((v) => v.x)),
    ];
    expect([(right?.[0] ?? NaN) - leftmost, rightmost - (left?.[0] ?? NaN)]).toEqual(
      [149.5, 149.5].map((n) => expect.closeTo(n, 9)),
    );
    expect(left?.[1]).toBeCloseTo(right?.[1] ?? NaN, 9);
  });

  test('below the shallow end of its floor the deep dip grows with the square, and a dip at the shallow end starts there', async () => {
    const { tables } = await tankReport({
      ...WEDGE,
      measure: 'inside',
      radius: 0,
      width: 200,
      dipStep: 100,
    });
    // 2/3 d2 x 200 up to 300, then 400 x 200 for each millimetre.
    const deep = [0, 4 / 3, 16 / 3, 12, 20, 28];
    expect(tables[0]?.rows.map((r) => r[1])).toEqual(deep.map((n) => expect.closeTo(n, 9)));
    expect(tables[1]?.rows.map((r) => r.slice(0, 2))).toEqual([
      [0, expect.closeTo(12, 9)],
      [100, expect.closeTo(20, 9)],
      [200, expect.closeTo(28, 9)],
    ]);
  });

  test('holes in the floor, the shallow end and the sides draw down to where they are', async () => {
    const INSIDE = { ...WEDGE, measure: 'inside', radius: 0 };
    const edge = async (outletOn: string, outlet: string) =>
      (await figuresOf({ ...INSIDE, outletOn, outlet })).get('lower edge of the outlet');
    // 90 along a floor of slope 3/5.
    expect(await edge('floor', '100,100,20')).toBeCloseTo(54, 9);
    expect(await edge('shallow', '40,100,20')).toBeCloseTo(330, 9);
    expect(await edge('left', '120,100,20; 90,60,8')).toBeCloseTo(86, 9);
    // A slot that stands upright reaches half its length down.
    expect(await edge('right', '120,150,8x40@90')).toBeCloseTo(100, 9);
    expect(
      (await figuresOf({ ...INSIDE, outletOn: 'top', outlet: '60,100,20', pickup: 30 })).get(
        'volume below the outlet',
      ),
    ).toBeCloseTo((2 / 3) * 900 * 204e-6, 9);
  });

  test('each baffle has its own depth', async () => {
    const pieces = await piecesOf({
      ...WEDGE,
      measure: 'inside',
      length: 602,
      height: 400,
      heightShallow: 249.5,
      longestBay: 200,
      clearance: 0,
    });
    // (602 - 200) / 202 = 2 baffles at 199.33 and 400.67; the far face of the first is at 201.33.
    const heights = ['baffle-1', 'baffle-2'].map((id) =>
      (pieces.get(id)?.part?.panels[0]?.outline ?? []).map((v) => v.y),
    );
    expect(heights.map((ys) => Math.max(...ys) - Math.min(...ys))).toEqual(
      [201 + 1 / 3, 402 + 2 / 3].map((at) => expect.closeTo(400 - at / 4, 9)),
    );
  });
});

describe('a linked pair', () => {
  const PAIR = {
    ...TANK_BOX,
    radius: 0,
    longestBay: 600,
    pair: true,
    outlet: '30,200,20',
    link: '58,100,36',
    consumption: 10,
  };

  test('shares its level through the link, and keeps what lies below it', async () => {
    const said = await figuresOf(PAIR);
    // 0.24 l for each millimetre: link at 40, outlet at 20.
    const wanted = {
      'volume below the link pipe': 9.6,
      'volume above the link pipe': 58.8,
      'gross volume of the pair': 144,
      'usable volume of the pair': 136.8,
      'trapped in the other tank': 9.6,
      'drawable volume of the pair': 136.8 - 4.8 - 9.6,
      range: 1224,
    };
    for (const [name, value] of Object.entries(wanted))
      expect(said.get(name), name).toBeCloseTo(value, 9);
    // A link below the outlet lets the other tank down to the outlet.
    expect(
      (await figuresOf({ ...PAIR, link: '28,100,36' })).get('trapped in the other tank'),
    ).toBeCloseTo(4.8, 9);
    expect((await tankReport(PAIR)).tables[0]?.rows.at(-1)).toEqual(
      [300, 72, 100, 144].map((n) => expect.closeTo(n, 9)),
    );
  });

  test('is one tank and its mirror image, or two alike, or told so', async () => {
    expect(rulesOf((await make('tank', PAIR))[0], 'note')).toContain('one-of-a-pair');
    for (const more of [{ hand: 'both' }, { quantity: 2 }])
      expect(rulesOf((await make('tank', { ...PAIR, ...more }))[0], 'note')).not.toContain(
        'one-of-a-pair',
      );
    expect(rulesOf((await make('tank', { ...PAIR, linkOn: 'top' }))[0], 'stop')).toEqual([
      'link-missing',
    ]);
  });
});

describe('consumption', () => {
  test.each([
    ['8,5', 8.5],
    ['fast', 0],
    ['4 l/day', 0],
    ['0', 0],
    ['1001', 0],
  ])('%s is refused', async (consumption) => {
    const made = makeParts(await loadFamily('tank'), { ...TANK_BOX, consumption }, UNPLANNED);
    expect(made.ok ? [] : made.problems.map((p) => p.input)).toEqual(['consumption']);
  });
});

test('the other hand is the mirror image: left and right plate change places', async () => {
  const inputs = { ...TANK_BOX, holesLeft: '100,80,12', outlet: '60,120,20', filler: '90,110,60' };
  const [right, left] = [
    await piecesOf({ ...inputs, hand: 'right' }),
    await piecesOf({
      ...inputs,
      holesLeft: '',
      holesRight: '100,80,12',
      outlet: '60,280,20',
      filler: '90,290,60',
    }),
  ];
  const cut = (p: Awaited<ReturnType<typeof make>>[number] | undefined) => [
    p?.result.blank?.areaMm2,
    holesOn(p?.flat, p?.flat?.cutouts[0]?.panel ?? '')[0]?.map((n) => Number(n.toFixed(6))),
  ];
  for (const [of, as] of [
    ['wrap', 'wrap'],
    ['top', 'top'],
    ['end-left', 'end-right'],
  ] as const) {
    const [a, b] = [cut(right.get(of)), cut(left.get(as))];
    expect(a[0]).toBeCloseTo(b[0] as number, 6);
    expect(a[1], of).toEqual(b[1]);
  }
});
