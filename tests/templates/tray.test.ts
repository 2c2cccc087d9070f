import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { movePoint } from '../../src/geometry/motion2.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { checkTemplate, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { fixedRuns, shareOf } from '../helpers/extent.ts';
import { expectFoldsBack } from '../helpers/fold-back.ts';
import { foldedPlaces } from '../helpers/witness.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

checkTemplate('tray');

/** By hand with K = 0.42, 2 mm, inside radius 2: s = 4, BA = 4.46106, BD = 3.53894. */
const BY_HAND = {
  length: 200,
  depth: 100,
  height: 50,
  material: 's235',
  thickness: 2,
  radius: 2,
  rule: 'k:0.42',
};

type Box = readonly (readonly [low: number, high: number])[];

/**
 * The boxes round the panels of a folded tray, from the mould corner of its base, folded by the
 * witness.
 */
function boxesOf({ part, flat }: MadePart): Map<string, Box> {
  if (part === undefined || flat === undefined) throw new Error('no flat pattern');
  const places = foldedPlaces(flat, part.root);
  const root = flat.panels.find((p) => p.id === part.root);
  const origin = [...(root === undefined ? [0, 0] : movePoint(root.placement, [0, 0])), 0];
  return new Map(
    flat.panels.map((panel) => {
      const points = panel.region.flatMap((v) =>
        [0, flat.thicknessMm].map(
          (z) => places.get(panel.id)?.([...movePoint(panel.placement, [v.x, v.y]), z]) ?? [],
        ),
      );
      const along = (i: number) => points.map((p) => (p[i] ?? NaN) - (origin[i] ?? 0));
      return [
        panel.id,
        [0, 1, 2].map((i) => [Math.min(...along(i)), Math.max(...along(i))] as const),
      ];
    }),
  );
}

/** The largest distance between two boxes along any axis; below 0 they overlap. */
const apart = (a: Box, b: Box): number =>
  Math.max(
    ...a.map(([low, high], i) => Math.max(low - (b[i]?.[1] ?? NaN), (b[i]?.[0] ?? NaN) - high)),
  );

describe('a tray 200 x 100 x 50, 2 mm', () => {
  test.each(['open', 'butt'])('%s: blank and folded size', async (corner) => {
    const { blank, folded, result } = await makeOne('tray', { ...BY_HAND, corner });
    expect(blank.widthMm).toBeCloseTo(200 + 2 * (50 - 3.53894), 4);
    expect(blank.heightMm).toBeCloseTo(100 + 2 * (50 - 3.53894), 4);
    expect(folded.sizeMm).toEqual([200, 100, 50].map((size) => expect.closeTo(size, 6)));
    expect(result.bends).toHaveLength(4);
    expect(result.bends.map((b) => [b.id, b.direction])).toEqual(
      expect.arrayContaining(['A', 'B', 'C', 'D'].map((id) => [id, 'up'])),
    );
  });

  test('butt: left and right run the full depth, front and back end a gap before them', async () => {
    const [tray] = await make('tray', { ...BY_HAND, corner: 'butt' });
    const boxes = boxesOf(tray as MadePart);
    expect(boxes.get('left')?.[1]).toEqual([expect.closeTo(0, 6), expect.closeTo(100, 6)]);
    // 2 of metal and 0.5 of gap.
    expect(boxes.get('front')?.[0]).toEqual([expect.closeTo(2.5, 6), expect.closeTo(197.5, 6)]);
  });

  test('lapped: the tabs lie a gap inside left and right, over the bend of the base', async () => {
    const tray = await makeOne('tray', { ...BY_HAND, corner: 'lapped', lap: 20 });
    const boxes = boxesOf(tray);
    // From 4 of setback, an ear and a notch of 2 each, to the top; 20 from the outside of the
    // front, less its bend.
    const tall = [expect.closeTo(8, 6), expect.closeTo(50, 6)];
    expect(boxes.get('front tab at left')).toEqual([
      [expect.closeTo(2.5, 6), expect.closeTo(4.5, 6)],
      [expect.closeTo(4, 6), expect.closeTo(20, 6)],
      tall,
    ]);
    expect(boxes.get('back tab at right')).toEqual([
      [expect.closeTo(195.5, 6), expect.closeTo(197.5, 6)],
      [expect.closeTo(80, 6), expect.closeTo(96, 6)],
      tall,
    ]);
    // Flat, front and tabs are 195 - 8 + 2 (4.46106 + 16) wide, less than base and sides.
    const [j, k] = ['J', 'K'].map(
      (id) => tray.result.bends.find((b) => b.id === id)?.centreLine[0][0] ?? NaN,
    );
    expect(Math.abs((j ?? NaN) - (k ?? NaN))).toBeCloseTo(187 + 4.46106, 4);
    expect(tray.blank.widthMm).toBeCloseTo(292.92212, 4);
    expect(tray.folded.sizeMm).toEqual([200, 100, 50].map((size) => expect.closeTo(size, 6)));
  });

  test('lips turned in and out', async () => {
    const [tray] = await make('tray', { ...BY_HAND, lipFront: 'out', lipLeft: 'in', lipDepth: 15 });
    const boxes = boxesOf(tray as MadePart);
    // A lip's flat begins its setback of 4 from the outside of its side.
    expect(boxes.get('left lip')?.[0]).toEqual([expect.closeTo(4, 6), expect.closeTo(15, 6)]);
    // Outward, 15 from the outside of the lip's own bend, which is the inside of the front at 2.
    expect(boxes.get('front lip')?.[1]).toEqual([expect.closeTo(-13, 6), expect.closeTo(-2, 6)]);
    expect(boxes.get('front lip')?.[2]).toEqual([expect.closeTo(48, 6), expect.closeTo(50, 6)]);
  });

  test('a hem lies twice its radius from its side, as deep as asked from the top', async () => {
    const [tray] = await make('tray', {
      ...BY_HAND,
      lipBack: 'hem-in',
      hemRadius: 1,
      lipDepth: 12,
    });
    const hem = boxesOf(tray as MadePart).get('back lip');
    expect(hem?.[1]).toEqual([expect.closeTo(100 - 6, 6), expect.closeTo(100 - 4, 6)]);
    // 1 + 2 of bend at the top.
    expect(hem?.[2]).toEqual([expect.closeTo(38, 6), expect.closeTo(47, 6)]);
  });
});

