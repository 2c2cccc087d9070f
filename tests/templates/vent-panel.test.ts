import { describe, expect, test } from 'vitest';
import { signedArea } from '../../src/geometry/measure.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import { keyedHoles } from '../../src/paper/sizes/hole-keys.ts';
import { checkTemplate, loadFamily, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

checkTemplate('vent-panel');

const PANEL = { width: 300, height: 200, material: 'dc01', thickness: 1, rule: 'k:0.42' };
const LOUVRES = { louvres: 3, louvreLength: 80, louvreDepth: 16, louvrePitch: 26 };
const BEADS = { beads: 2, beadWidth: 12, beadDepth: 3, beadPitch: 100, beadClear: 30 };

const formedOf = (flat: FlatPattern, called: string) => {
  const found = flat.formed?.find((f) => f.called === called);
  if (found === undefined) throw new Error(`no ${called}`);
  return found;
};
const figuresOf = async (inputs: Record<string, unknown>) => {
  const made = madeOnce(await loadFamily('vent-panel'), inputs, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return new Map(made.reports.flatMap((r) => r.figures).map(({ name, value }) => [name, value]));
};

describe('the blank', () => {
  // By hand: r = t = 1 and K 0.42, so BA = pi/2 x 1.42 = 2.23053 and BD = 4 - BA = 1.76947.
  test('is the panel with its flanges, less a deduction each', async () => {
    const { blank, folded } = await makeOne('vent-panel', {
      ...PANEL,
      foldLeft: 'up',
      foldTop: 'down',
      foldBottom: 'up',
      flange: 15,
    });
    expect(blank.widthMm).toBeCloseTo(300 + 15 - 1.76947, 4);
    expect(blank.heightMm).toBeCloseTo(200 + 2 * (15 - 1.76947), 4);
    expect(folded.sizeMm[0]).toBeCloseTo(300, 6);
    expect(folded.sizeMm[1]).toBeCloseTo(200, 6);
    // One flange stands up by 15 from the outside of the face, the other goes down from its other face.
    expect(folded.sizeMm[2]).toBeCloseTo(2 * 15 - 1, 6);
  });

  // Circles of 4 about the ends of a slit of 2: each without the segment that the slit cuts off,
  // whose half angle is asin(1 / 2) = 30 degrees, and the slit from neck to neck.
  test('has a slit with a stop hole at either end for each louvre', async () => {
    const { flat } = await makeOne('vent-panel', { ...PANEL, ...LOUVRES, slit: 2, stopHole: 4 });
    expect(flat.cutouts).toHaveLength(3);
    const segment = 4 * (Math.PI / 6 - Math.sin(Math.PI / 6) * Math.cos(Math.PI / 6));
    const area = 2 * (4 * Math.PI - segment) + 2 * (80 - 2 * Math.sqrt(3));
    for (const hole of flat.cutouts)
      expect(hole.kind === 'loop' && signedArea(hole.loop)).toBeCloseTo(area, 9);
    for (const hole of keyedHoles(flat))
      expect(hole).toMatchObject({ kind: 'slit between holes', size: '2 x 80, Ø4', leanDeg: 0 });
  });

  // The three lances of a panel 300 by 200 stand about its middle, half a depth to the open side.
  test.each([
    ['down', [150, 100 - 26 - 8], [0, 1]],
    ['up', [150, 100 - 26 + 8], [0, -1]],
    ['left', [150 - 26 - 8, 100], [1, 0]],
    ['right', [150 - 26 + 8, 100], [-1, 0]],
  ] as const)('opens %s, away from its form line', async (louvreOpens, lance, back) => {
    const { flat } = await makeOne('vent-panel', { ...PANEL, ...LOUVRES, louvreOpens });
    const [first] = flat.cutouts;
    const xs = first?.kind === 'loop' ? first.loop.map(({ x }) => x) : [];
    const ys = first?.kind === 'loop' ? first.loop.map(({ y }) => y) : [];
    const middle = [
      (Math.min(...xs) + Math.max(...xs)) / 2,
      (Math.min(...ys) + Math.max(...ys)) / 2,
    ];
    expect(middle).toEqual(lance.map((n) => expect.closeTo(n, 9)));
    const { from, to } = formedOf(flat, 'louvre 1').marks[0]!;
    const form = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
    expect(form).toEqual(lance.map((n, i) => expect.closeTo(n + 16 * back[i]!, 9)));
    expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeCloseTo(
      // 8 / sqrt(1.28^2 - 1) = 10.013, so that a whole ramp is 11.
      80 - 2 * 11,
      9,
    );
  });

  test('is marked for beads by their middles and edges, and for its other hand mirrored', async () => {
    const inputs = { ...PANEL, ...BEADS, beadsAt: 40, trim: 0, foldLeft: 'up' };
    const { flat } = await makeOne('vent-panel', inputs);
    const [middle, ...edges] = formedOf(flat, 'bead 1').marks;
    expect(middle?.called).toBe('BEAD 1 UP 12 X 3');
    expect(middle?.turnedOver).toBe('BEAD 1 DOWN 12 X 3');
    // From the outside of the left flange, which lies 13.23053 into the blank, and 30 from the edges.
    expect(middle?.from).toEqual([expect.closeTo(15 - 1.76947 + 30, 4), 40]);
    expect(middle?.to).toEqual([expect.closeTo(flat.widthMm - 30, 9), 40]);
    expect(edges.map(({ from }) => from[1])).toEqual([46, 34]);
    const [right] = await make('vent-panel', { ...inputs, hand: 'right' });
    const other = right?.flat?.formed?.find((f) => f.called === 'bead 1')?.marks[0];
    const ends = [other?.from[0], other?.to[0]].toSorted((a = 0, b = 0) => a - b);
    expect(ends).toEqual([
      expect.closeTo(30, 9),
      expect.closeTo(flat.widthMm - (15 - 1.76947 + 30), 4),
    ]);
  });

  test('has its marks in the cut file, but where fold lines are left out too', async () => {
    const template = await loadFamily('vent-panel');
    const lines = (marks: 'lines' | 'none'): number => {
      const made = madeOnce(
        template,
        { ...PANEL, ...LOUVRES, ...BEADS, louvreLength: 60 },
        {
          ...UNPLANNED,
          marks,
        },
      );
      const file = made.ok
        ? made.parts[0]?.files().find(({ name }) => name.endsWith('.dxf'))?.contents
        : undefined;
      return String(file).split(/LINE\r?\n[\s\S]{0,120}?MARK\r?\n/).length - 1;
    };
    // Three lines of each louvre and each bead.
    expect([lines('lines'), lines('none')]).toEqual([3 * 5, 0]);
  });
});

describe('margins for trimming', () => {
  // R = (36 + 9) / 6 = 7.5, arc 2 x 7.5 x atan(6 / 4.5) = 13.9094: two beads 3.8188, half 1.9094.
  test('are whole millimetres at both edges along the beads, enough for all they can draw in', async () => {
    const plain = await makeOne('vent-panel', { ...PANEL, ...BEADS, trim: 0 });
    const cut = await makeOne('vent-panel', { ...PANEL, ...BEADS });
    expect(cut.blank.heightMm - plain.blank.heightMm).toBeCloseTo(2 * 2, 9);
    expect(cut.blank.widthMm).toBeCloseTo(plain.blank.widthMm, 9);
    expect(rulesOf(plain, 'warn')).toContain('vent-trim-short');
    expect(rulesOf(cut, 'warn')).toEqual([]);
    expect(rulesOf(cut, 'note')).toContain('vent-trim');
  });

  test('lie on a flange where there is one, and run on at the ends of its neighbours', async () => {
    const inputs = { ...PANEL, ...BEADS, foldTop: 'up', foldLeft: 'up' };
    const { blank, folded } = await makeOne('vent-panel', inputs);
    // 2 beyond the bottom edge, 2 more on the flange at the top.
    expect(blank.heightMm).toBeCloseTo(200 + 15 - 1.76947 + 2 + 2, 4);
    expect(folded.sizeMm[1]).toBeCloseTo(202, 6);
    expect(folded.sizeMm[2]).toBeCloseTo(17, 6);
  });
});

describe('figures', () => {
  test('are those of the formulas', async () => {
    const figures = await figuresOf({
      ...PANEL,
      ...LOUVRES,
      louvreRamp: 12,
      ...BEADS,
      louvreLength: 60,
      foldLeft: 'up',
    });
    expect(figures.get('free area of a louvre')).toBeCloseTo((60 - 24) * (8 - 1), 9);
    expect(figures.get('free area of all 3 louvres')).toBeCloseTo(3 * 36 * 7, 9);
    expect(figures.get('length round a bead')).toBeCloseTo(13.9094, 4);
    expect(figures.get('beads draw in at most')).toBeCloseTo(3.8188, 3);
    expect(figures.get('stretch over a bead')).toBeCloseTo(15.91, 2);
    expect(figures.get('elongation of the sheet')).toBe(28);
    // tests/published/forming.json: 24.4 for a strip of 100, of 1.5, flange 12.
    const other = await figuresOf({ ...PANEL, thickness: 1.5, foldLeft: 'up', flange: 12 });
    expect(other.get('folded edge against a flat one')).toBeCloseTo(24.4, 1);
  });
});

test('the middles of the beads are told, for whoever marks them by hand', async () => {
  const template = await loadFamily('vent-panel');
  const inputs = { ...PANEL, ...BEADS, beadsAt: 40, foldBottom: 'up', measure: 'inside' };
  const made = madeOnce(template, inputs, UNPLANNED);
  // From the inside of the flange 40, from its outside a thickness more.
  expect(made.ok && made.reports[0]?.tables[0]?.rows).toEqual([
    [1, 41],
    [2, 141],
  ]);
});

describe('what is told', () => {
  // Sheet of 1: three thicknesses and half a stop hole beside a louvre, of 2 x 1 here, are 4; three
  // beside a bead. A bend of radius 1 takes 2.
  const S = { slit: 1, stopHole: 2 };
  test.each([
    ['louvres-too-close', { ...LOUVRES, ...S, louvrePitch: 20 }, { louvrePitch: 19.9 }],
    [
      'louvres-too-close',
      { ...LOUVRES, ...S, louvreRows: 2, louvreRowPitch: 88 },
      { louvreRowPitch: 87.9 },
    ],
    ['louvres-off-face', { ...LOUVRES, ...S, louvresUp: 4 }, { louvresUp: 3.9 }],
    ['louvres-off-face', { ...LOUVRES, ...S, louvresUp: 6, foldBottom: 'up' }, { louvresUp: 5.9 }],
    ['louvres-off-face', { ...LOUVRES, ...S, louvreLength: 292 }, { louvreLength: 292.1 }],
    ['louvre-closed', { ...LOUVRES, louvreHeight: 1.5 }, { louvreHeight: 1.4 }],
    [
      'louvre-too-steep',
      { ...LOUVRES, louvreHeight: 13.8, louvreRamp: 20 },
      { louvreHeight: 13.9 },
    ],
    ['louvre-all-ramp', { ...LOUVRES, louvreRamp: 39 }, { louvreRamp: 39.1 }],
    ['bead-too-deep', { ...BEADS, beadDepth: 6, beadPitch: 30 }, { beadDepth: 6.1 }],
    ['bead-too-short', { ...BEADS, beadClear: 138 }, { beadClear: 138.1 }],
    ['beads-too-close', { ...BEADS, beadPitch: 15 }, { beadPitch: 14.9 }],
    ['bead-near-bend', { ...BEADS, beadClear: 5, foldRight: 'down' }, { beadClear: 4.9 }],
    ['beads-off-face', { ...BEADS, beadsAt: 9 }, { beadsAt: 8.9 }],
    ['beads-off-face', { ...BEADS, beadsAt: 11, foldBottom: 'up' }, { beadsAt: 10.9 }],
    // Louvres reach up to 100 + 26 + 8 in the middle; a bead of 12 needs 4 and 6 more.
    [
      'bead-meets-louvre',
      { ...LOUVRES, ...S, ...BEADS, beads: 1, beadsAt: 144 },
      { beadsAt: 143.9 },
    ],
    ['vent-too-small', { width: 20, foldLeft: 'up', foldRight: 'up', radius: 8 }, { radius: 8.1 }],
    ['vent-flange-too-short', { foldLeft: 'up', flange: 3 }, { flange: 2.9 }],
  ])('%s, just outside and not just inside', async (rule, inside, outside) => {
    const [fits] = await make('vent-panel', { ...PANEL, ...inside });
    expect(rulesOf(fits, 'stop')).toEqual([]);
    const [refused] = await make('vent-panel', { ...PANEL, ...inside, ...outside });
    expect(rulesOf(refused, 'stop')).toEqual([rule]);
  });

  test('a ramp that tears, and how long it has to be', async () => {
    // 8 / sqrt(1.28^2 - 1) = 10.013
    const short = await makeOne('vent-panel', { ...PANEL, ...LOUVRES, louvreRamp: 10 });
    expect(short.result.findings.find((f) => f.rule === 'louvre-ramp-tears')?.message).toContain(
      'give 10.02 or more',
    );
    const long = await makeOne('vent-panel', { ...PANEL, ...LOUVRES, louvreRamp: 10.02 });
    expect(rulesOf(long, 'warn')).toEqual([]);
  });

  test('a bead that tears, by the elongation of the sheet', async () => {
    // Half a circle is pi / 2 - 1 = 57 % longer than its chord.
    const deep = { ...PANEL, ...BEADS, beadDepth: 6 };
    expect(rulesOf(await makeOne('vent-panel', deep), 'warn')).toEqual(['bead-tears']);
    const shallow = { ...deep, beadDepth: 3, material: '1050a-h14' };
    expect(rulesOf(await makeOne('vent-panel', shallow), 'warn')).toEqual(['bead-tears']);
  });

  test('a hole beside what is formed', async () => {
    const inputs = { ...PANEL, ...BEADS, beads: 1, beadsAt: 100 };
    // The bead reaches up to 106; three thicknesses and half of 6 more are 112.
    const near = await makeOne('vent-panel', { ...inputs, holes: '111.9,150,6' });
    expect(rulesOf(near, 'warn')).toEqual(['hole-in-formed']);
    const clear = await makeOne('vent-panel', { ...inputs, holes: '112,150,6' });
    expect(rulesOf(clear, 'warn')).toEqual([]);
  });

  test('the order of work, and what is dangerous in it', async () => {
    const told = async (more: object): Promise<string> => {
      const { result } = await makeOne('vent-panel', { ...PANEL, ...more });
      return result.findings
        .filter(({ rule }) => rule === 'vent-order' || rule.startsWith('caution-'))
        .map(({ rule, message }) => (rule === 'vent-order' ? message : rule))
        .join(' ');
    };
    const both = { ...LOUVRES, ...BEADS, louvreLength: 60, foldLeft: 'up' };
    const before = await told(both);
    expect(before).toMatch(/cut, form the louvres.*, roll the beads.*, trim, fold.*packing of 8/);
    expect(before).toMatch(/caution-lanced-edges/);
    expect(before).toMatch(/caution-press-work/);
    const after = await told({ ...both, louvreOrder: 'after folding' });
    expect(after).toMatch(/cut, roll the beads.*, trim, fold.*, form the louvres.*packing of 3/);
    expect(await told({ foldLeft: 'up' })).not.toMatch(/Order of work|press-work|lanced/);
  });
});
