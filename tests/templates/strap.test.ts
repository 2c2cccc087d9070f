import { describe, expect, test } from 'vitest';
import { checkTemplate, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';

checkTemplate('strap');

/** By hand with K = 0.42, 2 mm, inside radius 2: s = 4, BA = 4.46106, BD = 3.53894. */
const SHEET = { material: 's235', thickness: 2, radius: 2, rule: 'k:0.42' };
const BOX = {
  ...SHEET,
  over: 'box',
  across: 150,
  height: 100,
  rubber: 3,
  boltCentres: 220,
  beyond: 15,
  pullUp: 3,
  boltHole: 9,
  width: 30,
};
const ROUND = {
  ...SHEET,
  over: 'round',
  across: 200,
  height: 200,
  rubber: 3,
  boltCentres: 260,
  beyond: 15,
  pullUp: 4,
  boltHole: 9,
  width: 30,
};

describe('over a box 150 wide and 100 high, 3 mm of rubber', () => {
  test('blank and folded size', async () => {
    const { part, flat, blank, folded } = await makeOne('strap', BOX);
    // Crown 150 + 2 x 3 + 2 x 2, sides 100 + 3 - 3 + 2, feet (220 - 156) / 2 + 15.
    expect(blank.heightMm).toBeCloseTo(160 + 2 * 102 + 2 * 47 - 4 * 3.53894, 3);
    expect(blank.widthMm).toBeCloseTo(30, 6);
    // From free edge to free edge: the bolts and 15 beyond each.
    expect(folded.sizeMm).toEqual([30, 250, 102].map((size) => expect.closeTo(size, 6)));
    if (part === undefined) throw new Error('no part');
    expectFoldsBack(part, flat);
  });

  test('the slots are as much longer than wide as the pull-up', async () => {
    const { flat } = await makeOne('strap', BOX);
    const ys = flat.cutouts.flatMap((c) => (c.kind === 'loop' ? [c.loop.map((p) => p.y)] : []));
    const xs = flat.cutouts.flatMap((c) => (c.kind === 'loop' ? [c.loop.map((p) => p.x)] : []));
    expect(ys).toHaveLength(2);
    // The half rounds at the ends lie between their corners: corners 12 - 9 apart, 9 wide, 15 from
    // the free edge.
    const [low] = ys
      .map((y) => [Math.min(...y), Math.max(...y)])
      .sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0));
    expect(low).toEqual([expect.closeTo(13.5, 6), expect.closeTo(16.5, 6)]);
    expect([Math.min(...(xs[0] ?? [])), Math.max(...(xs[0] ?? []))]).toEqual([
      expect.closeTo(10.5, 6),
      expect.closeTo(19.5, 6),
    ]);
  });

  test('the other hand mirrors a hole', async () => {
    const inputs = { ...BOX, holesCrown: '80,10,6' };
    const places = await Promise.all(
      ['left', 'right'].map(async (hand) => {
        const hole = (await makeOne('strap', { ...inputs, hand })).flat.cutouts.find(
          (c) => c.kind === 'round',
        );
        return hole?.kind === 'round' ? hole.centre[0] : NaN;
      }),
    );
    expect(places).toEqual([expect.closeTo(10, 6), expect.closeTo(20, 6)]);
  });
});