describe('holes and the cable cut-out', () => {
  test('are measured from the left end of the tray seen from outside', async () => {
    const tray = await makeOne('tray', {
      ...BY_HAND,
      corner: 'lapped',
      holesBase: '30,50,6',
      holesFront: '22,30,6',
      holesRight: '22,40,6',
      holesBack: '22,30,6',
      holesLeft: '22,40,6',
    });
    const origin = movePoint(
      (tray.flat.panels.find((p) => p.id === 'base') as (typeof tray.flat.panels)[number])
        .placement,
      [0, 0],
    );
    const at = Object.fromEntries(
      tray.flat.cutouts.map((c) => [
        c.from,
        c.kind === 'round' ? [c.centre[0] - origin[0], c.centre[1] - origin[1]] : [],
      ]),
    );
    // A side's hole is its bend's length, less the 4 of base, plus 22 - 4, outside the mould line
    // of the base.
    const out = 4.46106 - 4 + 18;
    expect(at['holesBase 1']).toEqual([expect.closeTo(50, 6), expect.closeTo(30, 6)]);
    expect(at['holesFront 1']).toEqual([expect.closeTo(30, 6), expect.closeTo(-out, 4)]);
    expect(at['holesRight 1']).toEqual([expect.closeTo(200 + out, 4), expect.closeTo(40, 6)]);
    expect(at['holesBack 1']).toEqual([expect.closeTo(170, 6), expect.closeTo(100 + out, 4)]);
    expect(at['holesLeft 1']).toEqual([expect.closeTo(-out, 4), expect.closeTo(60, 6)]);
  });

  test('the cut-out takes a half circle and a rectangle, where it is asked for', async () => {
    const whole = await makeOne('tray', { ...BY_HAND, corner: 'butt' });
    const cut = await makeOne('tray', {
      ...BY_HAND,
      corner: 'butt',
      cableSide: 'right',
      cableAt: 30,
    });
    expect(whole.blank.areaMm2 - cut.blank.areaMm2).toBeCloseTo(20 * 5 + 50 * Math.PI, 6);
    const origin = movePoint(
      (cut.flat.panels.find((p) => p.id === 'base') as (typeof cut.flat.panels)[number]).placement,
      [0, 0],
    );
    const round = cut.flat.outline
      .filter((v) => Math.abs(v.bulge + 1) < 1e-9)
      .map((v) => v.y - origin[1]);
    expect(round.some((y) => Math.abs(y - 20) < 1e-6 || Math.abs(y - 40) < 1e-6)).toBe(true);
  });
});

test.each(['open', 'butt', 'lapped'])(
  '%s trays with lips fold back to their dimensions',
  async (corner) => {
    for (const measure of ['outside', 'inside']) {
      for (const part of await make('tray', {
        ...BY_HAND,
        corner,
        measure,
        lipFront: 'out',
        lipLeft: 'in',
        lipBack: 'in',
        hand: 'both',
      })) {
        expect(rulesOf(part, 'stop')).toEqual([]);
        if (part.part !== undefined && part.flat !== undefined)
          expectFoldsBack(part.part, part.flat);
      }
    }
  },
);

const lipsIn = (given: Readonly<Record<string, unknown>>, ...panels: readonly string[]): boolean =>
  panels.every((id) =>
    ['in', 'hem-in'].includes(String(given[`lip${id.charAt(0).toUpperCase()}${id.slice(1, -4)}`])),
  );

