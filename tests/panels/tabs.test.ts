import { describe, expect, it } from 'vitest';
import type { Loop } from '../../src/geometry/loop.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { make, rulesOf } from '../helpers/check-template.ts';
import { type Box, boxOf, folder, type Point } from '../helpers/folded-points.ts';

/**
 * Teeth and slots put together in space by a witness of the test's own: what the blanks have, folded
 * with a few lines of trigonometry, and pieces placed by hand.
 */

type Flat = readonly [x: number, y: number];
type Place = (at: Flat, z: number) => Point;

const t = 3;

/** The piece of that name, with its flat pattern. */
const pieceOf = (parts: readonly MadePart[], name: string | null) => {
  const made = parts.find((p) => p.result.piece === name);
  if (made?.flat === undefined)
    throw new Error(JSON.stringify(parts.map((p) => p.result.findings)));
  if (made.part === undefined) throw new Error('no part');
  return { part: made.part, flat: made.flat, result: made.result };
};

const inDrawing = (made: ReturnType<typeof pieceOf>, panel: string, [x, y]: Flat): Flat => {
  const m = made.flat.panels.find(({ id }) => id === panel)?.placement ?? {
    c: 1,
    s: 0,
    x: 0,
    y: 0,
  };
  return [m.c * x - m.s * y + m.x, m.s * x + m.c * y + m.y];
};

/** Where points of a panel, in its own coordinates, lie in those of the root's drawing. */
const placeIn = (made: ReturnType<typeof pieceOf>, panel: string): Place => {
  const fold = folder(made.flat, made.part.root);
  const [ox, oy] = inDrawing(made, made.part.root, [0, 0]);
  const [ux, uy] = inDrawing(made, made.part.root, [1, 0]);
  const [c, s] = [ux - ox, uy - oy];
  return (at, z) => {
    const [x, y, height] = fold(panel, inDrawing(made, panel, at), z);
    // Back to the coordinates of the root panel.
    return [c * (x - ox) + s * (y - oy), -s * (x - ox) + c * (y - oy), height];
  };
};

const outlineOf = (made: ReturnType<typeof pieceOf>, panel: string): Loop =>
  made.part.panels.find(({ id }) => id === panel)?.outline ?? [];

/** The corners of each tooth on an edge: those of the outline that stand out beyond the edge. */
const teethOf = (outline: Loop, isOut: (at: Flat) => boolean): Flat[][] => {
  const teeth: Flat[][] = [];
  for (const [i, { x, y }] of outline.entries()) {
    const before = outline.at(i - 1);
    if (!isOut([x, y])) continue;
    if (before !== undefined && isOut([before.x, before.y])) teeth.at(-1)?.push([x, y]);
    else teeth.push([[x, y]]);
  }
  return teeth;
};

const slotsOf = (made: ReturnType<typeof pieceOf>, panel: string): Flat[][] =>
  (made.part.panels.find(({ id }) => id === panel)?.cutouts ?? []).flatMap((cutout) =>
    cutout.kind === 'loop' && cutout.from.startsWith('slot')
      ? [cutout.loop.map(({ x, y }): Flat => [x, y])]
      : [],
  );

const solidBox = (corners: readonly Flat[], place: Place): Box =>
  boxOf(corners.flatMap((at) => [place(at, 0), place(at, t)]));

/** Each tooth in a slot of its own with the clearance on its four sides, its end flush with the face. */
const expectSeated = (
  teeth: readonly Box[],
  slots: readonly Box[],
  through: 0 | 1 | 2,
  way: 1 | -1,
  clearance: number,
): void => {
  expect(teeth.length).toBe(slots.length);
  for (const tooth of teeth) {
    const slot = slots.find((s) =>
      ([0, 1, 2] as const).every(
        (i) => s.low[i] < tooth.high[i] + 1e-6 && s.high[i] > tooth.low[i] - 1e-6,
      ),
    );
    expect(slot).toBeDefined();
    if (slot === undefined) continue;
    for (const i of [0, 1, 2] as const) {
      if (i === through) {
        const [end, face] = way > 0 ? [tooth.high[i], slot.high[i]] : [tooth.low[i], slot.low[i]];
        expect(end).toBeCloseTo(face, 6);
        expect(slot.high[i] - slot.low[i]).toBeCloseTo(t, 6);
      } else {
        expect(tooth.low[i] - slot.low[i]).toBeCloseTo(clearance, 6);
        expect(slot.high[i] - tooth.high[i]).toBeCloseTo(clearance, 6);
      }
    }
  }
};

