import Flatten from '@flatten-js/core';
import { describe, expect, test } from 'vitest';
import { signedArea } from '../../src/geometry/measure.ts';
import { pieceOf, pointOn } from '../../src/geometry/piece.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import { mirrorLoop } from '../../src/model/mirror.ts';
import type { Part } from '../../src/model/part.ts';
import { checkTemplate, loadFamily, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { toFlatten } from '../helpers/flatten-js.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';
import { foldedPlaces } from '../helpers/witness.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

checkTemplate('strut-brace');

const K042 = {
  material: 's235',
  thickness: 3,
  radius: 3,
  rule: 'k:0.42',
  hand: 'left',
  boltHole: 10,
};

const close = (value: number) => expect.closeTo(value, 6);

/** The report of one part, figure by figure. */
async function figuresOf(inputs: Record<string, unknown>): Promise<Record<string, number>> {
  const made = makeParts(await loadFamily('strut-brace'), { ...K042, ...inputs }, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return Object.fromEntries(made.reports.flatMap((r) => r.figures.map((f) => [f.name, f.value])));
}

const holeOf = (flat: FlatPattern, from: string) => {
  const hole = flat.cutouts.find((c) => c.from === from);
  if (hole?.kind !== 'round') throw new Error(`no round hole ${from}`);
  return hole;
};

describe('the outline round the holes', () => {
  test('two equal holes make a plate with round ends', async () => {
    const { blank, flat } = await makeOne('strut-brace', {
      ...K042,
      points: 'A: 0,0; B: 100,0',
      edge: 15,
    });
    // Ends of radius 5 + 15 about each hole, 100 apart.
    expect([blank.widthMm, blank.heightMm]).toEqual([close(140), close(40)]);
    expect(signedArea(flat.outline)).toBeCloseTo(100 * 40 + Math.PI * 400, 6);
    expect([holeOf(flat, 'A').centre, holeOf(flat, 'B').centre]).toEqual([
      [close(20), close(20)],
      [close(120), close(20)],
    ]);
  });

  // A 3-4-5 triangle, widened by 20 on all sides: area 5400, way round 360 (Steiner's formula).
  test('three holes by tape distances, a pick-up of another size, and a mark without a hole', async () => {
    const inputs = { ...K042, points: 'A-B: 120; A-C: 90; B-C: 150', edge: 15 };
    const { blank, flat } = await makeOne('strut-brace', inputs);
    expect([blank.widthMm, blank.heightMm]).toEqual([close(160), close(130)]);
    expect(signedArea(flat.outline)).toBeCloseTo(5400 + 360 * 20 + Math.PI * 400, 4);
    // With 30 at C its circle has a radius of 30: 10 further up, and 10 to the left.
    const larger = await makeOne('strut-brace', { ...inputs, pickups: 'C: 30' });
    expect([larger.blank.widthMm, larger.blank.heightMm]).toEqual([close(170), close(140)]);
    expect(holeOf(larger.flat, 'C').diameterMm).toBe(30);
    const without = await makeOne('strut-brace', { ...inputs, pickups: 'C: none' });
    expect([without.blank.widthMm, without.blank.heightMm, without.flat.cutouts.length]).toEqual([
      close(160),
      close(40),
      2,
    ]);
  });

  test('every hole keeps just the metal asked for, slots too', async () => {
    const { flat } = await makeOne('strut-brace', {
      ...K042,
      points: 'A: 0,0; B: 90,10; C: 20,80; P: 95,75',
      pickups: 'P: 12x30@30; C: M12',
      edge: 13,
    });
    const outline = toFlatten(flat.outline);
    for (const hole of flat.cutouts) {
      const shape =
        hole.kind === 'round'
          ? new Flatten.Circle(new Flatten.Point(...hole.centre), hole.diameterMm / 2)
          : toFlatten(hole.loop);
      // Measured by another library.
      expect(outline.distanceTo(shape as Flatten.Circle)[0]).toBeCloseTo(13, 6);
    }
  });

  test('an outline of the user stays, with a warning where it leaves less metal', async () => {
    const outline = '-12,-20; 110,-20; 110,20; -12,20';
    const [part] = await make('strut-brace', {
      ...K042,
      points: 'A: 0,0; B: 90,0',
      outline,
      edge: 15,
    });
    expect(part?.result.blank).toMatchObject({ widthMm: 122, heightMm: 40 });
    expect(rulesOf(part, 'warn')).toEqual(['edge-too-thin']);
    expect(part?.result.findings[0]?.message).toMatch(/Hole A has 7 mm .* asks for 15/);
  });

  test('both hands unless asked otherwise, the right one the mirror image', async () => {
    const { hand: _, ...both } = K042;
    const [left, right, ...more] = await make('strut-brace', {
      ...both,
      points: '0,0; 110,0; 30,60',
    });
    expect(more).toEqual([]);
    expect([left?.result.hand, right?.result.hand]).toEqual(['left', 'right']);
    const [a, b] = [left?.flat?.outline ?? [], right?.flat?.outline ?? []];
    const ends = (loop: typeof a) =>
      loop.map((v) => [v.x.toFixed(6), v.y.toFixed(6)].join()).toSorted();
    const width = left?.result.blank?.widthMm ?? NaN;
    expect(ends(b)).toEqual(
      ends(
        mirrorLoop(a).map((v, i) => ({ ...(a[i] as (typeof a)[number]), ...v, x: v.x + width })),
      ),
    );
  });
});

describe('crease', () => {
  const plate = {
    ...K042,
    outline: '0,0; 200,0; 200,100; 0,100',
    points: 'A: 40,20; B: 20,70; P: 180,80',
    pickups: 'P: 12',
    edge: 9,
  };

  // 30 degrees, K 0.42, r 3, t 3: setback 6 tan 15 = 1.607695, allowance (pi/6) 4.26 = 2.230531,
  // deduction 0.984859.
  test.each(['up', 'down'])(
    'turned %s: blank, folded size, straight distances',
    async (creaseDirection) => {
      const inputs = { ...plate, crease: '100,10 100,60', creaseAngle: 30, creaseDirection };
      const { part, flat, blank, folded } = await makeOne('strut-brace', inputs);
      expect([blank.widthMm, blank.heightMm]).toEqual([
        expect.closeTo(200 - 0.984859, 5),
        close(100),
      ]);
      // Half lies level, half rises: 100 cos 30 along, 100 sin 30 up, and the sheet's thickness
      // stands on that.
      const [cos, sin] = [Math.sqrt(3) / 2, 0.5];
      expect(folded.sizeMm).toEqual([
        close(100 + 100 * cos),
        close(100),
        close(100 * sin + 3 * cos),
      ]);
      expectFoldsBack(part as Part, flat);
      const figures = await figuresOf(inputs);
      // 80 and 60 off the crease, 60 along it: p^2 + q^2 + s^2 + 2 p q cos 30.
      expect(figures['P to A, straight']).toBeCloseTo(
        Math.sqrt(6400 + 3600 + 3600 + 9600 * cos),
        9,
      );
      // And on the blank folded up by a witness, on the face that is outside.
      const places = foldedPlaces(flat, part?.root ?? '');
      const face = creaseDirection === 'up' ? 0 : 3;
      const spot = (name: string) => {
        const hole = holeOf(flat, name);
        return places.get(hole.panel)?.([...hole.centre, face]) ?? [];
      };
      const [p, b] = [spot('P'), spot('B')];
      expect(figures['P to B, straight']).toBeCloseTo(
        Math.hypot(...p.map((n, i) => n - (b[i] ?? NaN))),
        6,
      );
    },
  );

  test('by the names of two marks', async () => {
    const inputs = {
      ...plate,
      points: 'A: 40,20; P: 180,80; X: 90,10; Y: 110,60',
      pickups: 'P: 12; X: none; Y: none',
      creaseAngle: 15,
    };
    const byName = await makeOne('strut-brace', { ...inputs, crease: 'X Y' });
    const byPlace = await makeOne('strut-brace', { ...inputs, crease: '90,10 110,60' });
    expect(byName.flat).toEqual(byPlace.flat);
    expect(byName.flat.bends).toHaveLength(1);
  });

  test('slit: a row of slots, lands of two thicknesses, and what is left to fold', async () => {
    const inputs = {
      ...plate,
      crease: '100,10 100,60',
      creaseStyle: 'slit',
      slotLength: 30,
      leastSlot: 1.5,
    };
    const { flat, part, result } = await makeOne('strut-brace', inputs);
    expect(result.findings.map((f) => f.rule)).toContain('caution-weld-heat');
    const slots = flat.cutouts.filter((c) => c.from.startsWith('slot'));
    // On 100 mm: n slots of at most 30 and n + 1 lands of 6 take n = 3, each (100 - 24) / 3 long.
    expect(slots).toHaveLength(3);
    const areas = slots.map((s) => (s.kind === 'loop' ? signedArea(s.loop) : NaN));
    expect(areas).toEqual(Array(3).fill(close((76 / 3 - 1.5) * 1.5 + Math.PI * 0.75 ** 2)));
    expect(part?.folds[0]?.slots).toEqual({
      longestMm: 30,
      landMm: 6,
      widthMm: 1.5,
      landInput: 'slotLand',
    });
    const figures = await figuresOf(inputs);
    expect(figures['crease left to fold']).toBeCloseTo(100 / 6, 9);
    expect(figures['crease folds like']).toBeCloseTo(3 / Math.sqrt(6), 9);
  });
});

describe('return edge', () => {
  const plate = {
    ...K042,
    outline: '0,0; 200,0; 200,80; 0,80',
    points: 'A: 60,40; B: 140,40',
    return: 'bottom',
    returnHeight: 25,
  };

  // 90 degrees, K 0.42, r 3, t 3: setback 6, deduction 5.3084. The relief is 3 wide, and 3 of metal
  // stay beside it.
  test.each(['up', 'down'])('turned %s: blank, folded size, length', async (returnDirection) => {
    const { part, flat, blank, folded } = await makeOne('strut-brace', {
      ...plate,
      returnDirection,
    });
    expect([blank.widthMm, blank.heightMm]).toEqual([
      close(200),
      expect.closeTo(80 + 25 - 5.3084, 4),
    ]);
    expect(folded.sizeMm).toEqual([close(200), close(80), close(25)]);
    expect((await figuresOf({ ...plate, returnDirection }))['length of return']).toBeCloseTo(
      188,
      9,
    );
    expectFoldsBack(part as Part, flat);
  });

  // A hole of 10 that is 22 off the side: its edge and 6 more reach 11 from its middle, the relief
  // ends 12 off the side, 10 under the middle. So it has to keep sqrt(121 - 100) = 4.5826 beside
  // the middle, and be 3 wide.
  test('its reliefs keep two thicknesses to a hole near the end of the side', async () => {
    const inputs = { ...plate, points: 'A: 10,22; B: 140,60' };
    const { flat } = await makeOne('strut-brace', inputs);
    expect((await figuresOf(inputs))['length of return']).toBeCloseTo(
      200 - 6 - (10 + 4.582576 + 3),
      5,
    );
    // Measured from points close together along the reliefs; their round ends stay clear of the
    // corners reckoned with.
    const { centre } = holeOf(flat, 'A');
    const relief = flat.outline.flatMap((v, i) =>
      v.origin.kind === 'relief'
        ? Array.from({ length: 101 }, (_, k) => pointOn(pieceOf(flat.outline, i), k / 100))
        : [],
    );
    const gap = Math.min(...relief.map(([x, y]) => Math.hypot(x - centre[0], y - centre[1]))) - 5;
    expect(gap).toBeGreaterThan(6 - 1e-6);
    expect(gap).toBeLessThan(7);
    const [nearer] = await make('strut-brace', { ...inputs, returnInset: 10 });
    expect(rulesOf(nearer, 'warn')).toContain('relief-near-hole');
    expect(nearer?.result.findings.find((f) => f.rule === 'relief-near-hole')?.message).toContain(
      '17.59 or more',
    );
  });

  test('runs from end to end without reliefs if it is to stop nowhere before', async () => {
    const { flat, result } = await makeOne('strut-brace', { ...plate, returnInset: 0 });
    // 80 high and 200 wide, with the flat of the return: 25 - 5.3084 over the whole width.
    expect(signedArea(flat.outline)).toBeCloseTo(200 * (80 + 25 - 5.3084), 2);
    expect(result.findings.filter((f) => f.severity !== 'note')).toEqual([]);
    const [nearEnd] = await make('strut-brace', { ...plate, returnInset: 4 });
    expect(rulesOf(nearEnd, 'warn')).toEqual(['relief-near-hole']);
  });

  test('along the tangent of two holes, on the side that runs from the first to the second', async () => {
    const inputs = { ...K042, points: 'A: 0,0; B: 120,0; C: 60,90', edge: 15, returnHeight: 20 };
    const { part, flat } = await makeOne('strut-brace', { ...inputs, return: 'B-C' });
    // The tangent is as long as from B to C, for their circles are alike. Both holes lie 20 off it,
    // 8 over the reliefs, and reach 5 + 6 with their metal: sqrt(121 - 64) and the relief's width
    // of 3 at both ends.
    expect((await figuresOf({ ...inputs, return: 'C-B' }))['length of return']).toBeCloseTo(
      Math.hypot(60, 90) - 2 * (Math.sqrt(57) + 3),
      6,
    );
    const [bend] = flat.bends;
    const [[ax = 0, ay = 0], [bx = 0, by = 0]] = bend?.parentTangent ?? [[], []];
    // From B up to C the way runs 60 to the left and 90 up.
    expect((by - ay) / (bx - ax)).toBeCloseTo(90 / -60, 6);
    expectFoldsBack(part as Part, flat);
    const two = { ...K042, points: 'A: 0,0; B: 120,0', edge: 15, returnHeight: 20 };
    const [below, above] = [
      await makeOne('strut-brace', { ...two, return: 'A-B' }),
      await makeOne('strut-brace', { ...two, return: 'B-A' }),
    ];
    const height = ({ flat: f }: typeof below) =>
      f.panels.find((p) => p.id === 'return')?.placement.y ?? NaN;
    expect(height(below)).toBeLessThan(holeOf(below.flat, 'A').centre[1]);
    expect(height(above)).toBeGreaterThan(holeOf(above.flat, 'A').centre[1]);
  });
});

describe('notch', () => {
  const plate = { ...K042, outline: '0,0; 200,0; 200,80; 0,80', points: 'A: 60,50; B: 140,50' };

  // 20 wide, its middle 12 in: 12 x 20 and half a circle of radius 10.
  test.each(['100,12', '100,68', '12,40', '188,30'])(
    'at %s opens to the nearest edge',
    async (notch) => {
      const { blank, flat } = await makeOne('strut-brace', { ...plate, notch, notchWidth: 20 });
      expect([blank.widthMm, blank.heightMm]).toEqual([200, 80]);
      expect(signedArea(flat.outline)).toBeCloseTo(200 * 80 - 12 * 20 - Math.PI * 50, 6);
    },
  );

  test('about a place just off the plate is only as deep as its bottom reaches in', async () => {
    const { flat } = await makeOne('strut-brace', { ...plate, notch: '100,-4', notchWidth: 20 });
    // A segment of the circle: r^2 acos(h/r) - h sqrt(r^2 - h^2).
    expect(signedArea(flat.outline)).toBeCloseTo(
      16000 - (100 * Math.acos(0.4) - 4 * Math.sqrt(84)),
      6,
    );
  });

  test('in a round end keeps its sides parallel', async () => {
    const { flat } = await makeOne('strut-brace', {
      ...K042,
      points: 'A: 0,0; B: 100,0',
      edge: 30,
      notch: '125,0',
      notchWidth: 12,
    });
    const lost = 100 * 70 + Math.PI * 35 ** 2 - signedArea(flat.outline);
    // From the middle 25 off the centre of the round end of radius 35: half a circle, and the end's
    // strip of width 12.
    const strip = 6 * Math.sqrt(35 ** 2 - 36) + 35 ** 2 * Math.asin(6 / 35);
    expect(lost).toBeCloseTo(Math.PI * 18 + strip - 25 * 12, 6);
  });
});

describe('cross tube', () => {
  // Legs 300 up over 400: 500 long, tan A = 3/4, tan(A/2) = 1/3; R 90 takes 30 off each straight;
  // arc 90 atan(3/4).
  const tube = {
    points: '0,0; 120,0',
    tube: 30,
    tubeSpan: 1400,
    tubeRise: 300,
    tubeMiddle: 600,
    tubeBend: 90,
    tubeBeyond: 0,
  };
  const arc = 90 * Math.atan(0.75);

  test('length, bends and where they begin, by the triangle of 3, 4 and 5', async () => {
    expect(await figuresOf(tube)).toEqual({
      'tube length': close(2 * 470 + 2 * arc + 540),
      'tube bends': close(36.869898),
      'tube bend radius': 90,
      'first bend begins': close(470),
      'first bend ends': close(470 + arc),
      'straight between bends': close(540),
    });
    const beyond = await figuresOf({ ...tube, tubeBeyond: 25 });
    expect([beyond['tube length'], beyond['first bend begins']]).toEqual([
      close(1480 + 2 * arc + 50),
      close(495),
    ]);
  });

  test('drawn as lines and arcs by another library it spans and rises as asked, and is as long', async () => {
    const f = await figuresOf(tube);
    const figure = (name: string) => f[name] ?? NaN;
    const [first, middle, r] = [
      'first bend begins',
      'straight between bends',
      'tube bend radius',
    ].map(figure) as [number, number, number];
    const angle = (figure('tube bends') * Math.PI) / 180;
    let [x, y, heading] = [0, 0, angle];
    let long = 0;
    const go = (by: number) => {
      [x, y, long] = [x + by * Math.cos(heading), y + by * Math.sin(heading), long + by];
    };
    const bend = () => {
      const centre = new Flatten.Point(x + r * Math.sin(heading), y - r * Math.cos(heading));
      const way = new Flatten.Arc(
        centre,
        r,
        heading + Math.PI / 2,
        heading + Math.PI / 2 - angle,
        false,
      );
      [x, y, heading, long] = [way.end.x, way.end.y, heading - angle, long + way.length];
    };
    go(first);
    bend();
    expect(y).toBeCloseTo(300, 6);
    go(middle);
    bend();
    go(first);
    expect([x, y, long]).toEqual([close(1400), close(0), close(f['tube length'] ?? NaN)]);
  });

  test('a straight one is the span and what runs beyond', async () => {
    expect(await figuresOf({ ...tube, tubeRise: 0, tubeBeyond: 20 })).toEqual({
      'tube length': 1440,
    });
  });

  test('its saddle holes stand in pairs on either side of it, with metal round them', async () => {
    const saddle = {
      ...K042,
      ...tube,
      points: 'A: 0,0; B: 100,0',
      saddle: '50,40',
      saddleHole: 8,
      saddleAlong: 24,
      edge: 15,
    };
    const { flat, blank } = await makeOne('strut-brace', saddle);
    // 30 + 2.5 x 8 = 50 across: the upper pair is 25 over the middle, and 4 + 15 of metal over
    // that; the ends reach 20 down.
    const centres = [1, 2, 3, 4].map((i) => holeOf(flat, `saddle ${i}`).centre.map((n) => n - 20));
    expect(centres).toEqual(
      [
        [38, 15],
        [38, 65],
        [62, 15],
        [62, 65],
      ].map((p) => p.map(close)),
    );
    expect(blank.heightMm).toBeCloseTo(20 + 65 + 19, 6);
    const turned = await makeOne('strut-brace', { ...saddle, saddleTurn: 90, saddleAlong: 0 });
    expect([1, 2].map((i) => holeOf(turned.flat, `saddle ${i}`).centre.map((n) => n - 20))).toEqual(
      [
        [75, 40],
        [25, 40],
      ].map((p) => p.map(close)),
    );
  });
});