test('no two panels of a folded tray meet, whatever its corners and lips', async () => {
  const lip = fc.constantFrom('none', 'in', 'out', 'hem-in', 'hem-out');
  const { makeParts } = await import('../../src/use/make/make-parts.ts');
  const { default: template } = await import('../../templates/tray/index.ts');
  let whole = 0;
  const inputs = fc.record({
    length: fc.integer({ min: 80, max: 200 }),
    depth: fc.integer({ min: 80, max: 200 }),
    height: fc.integer({ min: 40, max: 70 }),
    corner: fc.constantFrom('open', 'butt', 'lapped'),
    measure: fc.constantFrom('outside', 'inside'),
    thickness: fc.constantFrom(1, 2),
    radius: fc.constantFrom(1, 2, 3),
    cornerGap: fc.constantFrom(0.2, 0.5, 2),
    lipFront: lip,
    lipBack: lip,
    lipLeft: lip,
    lipRight: lip,
    lipDepth: fc.integer({ min: 8, max: 25 }),
    hemRadius: fc.constantFrom(0, 1, 3),
  });
  fc.assert(
    fc.property(inputs, (given) => {
      const made = makeParts(template, given, UNPLANNED);
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      const [tray] = made.parts;
      if (tray === undefined || tray.stopped) return;
      whole += 1;
      const boxes = [...boxesOf(tray)];
      const joined = (a: string, b: string) =>
        tray.part?.folds.some(
          (f) =>
            [f.parent.panel, f.child.panel].includes(a) &&
            [f.parent.panel, f.child.panel].includes(b),
        );
      for (const [a, boxA] of boxes) {
        for (const [b, boxB] of boxes) {
          // Lips mitred in an open corner share a box; the gap of their mitre is tested with the
          // flattening.
          if (
            given.corner === 'open' &&
            a.endsWith('lip') &&
            b.endsWith('lip') &&
            lipsIn(given, a, b)
          )
            continue;
          if (a < b && joined(a, b) !== true && apart(boxA, boxB) < -1e-6)
            throw new Error(`${a} and ${b} overlap by ${-apart(boxA, boxB)}`);
        }
      }
    }),
    { numRuns: fixedRuns(300) },
  );
  expect(whole).toBeGreaterThan(shareOf(100));
});

/** s = 4, ears and notches 2, gap 0.5, hems of radius 1. */
describe.each([
  [{}, 'length', 17, 16.99, 'tray-too-small', '17 or more'],
  [{}, 'depth', 17, 16.99, 'tray-too-small', '17 or more'],
  [{}, 'height', 8, 7.99, 'tray-too-low', '8 or more'],
  [{ lipFront: 'out' }, 'lipDepth', 6, 5.99, 'lip-too-narrow', '6 or more'],
  [{ lipFront: 'hem-in', hemRadius: 1 }, 'lipDepth', 45.5, 45.51, 'hem-too-deep', 'to 45.5'],
  [
    { lipLeft: 'in', lipRight: 'in', lipDepth: 30 },
    'length',
    69,
    68.99,
    'lips-meet',
    'length 69 or more',
  ],
  [{ corner: 'lapped' }, 'lap', 6, 5.99, 'lap-does-not-fit', '6 to 49.75'],
  [{ corner: 'lapped' }, 'lap', 49.75, 49.76, 'lap-does-not-fit', '6 to 49.75'],
  [{ corner: 'lapped' }, 'height', 12, 11.99, 'no-height-for-tab', '12 or more'],
  [{ cableSide: 'front' }, 'cableDepth', 10, 9.99, 'cable-depth', '10 to 44'],
  [{ cableSide: 'front' }, 'cableDepth', 44, 44.01, 'cable-depth', '10 to 44'],
  [{ cableSide: 'front' }, 'cableAt', 14.5, 14.49, 'cable-off-side', '14.5 to 185.5'],
])('%o: %s up to its figure', (more, input, inside, outside, rule, told) => {
  test(`${inside} makes a tray, ${outside} is told what would`, async () => {
    expect(
      rulesOf((await make('tray', { ...BY_HAND, ...more, [input]: inside }))[0], 'stop'),
    ).toEqual([]);
    const [part] = await make('tray', { ...BY_HAND, ...more, [input]: outside });
    expect(rulesOf(part, 'stop')).toEqual([rule]);
    expect(part?.result.findings.find((f) => f.severity === 'stop')?.message).toContain(told);
    expect(part?.files()).toEqual([]);
  });
});

test('a cable cut-out and a lip on one side do not go together', async () => {
  expect(
    rulesOf((await make('tray', { ...BY_HAND, cableSide: 'left', lipLeft: 'in' }))[0], 'stop'),
  ).toEqual(['cable-through-lip']);
});