const bracket = (more: Record<string, unknown> = {}, tab = 'count 2 width 15 clearance 0.2') => ({
  thickness: t,
  radius: 3,
  leastSlot: 2,
  pieces: [
    { name: 'back', base: '140 x 120', flanges: 'shelf on bottom 100 90 up' },
    {
      name: 'rib',
      fits: 'closes back left gap 0.4 inset 20',
      tabs: [`bottom into back base ${tab}`, `shelf into back shelf ${tab}`],
    },
  ],
  ...more,
});

const figuresIn = (text: string, pattern: RegExp): number[] =>
  [...text.matchAll(pattern)].map(([, figure]) => Number(figure));

describe('tabs and slots', () => {
  it.each([
    ['outside', 'din6935'],
    ['inside', 'k:0.4'],
  ])('seat a rib in an angle, measured on the %s by %s', async (measure, rule) => {
    const parts = await make('panels', bracket({ measure, rule }));
    const [back, rib] = [pieceOf(parts, 'back'), pieceOf(parts, 'rib')];
    const outline = outlineOf(rib, 'base');
    // Seen from the left: x of the rib runs down the back, y away from it.
    const right = Math.max(...outline.filter(({ edge }) => edge === 'shelf').map(({ x }) => x));
    const floor = measure === 'outside' ? t : 0;
    const down = measure === 'outside' ? floor + 0.4 + right : 0.4 + right;
    const z0 = t + 0.4;
    const place: Place = ([x, y], z) => [20 + t - z, down - x, z0 + y];
    const below = teethOf(outline, ([, y]) => y < -1);
    const beside = teethOf(outline, ([x]) => x > right + 1);
    expect([below.length, beside.length]).toEqual([2, 2]);
    expectSeated(
      below.map((tooth) => solidBox([...tooth], place)),
      slotsOf(back, 'base').map((slot) => solidBox(slot, placeIn(back, 'base'))),
      2,
      -1,
      0.2,
    );
    expectSeated(
      beside.map((tooth) => solidBox([...tooth], place)),
      slotsOf(back, 'shelf').map((slot) => solidBox(slot, placeIn(back, 'shelf'))),
      1,
      -1,
      0.2,
    );
  });

  it('hold the free edge of a flange on another panel of the same blank', async () => {
    const parts = await make('panels', {
      thickness: t,
      radius: 3,
      base: '120 x 90',
      flanges: ['wall on right 50 90 up', 'roof on wall end 60 90 up', 'leg on roof end 47 90 up'],
      tabs: 'leg end into base count 3 width 14 clearance 0.15',
    });
    const box = pieceOf(parts, null);
    const outline = outlineOf(box, 'leg');
    const teeth = teethOf(outline, ([, y]) => y > 47 + 1);
    expectSeated(
      teeth.map((tooth) => solidBox(tooth, placeIn(box, 'leg'))),
      slotsOf(box, 'base').map((slot) => solidBox(slot, placeIn(box, 'base'))),
      2,
      -1,
      0.15,
    );
    // Evenly spaced: each in the middle of its third of the edge.
    expect(
      slotsOf(box, 'base')
        .map((s) => (Math.min(...s.map(([, y]) => y)) + Math.max(...s.map(([, y]) => y))) / 2)
        .toSorted((a, b) => a - b),
    ).toEqual([expect.closeTo(15, 6), expect.closeTo(45, 6), expect.closeTo(75, 6)]);
  });

  it('lie where from and pitch say, from the left or lower end', async () => {
    const parts = await make('panels', {
      thickness: t,
      radius: 3,
      base: '120 x 90',
      flanges: ['wall on right 50 90 up', 'roof on wall end 60 90 up', 'leg on roof end 47 90 up'],
      tabs: [{ on: 'leg end', into: 'base', count: 2, width: 14, from: 20, pitch: 30 }],
    });
    const teeth = teethOf(outlineOf(pieceOf(parts, null), 'leg'), ([, y]) => y > 48);
    const middles = teeth.map(
      (tooth) => (Math.min(...tooth.map(([x]) => x)) + Math.max(...tooth.map(([x]) => x))) / 2,
    );
    expect(middles.toSorted((a, b) => a - b)).toEqual([
      expect.closeTo(20, 9),
      expect.closeTo(50, 9),
    ]);
  });

  it('are proved, both hands, and the wishes of their panels with them', async () => {
    for (const hand of ['both', 'right'])
      for (const measure of ['outside', 'inside'])
        for (const { result } of await make('panels', bracket({ hand, measure }))) {
          expect(result.findings.filter((f) => f.severity === 'stop')).toEqual([]);
          expect(result.proof?.worstMm).toBeLessThan(0.01);
        }
    const [one] = await make('panels', {
      thickness: t,
      radius: 3,
      base: '120 x 90',
      flanges: ['wall on right 50 90 up', 'roof on wall end 60 90 up', 'leg on roof end 47 90 up'],
      tabs: 'leg end into base count 2 width 14',
    });
    expect(one?.result.proof?.worstMm).toBeLessThan(0.01);
    // A tooth in its slot is no metal run into, and its end is welded from outside.
    expect(rulesOf(one, 'stop')).toEqual([]);
    expect(rulesOf(one, 'warn')).not.toContain('seam-without-access');
    const asked = one?.result.proof?.measures.find((m) => m.name === 'leg.height + tabs');
    expect(asked?.askedMm).toBeCloseTo(47 + t, 9);
  });

  it('have reliefs in which a square tooth seats', async () => {
    const parts = await make('panels', bracket());
    const slot = pieceOf(parts, 'back').part.panels[0]?.cutouts.find((c) => c.kind === 'loop');
    if (slot?.kind !== 'loop') throw new Error('no slot');
    // Four half rounds as wide as the narrowest slot, two on each long side.
    const rounds = slot.loop.filter(({ bulge }) => bulge !== 0);
    expect(rounds.map(({ bulge }) => bulge)).toEqual([1, 1, 1, 1]);
    const feet = outlineOf(pieceOf(parts, 'rib'), 'base').filter(({ bulge }) => bulge === -1);
    expect(feet).toHaveLength(8);
  });

  it('have a clearance of the sheet and the cutter where none is asked for', async () => {
    const parts = await make('panels', bracket({}, 'count 1 width 15'));
    const { result } = pieceOf(parts, 'back');
    // EN 10051, category A, 3 mm: 0.22 thicker, half of it, and a tenth of a kerf of 1: 0.21.
    const note = result.findings.find((f) => f.rule === 'tab-clearance');
    expect(note?.message).toContain('0.25 mm all round');
    const wide = await make('panels', bracket({ leastSlot: 3.7 }, 'count 1 width 15'));
    expect(
      pieceOf(wide, 'back').result.findings.find((f) => f.rule === 'tab-clearance')?.message,
    ).toContain('0.35 mm all round');
  });

  it('say what would pass where they have no room', async () => {
    const told = async (inputs: Record<string, unknown>): Promise<string> => {
      const [made] = await make('panels', inputs);
      expect(rulesOf(made, 'stop')).toContain('tab-without-room');
      const all = made?.result.findings.filter((f) => f.rule === 'tab-without-room') ?? [];
      return all.map(({ message }) => message).join('\n');
    };
    const wide = await told(bracket({}, 'count 2 width 60'));
    const passes = Math.min(...figuresIn(wide, /give width ([\d.]*\d)/g));
    expect(passes).toBeGreaterThan(10);
    const [made] = await make('panels', bracket({}, `count 2 width ${passes}`));
    expect(rulesOf(made, 'stop')).toEqual([]);
    const many = await told(bracket({}, 'count 9 width 15'));
    const count = Math.min(...figuresIn(many, /give count (\d+)/g));
    expect(
      rulesOf((await make('panels', bracket({}, `count ${count} width 15`)))[0], 'stop'),
    ).toEqual([]);
    const flush = bracket();
    const [back, rib] = flush.pieces;
    const inset = await told({
      ...flush,
      pieces: [back, { ...rib, fits: 'closes back left gap 0.4' }],
    });
    const mm = Math.max(...figuresIn(inset, /inset of ([\d.]*\d)/g));
    const moved = await make('panels', {
      ...flush,
      pieces: [back, { ...rib, fits: `closes back left gap 0.4 inset ${mm}` }],
    });
    expect(rulesOf(moved[0], 'stop')).toEqual([]);
    const holed = await told({
      ...flush,
      pieces: [
        { ...back, base: '140 x 120 holes 21.5,90,8; 21.5,70,8; 21.5,50,8; 21.5,30,8' },
        rib,
      ],
    });
    expect(holed).toContain('holes');
  });

  it('say how far an edge is off the panel', async () => {
    const tube = (height: number) => ({
      thickness: t,
      radius: 3,
      base: '120 x 90',
      flanges: [
        'wall on right 50 90 up',
        'roof on wall end 60 90 up',
        `leg on roof end ${height} 90 up`,
      ],
      tabs: 'leg end into base count 2 width 14',
    });
    for (const [height, message] of [
      [37, 'ends 10 mm before base'],
      [48, 'reaches 1 mm into base'],
    ] as const) {
      const [made] = await make('panels', tube(height));
      const found = made?.result.findings.find((f) => f.rule === 'tab-off-panel');
      expect(found?.message).toContain(message);
    }
  });
});
