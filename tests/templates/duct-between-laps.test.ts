import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { weldsOf } from '../../src/assembly/weld-seams.ts';
import { loadFamily, make } from '../helpers/check-template.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import {
  foldedDuct,
  type FoldedBlank,
  inner,
  minus,
  type Point3,
  size,
  spread,
} from '../helpers/folded-duct.ts';
import { setsFrom } from '../helpers/made-sets.ts';

type Inputs = Readonly<Record<string, unknown>>;

const LAPPED = { seam: 'lapped', thickness: 1, material: 'dc01', cornerGap: 0.2 };

/** Ducts with walls that are wide at both ends where their seams are, most of them askew. */
const DUCTS: readonly (readonly [string, Inputs])[] = [
  ['rectangles', { near: '240 x 160', far: '180 x 120', length: 200, blanks: 'two' }],
  [
    'offset and tipped, four blanks',
    { near: '200 x 150', far: '200 x 120', length: 180, offsetUp: 37, faceUp: 23, blanks: 'four' },
  ],
  ['one blank, inches', { near: '8in x 6in', far: '6in x 5in', length: '7in', lap: '0.5in' }],
  [
    'rounded corners, inside',
    {
      near: '300 x 200 r30',
      far: '260 x 180 r30',
      length: 150,
      lapSide: 'inside',
      blanks: 'three',
    },
  ],
  [
    'rounds turned by an odd angle',
    {
      near: 'round 300',
      far: 'round 260',
      length: 190,
      offsetRight: 31,
      faceRight: 17.3,
      lap: 8,
      blanks: 'two',
    },
  ],
  ['rounds', { near: 'round 300', far: 'round 260', length: 120, lap: 12, blanks: 'two' }],
  [
    'a trapezoid, the walls leaning',
    { near: '240 to 200 x 160', far: '150 to 125 x 100', length: 130, offsetUp: 40, blanks: 'two' },
  ],
];

const CASES = DUCTS.flatMap(([name, inputs]) =>
  ['outside', 'inside'].flatMap((lapSide) =>
    [false, true].map(
      (isMirrored) =>
        [
          `${name}, ${lapSide}, ${isMirrored ? 'right' : 'left'}`,
          { ...LAPPED, ...inputs, lapSide } as Inputs,
          isMirrored,
        ] as const,
    ),
  ),
);

const unit = (a: Point3): Point3 => a.map((c) => c / size(a)) as unknown as Point3;

/** Blanks whose last walls lie flat on the first of the next, by the lap and a thickness and a gap aside. */
const expectLapped = (
  blanks: readonly FoldedBlank[],
  isOutside: boolean,
  lapMm: number,
  offMm: number,
): void => {
  const idOf = ({ id }: { readonly id: string }): number => Number(id.split(' ')[1]);
  const all = blanks.flatMap(({ walls }) => walls.flatMap(({ corners }) => corners));
  const middle = [0, 1, 2].map(
    (k) => all.reduce((sum, p) => sum + (p[k] as number), 0) / all.length,
  ) as unknown as Point3;
  for (const [i, { walls }] of blanks.entries()) {
    const next = blanks[(i + 1) % blanks.length]?.walls ?? [];
    const lying = walls.toSorted((a, b) => idOf(b) - idOf(a))[0]?.corners ?? [];
    const under = next.toSorted((a, b) => idOf(a) - idOf(b))[0]?.corners ?? [];
    const face = unit(spread(under));
    // Out of the duct is where its middle is not.
    const inward = Math.sign(inner(face, minus(middle, under[0] as Point3)));
    for (const p of lying)
      expect(inner(face, minus(p, under[0] as Point3))).toBeCloseTo(
        inward * (isOutside ? -offMm : offMm),
        6,
      );
    // Beyond the free edge of the wall that it covers its own lies in by the lap.
    expect(apartMm(lying, under, face)).toContainEqual(expect.closeTo(lapMm, 6));
  }
};

const wholeOf = (blanks: ReturnType<typeof foldedDuct>): readonly FoldedBlank[] =>
  blanks.map((blank) => {
    if (typeof blank === 'string') throw new Error(blank);
    return blank;
  });

/** Ducts that have walls wide at both ends: of two rounds, and of level edges alone. */
const random = fc
  .record({
    isRound: fc.boolean(),
    wide: fc.integer({ min: 120, max: 400 }),
    high: fc.integer({ min: 80, max: 300 }),
    share: fc.integer({ min: 60, max: 120 }),
    length: fc.integer({ min: 80, max: 400 }),
    offset: fc.integer({ min: -80, max: 80 }),
    tip: fc.integer({ min: -35, max: 35 }),
    blanks: fc.constantFrom('one', 'two', 'three', 'four'),
    seamSide: fc.constantFrom('top', 'right', 'bottom', 'left'),
    lapSide: fc.constantFrom('outside', 'inside'),
    lap: fc.integer({ min: 5, max: 30 }),
    thickness: fc.constantFrom(0.8, 1.5, 3),
    cornerGap: fc.constantFrom(0, 0.3),
  })
  .map(({ isRound, wide, high, share, offset, tip, ...more }) => ({
    ...more,
    near: isRound ? `round ${wide}` : `${wide} x ${high}`,
    far: isRound ? `round ${(wide * share) / 100}` : `${wide} x ${(high * share) / 100}`,
    offsetUp: offset,
    faceUp: tip,
  }));

