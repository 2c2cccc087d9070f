import { describe, expect, test } from 'vitest';
import { weldsOf } from '../../src/assembly/weld-seams.ts';
import { loadFamily, make } from '../helpers/check-template.ts';
import { foldedDuct, inner, minus, type Point3, size, spread } from '../helpers/folded-duct.ts';
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

describe('lapped seams', () => {
  test.each(CASES)('%s: walls lie flat on each other by the lap', (_, inputs, isMirrored) => {
    const blanks = foldedDuct(inputs, isMirrored);
    const lap = inputs['lap'] === '0.5in' ? 12.7 : Number(inputs['lap'] ?? 15);
    const butt = foldedDuct({ ...inputs, seam: 'butt', lap: undefined, lapSide: undefined });
    expect(butt).toHaveLength(blanks.length);
    for (const [i, blank] of blanks.entries()) {
      if (typeof blank === 'string') throw new Error(blank);
      const next = blanks[(i + 1) % blanks.length];
      if (next === undefined || typeof next === 'string') throw new Error('no next blank');
      const idOf = ({ id }: { id: string }): number => Number(id.split(' ')[1]);
      const [lying, under] = [
        blank.walls.toSorted((a, b) => idOf(b) - idOf(a))[0],
        next.walls.toSorted((a, b) => idOf(a) - idOf(b))[0],
      ];
      if (lying === undefined || under === undefined) throw new Error('no walls');
      const face = unit(spread(under.corners));
      const off = lying.corners.map((p) => inner(face, minus(p, under.corners[0] as Point3)));
      // Out of the duct is where its middle is not.
      const all = blanks.flatMap((b) =>
        typeof b === 'string' ? [] : b.walls.flatMap((w) => w.corners),
      );
      const middle = [0, 1, 2].map(
        (k) => all.reduce((sum, p) => sum + (p[k] as number), 0) / all.length,
      ) as unknown as Point3;
      const inward = Math.sign(inner(face, minus(middle, under.corners[0] as Point3)));
      const want = inward * (inputs['lapSide'] === 'outside' ? -1.2 : 1.2);
      for (const mm of off) expect(mm).toBeCloseTo(want, 6);
      // Beyond the free edge of the wall that it covers its own lies in by the lap.
      expect(apartMm(lying.corners, under.corners, face)).toContainEqual(expect.closeTo(lap, 6));
    }
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
