import { describe, expect, test } from 'vitest';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';
import { apart, edgesOf, foldedTransition } from '../helpers/folded-transition.ts';
import { foldedPlaces } from '../helpers/witness.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

/** 1 mm sheet measured outside: on its middle a square of 200 to a round of 120 in 150. */
const SQUARE = {
  width: 201,
  depth: 201,
  diameter: 121,
  length: 150,
  divisions: 12,
  thickness: 1,
  material: 'dc01',
};
const OFFSET = {
  ...SQUARE,
  depth: 131,
  offsetRight: 55,
  offsetBack: -20,
  length: 190,
  divisions: 16,
};

const figuresOf = async (inputs: Record<string, unknown>): Promise<Record<string, number>> => {
  const made = makeParts(await loadFamily('duct-transition'), inputs, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return Object.fromEntries(
    (made.reports[0]?.figures ?? []).map(({ name, value }) => [name, value]),
  );
};

describe('what it says of the air', () => {
  test('areas and speeds, by hand', async () => {
    const figures = await figuresOf(SQUARE);
    // Clear: 199 square = 39601; round of 119: pi / 4 x 14161 = 11122.0; 39601 / 11122.0 = 3.5606.
    expect(figures['inlet area']).toBeCloseTo(39601, 9);
    expect(figures['outlet area']).toBeCloseTo(11122.02, 2);
    expect(figures['speed at the outlet']).toBeCloseTo(3.5606, 4);
    expect(figures['change of speed']).toBeCloseTo(256.06, 2);
    // A square is its own hydraulic diameter; atan(40 / 150); 40 / tan 24 = 89.84.
    expect(figures['hydraulic diameter']).toBeCloseTo(199, 9);
    expect(figures['steepest side']).toBeCloseTo(14.931, 3);
    expect(figures['ordinary length']).toBeCloseTo(89.84, 2);
  });

  test('turned round, the air slows down as much', async () => {
    const figures = await figuresOf({ ...SQUARE, flow: 'to-rectangle' });
    expect(figures['speed at the outlet']).toBeCloseTo(1 / 3.5606, 4);
    expect(figures['inlet area']).toBeCloseTo(11122.02, 2);
  });

  test('measured inside the sheet has its ends as wide as asked', async () => {
    const figures = await figuresOf({
      ...SQUARE,
      width: 199,
      depth: 199,
      diameter: 119,
      measure: 'inside',
    });
    expect(figures['inlet area']).toBeCloseTo(199 * 199, 9);
    // Middle 200, 200, 120 as before: circumference 376.991.
    expect(figures['outlet area']).toBeCloseTo(11122.02, 2);
    expect(
      (await figuresOf({ ...SQUARE, width: 199, depth: 199, diameter: 119, measure: 'inside' }))[
        'round edge'
      ],
    ).toBeCloseTo(Math.PI * 120, 9);
  });

  test('a side that leans more than 24 degrees is told the length that would do', async () => {
    // 100 - 60 = 40 over 89.8: 24.01 degrees; over 89.85: 24.0.
    const [steep, ordinary] = await Promise.all(
      [89.8, 89.85].map(
        async (length) => (await make('duct-transition', { ...SQUARE, length }))[0],
      ),
    );
    expect(steep?.result.findings.find((f) => f.rule === 'steep-taper')?.message).toContain(
      'length of 89.85',
    );
    expect(rulesOf(ordinary, 'note')).not.toContain('steep-taper');
  });
});

describe('seams', () => {
  test('the edges of one up the middle of a side stand the gap apart when folded', async () => {
    const { part, flat } = await makeOne('duct-transition', { ...SQUARE, cornerGap: 1.2 });
    if (part === undefined) throw new Error('no part');
    expectFoldsBack(part, flat);
    const places = foldedPlaces(flat, part.root);
    const [first = [], second = []] = ['front 1', 'front 2'].map((id) => {
      const panel = flat.panels.find((p) => p.id === id);
      if (panel === undefined) throw new Error(id);
      const { c, s, x: mx, y: my } = panel.placement;
      return panel.region.map(
        ({ x, y }) =>
          places.get(id)?.([c * x - s * y + mx, s * x + c * y + my, 0.5]) ?? ([0, 0, 0] as const),
      );
    });
    // It stands square on the edge at the rectangle: the two feet are the nearest points.
    expect(Math.min(...first.flatMap((a) => second.map((b) => apart(a, b))))).toBeCloseTo(1.2, 6);
    // Of the round edge the gap is gone, but for how little its two end chords lean: 1.2 (1 - cos
    // 15).
    const rim = edgesOf(flat)
      .filter((mm) => mm > 20 && mm < 35)
      .reduce((a, b) => a + b, 0);
    expect(Math.abs(rim - (Math.PI * 120 - 1.2))).toBeLessThan(0.06);
  });

  test.each([
    ['front', 'left'],
    ['right', 'front'],
    ['back', 'right'],
    ['left', 'back'],
  ] as const)(
    'a corner seam beside the %s begins with its whole triangle and ends with the %s',
    async (seamSide, last) => {
      const { part, flat, result } = await makeOne('duct-transition', {
        ...OFFSET,
        seam: 'corner',
        seamSide,
        cornerGap: 0,
      });
      if (part === undefined) throw new Error('no part');
      expect(part.panels[0]?.id).toBe(seamSide);
      expect(part.panels.filter((p) => !p.id.includes(' ')).at(-1)?.id).toBe(last);
      // 4 fans of 4 and 4 flats, one fold fewer.
      expect(result.bends).toHaveLength(19);
      expectFoldsBack(part, flat);
      expect(foldedTransition(flat, part.root).all).toHaveLength(4 + 16);
    },
  );

  test('wherever the seam is, the metal is the same', async () => {
    const areas = await Promise.all(
      ['front', 'right', 'back', 'left'].flatMap((seamSide) =>
        ['middle', 'corner'].map(
          async (seam) =>
            (await makeOne('duct-transition', { ...OFFSET, seam, seamSide, cornerGap: 0 })).blank
              .areaMm2,
        ),
      ),
    );
    for (const area of areas) expect(area).toBeCloseTo(areas[0] as number, 6);
  });

  test.each([
    ['corner', { ...SQUARE, diameter: 13, divisions: 96 }],
    // So flat and so far off that the facets beside the seam are splinters.
    [
      'middle',
      {
        ...SQUARE,
        width: 393,
        depth: 11,
        diameter: 400,
        length: 12,
        offsetRight: 10,
        offsetBack: 298,
        divisions: 48,
        seamSide: 'left',
        blanks: 'halves',
      },
    ],
  ])('a gap that cuts facets off is told the widest that does not: %s', async (seam, figures) => {
    const inputs = { ...figures, seam };
    const [bad] = await make('duct-transition', { ...inputs, cornerGap: 9 });
    expect(rulesOf(bad, 'stop')).toEqual(['seam-cuts-through']);
    const most =
      bad?.result.findings
        .find((f) => f.severity === 'stop')
        ?.mends?.find(({ input }) => input === 'cornerGap')?.atMost ?? NaN;
    expect(
      rulesOf((await make('duct-transition', { ...inputs, cornerGap: most }))[0], 'stop'),
    ).toEqual([]);
    expect(
      rulesOf((await make('duct-transition', { ...inputs, cornerGap: most + 0.01 }))[0], 'stop'),
    ).toEqual(['seam-cuts-through']);
  });
});

describe('halves and collar', () => {
  test('of a concentric transition the halves are the same, and together the whole', async () => {
    const halves = await make('duct-transition', { ...SQUARE, blanks: 'halves', cornerGap: 0 });
    expect(halves.map((h) => h.result.name)).toEqual([
      'duct-transition-half-1',
      'duct-transition-half-2',
    ]);
    const areas = halves.map((h) => h.result.blank?.areaMm2 ?? 0);
    const { blank } = await makeOne('duct-transition', { ...SQUARE, cornerGap: 0 });
    expect(areas).toEqual([1, 2].map(() => expect.closeTo(blank.areaMm2 / 2, 6)));
    expect(halves.map((h) => h.result.bends.length)).toEqual([8, 8]);
  });

  test.each(['middle', 'corner'])(
    'of an offset one they fold back, and their seams are as long as each other: %s',
    async (seam) => {
      const halves = await make('duct-transition', {
        ...OFFSET,
        blanks: 'halves',
        seam,
        seamSide: 'left',
        cornerGap: 0,
      });
      const whole = await makeOne('duct-transition', { ...OFFSET, cornerGap: 0 });
      for (const { part, flat } of halves) {
        if (part === undefined || flat === undefined) throw new Error('no part');
        expectFoldsBack(part, flat);
      }
      expect(halves.reduce((sum, h) => sum + (h.result.blank?.areaMm2 ?? 0), 0)).toBeCloseTo(
        whole.blank.areaMm2,
        6,
      );
      // The long edges of one half are found again on the other: chords are 23.6 long, half a side 65
      // or 100.
      const [one = [], other = []] = halves.map(({ flat }) =>
        flat === undefined
          ? []
          : edgesOf(flat).filter((mm) => mm > 150 && Math.abs(mm - 200) > 1e-6),
      );
      expect(one).toHaveLength(2);
      expect(one.toSorted((a, b) => a - b)).toEqual(
        other.toSorted((a, b) => a - b).map((mm) => expect.closeTo(mm, 6)),
      );
    },
  );

  test('the collar is a strip of the mean circumference less the gap', async () => {
    const parts = await make('duct-transition', { ...SQUARE, collar: 35, cornerGap: 1 });
    expect(parts.map((p) => p.result.piece)).toEqual(['transition', 'collar']);
    const collar = parts[1]?.result;
    expect(collar?.blank?.widthMm).toBeCloseTo(Math.PI * 120 - 1, 9);
    expect(collar?.blank?.heightMm).toBe(35);
    expect(collar?.findings.find((f) => f.rule === 'roll-collar')?.message).toContain('119 inside');
  });
});

describe('figures that cannot be', () => {
  test.each([
    ['divisions-by-four', 'divisions', 14, 'give divisions 12, or divisions 16', 16],
    ['end-too-small', 'width', 10, 'give 13 or more', 13],
    ['radius-over-round', 'radius', 54.51, 'give 54.5 or less', 54.5],
  ] as const)(
    '%s: the figure that works is given, and works',
    async (rule, name, wrong, told, right) => {
      // 6 mm sheet: 2 x 6 + 1; 121 / 2 - 6.
      const inputs = { ...SQUARE, thickness: 6, material: 's235', cornerGap: 0 };
      const [bad] = await make('duct-transition', { ...inputs, [name]: wrong });
      expect(rulesOf(bad, 'stop')).toEqual([rule]);
      expect(bad?.result.findings.find((f) => f.rule === rule)?.message).toContain(told);
      expect(bad?.files()).toEqual([]);
      const [good] = await make('duct-transition', { ...inputs, [name]: right });
      expect(rulesOf(good, 'stop')).toEqual([]);
    },
  );

  test('few divisions are a warning, an unused rule or corner radius a note', async () => {
    const [few, enough] = await Promise.all(
      [8, 12].map(
        async (divisions) => (await make('duct-transition', { ...SQUARE, divisions }))[0],
      ),
    );
    expect(rulesOf(few, 'warn')).toEqual(['few-divisions']);
    expect(rulesOf(enough, 'warn')).toEqual([]);
    const [odd] = await make('duct-transition', { ...SQUARE, rule: 'measured', cornerRadius: 5 });
    expect(
      odd?.result.findings.flatMap(({ rule, inputs }) => (rule === 'input-unused' ? inputs : [])),
    ).toEqual(['rule', 'cornerRadius']);
    expect(rulesOf(odd, 'stop')).toEqual([]);
  });

  test('chords are told how much is short: 1.14 percent at 12 divisions, as published', async () => {
    const [part] = await make('duct-transition', { ...SQUARE, roundEdge: 'chords' });
    expect(part?.result.findings.find((f) => f.rule === 'round-edge-short')?.message).toContain(
      '1.14 percent',
    );
  });
});
