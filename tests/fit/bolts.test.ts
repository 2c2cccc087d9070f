import { describe, expect, test } from 'vitest';
import { screwFor } from '../../src/data/hole-sizes.ts';
import type { BoltHole } from '../../src/fit/bolt-holes.ts';
import { boltHoles, playMm } from '../../src/fit/bolt-holes.ts';
import { boltingOf, chanceOf } from '../../src/fit/chance.ts';
import { fitShort } from '../../src/fit/short.ts';
import { chanceWithin, normalBelow, normalDeviates } from '../../src/statistics/normal.ts';
import { deviates } from '../helpers/deviates.ts';
import { fitted } from '../helpers/fitted.ts';

type Point = readonly [number, number];

/** Radius of the smallest circle round some points: by all pairs and all triples of them. */
const smallestCircle = (points: readonly Point[]): number => {
  const covers = ([x, y]: Point, r: number): boolean =>
    points.every(([a, b]) => Math.hypot(a - x, b - y) <= r + 1e-9);
  let best = Infinity;
  const offer = (centre: Point, r: number): void => {
    if (r < best && covers(centre, r)) best = r;
  };
  points.forEach((p, i) =>
    points.slice(i + 1).forEach((q, j) => {
      offer([(p[0] + q[0]) / 2, (p[1] + q[1]) / 2], Math.hypot(p[0] - q[0], p[1] - q[1]) / 2);
      for (const s of points.slice(i + j + 2)) {
        const [bx, by, cx, cy] = [q[0] - p[0], q[1] - p[1], s[0] - p[0], s[1] - p[1]];
        const d = 2 * (bx * cy - by * cx);
        const [ux, uy] = [
          (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / d,
          (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / d,
        ];
        offer([p[0] + ux, p[1] + uy], Math.hypot(ux, uy));
      }
    }),
  );
  return best;
};

/**
 * The least clearance with which bolts go into holes that are off by `errors`: turned by every
 * angle, shifted as well as can be.
 */
const leastPlay = (at: readonly Point[], errors: readonly Point[]): number => {
  const middle = at.reduce<Point>(
    ([x, y], [a, b]) => [x + a / at.length, y + b / at.length],
    [0, 0],
  );
  const after = (turn: number): number =>
    smallestCircle(
      at.map(([x, y], i): Point => [
        (errors[i]?.[0] ?? 0) - turn * (y - middle[1]),
        (errors[i]?.[1] ?? 0) + turn * (x - middle[0]),
      ]),
    );
  let [low, high] = [-0.1, 0.1];
  // The greatest of convex functions is convex: thirds close in on its least.
  for (let i = 0; i < 40; i += 1) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (after(a) < after(b)) high = b;
    else low = a;
  }
  return after((low + high) / 2);
};

const hole = ([x, y]: Point, widthMm = 9): BoltHole => ({
  name: 'h',
  key: 'h1',
  panel: 'p',
  of: 0,
  at: [x, y],
  widthMm,
  lengthMm: widthMm,
  dir: [1, 0],
  bolt: 'M8',
});

const canGoIn = (
  errors: readonly number[],
  motions: readonly (readonly number[])[],
  holes: readonly BoltHole[],
): boolean => boltingOf(motions, holes).goIn(errors);

/** A flat pattern in the plane, each hole off by `sigma` either way. */
const flatPattern = (at: readonly Point[], sigma: number) => ({
  holes: at.map((p) => hole(p)),
  spread: at.flatMap((_, i) =>
    [0, 1, 2].map((k) =>
      at.flatMap((_p, j) => [0, 1].map((l) => (i === j && k === l ? sigma : 0))),
    ),
  ),
  motions: at.flatMap(([x, y]) => [
    [1, 0, 0, 0, 0, -y],
    [0, 1, 0, 0, 0, x],
    [0, 0, 1, y, -x, 0],
  ]),
});

describe('whether bolts go in', () => {
  const PATTERNS: readonly (readonly Point[])[] = [
    [
      [0, 0],
      [80, 0],
    ],
    [
      [0, 0],
      [80, 0],
      [30, 50],
    ],
    [
      [0, 0],
      [80, 0],
      [80, 40],
      [0, 40],
    ],
    [
      [0, 0],
      [40, 0],
      [80, 0],
    ],
  ];

  test.each(PATTERNS.map((at) => [at]))('one by one, against the smallest circle: %j', (at) => {
    const next = deviates(7);
    const { motions } = flatPattern(at, 1);
    let [agree, yes] = [0, 0];
    for (let s = 0; s < 300; s += 1) {
      const errors = at.map((): Point => [0.45 * next(), 0.45 * next()]);
      const wanted = leastPlay(at, errors) <= 0.5;
      yes += Number(wanted);
      agree += Number(
        canGoIn(
          errors.flatMap(([x, y]) => [x, y, 0]),
          motions,
          at.map((p) => hole(p)),
        ) === wanted,
      );
    }
    // Both answers come up, and only a hair's breadth is ever judged otherwise.
    expect(yes).toBeGreaterThan(20);
    expect(yes).toBeLessThan(298);
    expect(agree).toBeGreaterThan(296);
  });

  test.each(PATTERNS.map((at) => [at]))('the chance, against 2000 other samples: %j', (at) => {
    const next = deviates(99);
    const sigma = 0.4;
    let good = 0;
    for (let s = 0; s < 2000; s += 1)
      good += Number(
        leastPlay(
          at,
          at.map((): Point => [sigma * next(), sigma * next()]),
        ) <= 0.5,
      );
    // Both are samples: together good to 1.9 percent, one standard deviation.
    const pattern = flatPattern(at, sigma);
    expect(Math.abs(chanceOf(pattern, pattern.holes) - good / 2000)).toBeLessThan(0.05);
  });

  test('two holes by the formula: their distance is off by less than both plays', () => {
    // The distance errs by sigma root 2, and 1 mm of play is there: 2 P(z < 1 / (0.4 root 2)) - 1 =
    // 0.9229 by any table.
    const pattern = flatPattern(
      [
        [0, 0],
        [80, 0],
      ],
      0.4,
    );
    expect(chanceOf(pattern, pattern.holes)).toBeCloseTo(0.923, 1);
    expect(Math.abs(chanceOf(pattern, pattern.holes) - 0.9229)).toBeLessThan(0.025);
  });

  test('a slot takes what runs along it, and no more across', () => {
    const at: Point[] = [
      [0, 0],
      [80, 0],
    ];
    const { motions } = flatPattern(at, 1);
    const slotted = (dir: Point): BoltHole[] => [
      hole([0, 0]),
      { ...hole([80, 0]), lengthMm: 12, dir },
    ];
    // 0.5 + 0.5 + 1.5 of play along the row.
    expect(canGoIn([0, 0, 0, 2.4, 0, 0], motions, slotted([1, 0]))).toBe(true);
    expect(canGoIn([0, 0, 0, 2.6, 0, 0], motions, slotted([1, 0]))).toBe(false);
    expect(canGoIn([0, 0, 0, 2.4, 0, 0], motions, slotted([0, 1]))).toBe(false);
    expect(canGoIn([0, 0, 0, 0.9, 0, 0], motions, slotted([0, 1]))).toBe(true);
  });
});

describe('bolts of parts', () => {
  const PLATE = { material: 's275', thickness: 3 };

  test('holes measured with a tape call for larger ones, or for a slot along their row', async () => {
    const inputs = { ...PLATE, legA: 60, legB: 40, width: 140, holesA: '35,20,M8; 35,120,M8' };
    const [sure, unsure] = [
      await fitted('bracket-angle', inputs),
      await fitted('bracket-angle', inputs, { measuredWith: 'tape' }),
    ];
    expect(sure.fit.bolts).toEqual([
      {
        holes: ['holesA 1', 'holesA 2'],
        names: ['h1', 'h2'],
        bolts: ['M8', 'M8'],
        meets: null,
        clearanceMm: 0.5,
        chance: 1,
        mend: null,
      },
    ]);
    const [fit] = unsure.fit.bolts;
    // Each of the four middles is off by 1 mm along the row but for the part's own, 0.18: by ISO
    // 9013, class 1, 0.25 / root 2.
    const sigma = Math.hypot(1, 0.25 / Math.SQRT2) / 1.959964;
    expect(fit?.chance).toBeCloseTo(2 * normalBelow(1 / (sigma * Math.SQRT2)) - 1, 1);
    // Coarse holes of ISO 273 are 10 wide: twice the play.
    expect(fit?.mend).toMatchObject({
      openTo: [
        { hole: 'holesA 1', name: 'h1', diameterMm: 10 },
        { hole: 'holesA 2', name: 'h2', diameterMm: 10 },
      ],
      slots: [],
    });
    expect(fit?.mend?.chance).toBeGreaterThan(0.95);
    expect(fitShort(unsure.fit).join('\n')).toContain(
      'open h1 (holesA 1) to 10, h2 (holesA 2) to 10',
    );
  });

  test('feet of a hat: a slot square to the folds', async () => {
    const { fit } = await fitted(
      'bracket-hat',
      {
        ...PLATE,
        thickness: 2,
        crown: 50,
        height: 30,
        footA: 25,
        footB: 25,
        width: 40,
        holesFootA: '14,20,M6',
        holesFootB: '14,20,M6',
      },
      { measuredWith: 'rule' },
    );
    const [feet] = fit.bolts;
    expect(feet?.holes).toEqual(['holesFootA 1', 'holesFootB 1']);
    expect(feet?.chance).toBeLessThan(0.95);
    // 0.6 of play both together, 1 mm of coarse holes; where four folds land and two readings of a
    // rule are more than that.
    const [slot] = feet?.mend?.slots ?? [];
    expect(slot).toMatchObject({
      widthMm: 6.6,
      directionDeg: 90,
      runs: expect.stringMatching(/^square to fold/),
    });
    expect(feet?.mend?.chance).toBeGreaterThan(0.95);
    expect(fitShort(fit).at(-1)).toMatch(
      /^bolts through h1 \(holesFootA 1\), h2 \(holesFootB 1\) go in with a chance of \d+ %: slot h[12] \(holesFoot\w 1\) 6\.6 x \d+ square to fold/,
    );
  });

  test('along the row where holes of one panel are too far off', async () => {
    // Fine holes have 0.2 of play each, and coarse ones are 1 mm more: too little for plasma and a
    // tape.
    const { fit } = await fitted(
      'bracket-angle',
      { ...PLATE, legA: 60, legB: 40, width: 140, holesA: '35,20,5.3 for M5; 35,120,5.3 for M5' },
      { measuredWith: 'tape' },
    );
    const [row] = fit.bolts;
    expect(row?.bolts).toEqual(['M5', 'M5']);
    expect(row?.mend?.slots).toHaveLength(1);
    expect(row?.mend?.slots[0]).toMatchObject({ directionDeg: 0, runs: 'along fold A' });
  });

  test('one hole alone, and holes that were not said to take a bolt, are no question', async () => {
    const { fit } = await fitted('bracket-angle', {
      ...PLATE,
      legA: 60,
      legB: 60,
      width: 140,
      holesA: '35,20,M8',
      holesB: '35,20,9; 35,90,9; 20,50,6.6; 20,80,8x20',
    });
    expect(fit.bolts).toEqual([]);
  });

  test('holes go together that meet one part: by what was said, else by the plane they lie in', async () => {
    const groups = async (family: string, inputs: Record<string, unknown>) =>
      (await fitted(family, { ...PLATE, ...inputs })).fit.bolts.map((b) => [b.meets, ...b.holes]);
    const legs = { legA: 60, legB: 60, width: 140 };
    expect(
      await groups('bracket-angle', {
        ...legs,
        holesA: '35,20,M8; 35,120,M8',
        holesB: '35,20,M8; 35,120,M8',
      }),
    ).toEqual([
      [null, 'holesA 1', 'holesA 2'],
      [null, 'holesB 1', 'holesB 2'],
    ]);
    expect(
      await groups('bracket-angle', {
        ...legs,
        holesA: '35,20,M8 to post; 35,120,M8 to post; 20,70,M6 to clip',
        holesB: '35,20,M8 to post',
      }),
    ).toEqual([['post', 'holesA 1', 'holesA 2', 'holesB 1']]);
    // Both feet of a hat stand on one floor; the flanges of a zed do not.
    expect(
      await groups('bracket-hat', {
        crown: 50,
        height: 30,
        footA: 25,
        footB: 25,
        width: 40,
        holesFootA: '14,20,M6',
        holesFootB: '14,20,M6',
      }),
    ).toEqual([[null, 'holesFootA 1', 'holesFootB 1']]);
    expect(
      await groups('bracket-zed', {
        flangeA: 40,
        offset: 40,
        flangeB: 40,
        width: 40,
        holesA: '25,20,M6',
        holesB: '25,20,M6',
      }),
    ).toEqual([]);
  });

  test('the bolts of a strut tower are one thing, each pick-up another; breathers and pipes of a tank none', async () => {
    const brace = await fitted('strut-brace', {
      material: 's275',
      thickness: 4,
      points: 'A: 0,0; B: 112,8; C: 48,94; P: 82,-78; Q: 10,-78',
      pickups: 'P: M12; Q: M12',
      boltHole: 9,
      edge: 18,
      hand: 'left',
    });
    expect(brace.fit.bolts.map((b) => [b.meets, ...b.holes])).toEqual([['tower', 'A', 'B', 'C']]);
    const same = await fitted('strut-brace', {
      material: 's275',
      thickness: 4,
      points: 'A: 0,0; B: 112,8; C: 48,94; P: 82,-78; Q: 10,-78',
      pickups: 'P: M12 to arm; Q: M12 to arm',
      boltHole: 'M8',
      edge: 18,
      hand: 'left',
    });
    expect(same.fit.bolts.map((b) => [b.meets, ...b.holes])).toEqual([
      ['tower', 'A', 'B', 'C'],
      ['arm', 'P', 'Q'],
    ]);
    const rest = await fitted('heel-rest', {
      floorAngle: -18,
      width: 160,
      treadDepth: 110,
      grip: 'holes',
      gripSize: 6.6,
      material: 's235',
      thickness: 2,
    });
    expect(rest.fit.bolts).toEqual([]);
  });

  test('a bolt in a thread of this part has its play in the other', async () => {
    const { flat } = await fitted('bracket-angle', {
      ...PLATE,
      legA: 120,
      legB: 40,
      width: 200,
      holesA: '30,20,M8 tapped; 30,60,RN6; 30,100,9 for M8',
    });
    // ISO 273, medium: 9 for M8, 6.6 for M6.
    expect(boltHoles(flat).map((h) => [h.bolt, playMm(h)])).toEqual([
      ['M8', 0.5],
      ['M6', expect.closeTo(0.3, 9)],
      ['M8', 0.5],
    ]);
  });

  test('of bolt holes without a screw, which it is by the size', () => {
    // ISO 273: 9 is M8 medium, 10 M8 coarse, 6.4 M6 fine, 13.5 M12, 5.5 M5, 11 M10; a slot 8 wide
    // is slack for M6; 26 is for none.
    expect([9, 10, 6.4, 8, 13.5, 5.5, 11, 26].map(screwFor)).toEqual([
      'M8',
      'M8',
      'M6',
      'M6',
      'M12',
      'M5',
      'M10',
      undefined,
    ]);
  });
});

// Any table of the normal distribution.
test('the normal distribution', () => {
  for (const [z, below] of [
    [0, 0.5],
    [1, 0.8413447],
    [-1.959964, 0.025],
    [2.575829, 0.995],
    [-4, 0.0000316712],
  ] as const)
    expect(normalBelow(z)).toBeCloseTo(below, 6);
  expect(chanceWithin(1, 0, 1)).toBeCloseTo(0.6826895, 6);
  expect(chanceWithin(1, 1, 1)).toBeCloseTo(0.4772499, 6);
  expect([chanceWithin(0.3, 0.2, 0), chanceWithin(0.3, 0.4, 0)]).toEqual([1, 0]);
  const next = normalDeviates(1);
  const drawn = Array.from({ length: 20_000 }, next);
  const moment = (k: number): number => drawn.reduce((sum, v) => sum + v ** k, 0) / drawn.length;
  expect(moment(1)).toBeCloseTo(0, 1);
  expect(Math.abs(moment(2) - 1)).toBeLessThan(0.04);
  expect(Math.abs(moment(4) - 3)).toBeLessThan(0.3);
  expect(Array.from({ length: 3 }, normalDeviates(1))).toEqual(drawn.slice(0, 3));
});