describe('over a round of 200, 3 mm of rubber', () => {
  test('blank: the wrap is half the circle of the middle of the sheet', async () => {
    const { blank, result } = await makeOne('strap', ROUND);
    // Feet (260 - 206) / 2 + 15 = 42, straight sides 200 - 100 - 4 = 96, mid-surface radius 100 + 3
    // + 1.
    expect(blank.heightMm).toBeCloseTo(
      2 * (42 - 4) + 2 * 4.46106 + 2 * (96 - 4) + Math.PI * 104,
      3,
    );
    expect(result.bends).toHaveLength(3);
    expect(result.bends.find((b) => b.id === 'B')?.centreLine[0][1]).toBeCloseTo(
      blank.heightMm / 2,
      6,
    );
  });

  test('folded: a hat as high as the round, its rubber and the sheet less the pull-up', async () => {
    const { folded } = await makeOne('strap', ROUND);
    expect([...folded.sizeMm].sort((a, b) => a - b)).toEqual(
      [30, 201, 290].map((size) => expect.closeTo(size, 6)),
    );
  });

  test('the rule of the other bends does not touch the wrap, and no pull-up makes round holes', async () => {
    const { blank, flat } = await makeOne('strap', { ...ROUND, rule: 'k:0.3', pullUp: 0 });
    const ba = (Math.PI / 2) * (2 + 0.3 * 2);
    expect(blank.heightMm).toBeCloseTo(2 * (42 - 4) + 2 * ba + 2 * (100 - 4) + Math.PI * 104, 6);
    expect(flat.cutouts.map((c) => (c.kind === 'round' ? c.diameterMm : c.kind))).toEqual([9, 9]);
  });

  test('odd one: a 3 inch bottle, 3 mm sheet, no rubber', async () => {
    const { blank } = await makeOne('strap', {
      ...SHEET,
      over: 'round',
      thickness: 3,
      radius: 3,
      across: '3in',
      height: 90,
      rubber: 0,
      boltCentres: 130,
      beyond: 14,
      pullUp: 0,
      boltHole: 6.6,
      width: 25,
    });
    // Feet (130 - 76.2) / 2 + 14 = 40.9, straight sides 90 - 38.1 = 51.9, mid-surface radius 39.6,
    // s = 6.
    const ba = (Math.PI / 2) * (3 + 0.42 * 3);
    expect(blank.heightMm).toBeCloseTo(
      2 * (40.9 - 6) + 2 * ba + 2 * (51.9 - 6) + Math.PI * 39.6,
      6,
    );
  });
});

describe('figures that cannot be', () => {
  test.each([
    // The least figures by hand: (r + t) + r + pullUp - rubber + 1; middle of the round 103 + 2 + 2
    // + 4 - 3 + 1.
    ['strap-too-low', BOX, 'height', 7, -0.1],
    ['strap-too-low', ROUND, 'height', 109, -0.1],
    // 156 + 2 (2 + 4 + 6): the slot ends a thickness beside the bend.
    ['bolts-too-close', BOX, 'boltCentres', 180, -0.1],
    ['foot-too-short', BOX, 'beyond', 8, -0.1],
    ['strap-too-narrow', BOX, 'width', 13, -0.1],
    ['crown-too-narrow', { ...BOX, rubber: 1, radius: 3 }, 'across', 5, -0.1],
  ] as const)(
    '%s: the figure that works is given, and works',
    async (rule, inputs, name, least, less) => {
      const [bad] = await make('strap', { ...inputs, [name]: least + less });
      expect(rulesOf(bad, 'stop')).toContain(rule);
      expect(bad?.result.findings.find((f) => f.rule === rule)?.message).toContain(
        `give ${least} or more`,
      );
      const [good] = await make('strap', { ...inputs, [name]: least });
      expect(rulesOf(good, 'stop')).toEqual([]);
    },
  );

  test('a round has no crown to drill', async () => {
    const [part] = await make('strap', { ...ROUND, holesCrown: '20,15,6' });
    expect(rulesOf(part, 'stop')).toEqual(['no-crown']);
  });

  test('a bend too round for the corner of the box is a warning with what would sit', async () => {
    // 10 (1 - 1 / sqrt 2) = 2.929.
    const [bad, good] = await Promise.all(
      [2.92, 2.93].map(
        async (rubber) =>
          (await make('strap', { ...BOX, radius: 10, rubber, boltCentres: 260 }))[0],
      ),
    );
    expect(rulesOf(bad, 'warn')).toContain('strap-corner');
    expect(rulesOf(good, 'warn')).not.toContain('strap-corner');
  });
});