describe('lapped seams', () => {
  test.each(CASES)('%s: walls lie flat on each other by the lap', (_, inputs, isMirrored) => {
    const blanks = wholeOf(foldedDuct(inputs, isMirrored));
    const butt = foldedDuct({ ...inputs, seam: 'butt', lap: undefined, lapSide: undefined });
    expect(butt).toHaveLength(blanks.length);
    const lap = inputs['lap'] === '0.5in' ? 12.7 : Number(inputs['lap'] ?? 15);
    expectLapped(blanks, inputs['lapSide'] === 'outside', lap, 1.2);
  });

  test('of random rounds and tipped rectangles there are whole ones, or no room for the lap', () => {
    let whole = 0;
    fc.assert(
      fc.property(random, fc.boolean(), (inputs, isMirrored) => {
        const blanks = foldedDuct({ ...LAPPED, ...inputs }, isMirrored);
        if (typeof blanks[0] === 'string') {
          expect(['lap-without-room', 'openings-face', 'openings-cross']).toContain(blanks[0]);
          return;
        }
        whole += 1;
        const { lapSide, lap, thickness, cornerGap } = inputs;
        expectLapped(wholeOf(blanks), lapSide === 'outside', lap, thickness + cornerGap);
      }),
      { numRuns: fuzzRuns(60, 20) },
    );
    expect(whole).toBeGreaterThan(shareOf(4));
  });

  test('all corners stand in the planes of both openings', () => {
    const [, askew] = DUCTS[1] as readonly [string, Inputs];
    const [plain, lapped] = [{}, LAPPED].map((seam) =>
      foldedDuct({ ...LAPPED, ...askew, seam: 'butt', ...seam }),
    );
    const far = (plain ?? []).flatMap((b) =>
      typeof b === 'string'
        ? []
        : b.walls.flatMap(({ corners }) => corners.filter((p) => p[2] > 60)),
    );
    const [a, b, c] = [far[0], far[3], far[9]] as [Point3, Point3, Point3];
    const across = unit(spread([a, b, c]));
    expect(lapped).toHaveLength(4);
    for (const blank of lapped ?? [])
      for (const { corners } of typeof blank === 'string' ? [] : blank.walls)
        for (const p of corners)
          expect(Math.min(Math.abs(p[2]), Math.abs(inner(across, minus(p, a))))).toBeLessThan(1e-6);
  });

  test.each(['left', 'right'])('each is a weld with its length, %s hand', async (hand) => {
    const family = await loadFamily('duct-between');
    const inputs = { ...LAPPED, near: '240 x 160', far: '240 x 160', length: 200, blanks: 'two' };
    const [set] = setsFrom(family, { ...inputs, hand });
    const welds = set === undefined ? [] : weldsOf(set.assembly);
    expect(welds.map(({ kind }) => kind)).toEqual(['flange']);
    expect(welds[0]?.runs.map(({ lengthMm }) => lengthMm)).toEqual([
      expect.closeTo(200, 1),
      expect.closeTo(200, 1),
    ]);
  });

  test.each<readonly [string, Inputs]>([
    ['too wide for the wall', { near: '240 x 160', far: '180 x 120', length: 200, lap: 150 }],
    ['a wall that ends in a point', { near: '240 x 160', far: 'round 150', length: 200 }],
  ])('%s is refused, with a mend that passes', async (_, inputs) => {
    const rules = async (more: Inputs) =>
      (await make('duct-between', { ...LAPPED, ...inputs, ...more })).flatMap(({ result }) =>
        result.findings.filter(({ severity }) => severity === 'stop'),
      );
    const [stop] = await rules({});
    expect(stop?.rule).toBe('lap-without-room');
    expect(stop?.mends?.length).toBeGreaterThan(0);
    const [mend] = stop?.mends ?? [];
    expect(
      await rules({
        [mend?.input ?? '']: mend?.atMost ?? mend?.value,
        ...(mend?.input === 'seam' && { lap: undefined }),
      }),
    ).toEqual([]);
  });
});

/**
 * How far edges of one flat wall lie from those of another that run alike, of those that go from end
 * to end of the duct, seen square to the other wall.
 */
const apartMm = (lying: readonly Point3[], under: readonly Point3[], face: Point3): number[] => {
  const flat = lying.map((p) => {
    const h = inner(face, minus(p, under[0] as Point3));
    return p.map((c, k) => c - h * (face[k] as number)) as unknown as Point3;
  });
  const edges = (points: readonly Point3[]) =>
    points.map((p, i) => [p, points[(i + 1) % points.length] as Point3] as const);
  return edges(flat).flatMap(([p, q]) =>
    edges(under).flatMap(([a, b]) => {
      const [u, w] = [unit(minus(q, p)), unit(minus(b, a))];
      if (Math.abs(Math.abs(inner(u, w)) - 1) > 1e-9) return [];
      const between = minus(p, a);
      const along = inner(between, w);
      return [size(minus(between, w.map((c) => c * along) as unknown as Point3))];
    }),
  );
};
