import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeWhole, type Whole } from '../helpers/whole-parts.ts';
import { loopExtents } from '../../src/geometry/extents.ts';
import { fixedRuns } from '../helpers/extent.ts';
import { foldBlank } from '../helpers/folded-solid.ts';
import { loadSolids, type SolidBox, type Solids } from '../helpers/solid.ts';

/** A lid over a box and a plug in one, measured on both folded up by the solid kernel. */

type Axis = 0 | 1;
interface Span {
  readonly low: number;
  readonly high: number;
}

interface Boxes {
  readonly box: ReadonlyMap<string, SolidBox>;
  readonly all: readonly SolidBox[];
}

/** Of a part folded up once for all that is measured on it. */
const boxesOf = (solids: Solids, made: Whole): Boxes => {
  const found = known.get(made) ?? foldedBoxes(solids, made);
  known.set(made, found);
  return found;
};
const known = new WeakMap<Whole, Boxes>();

const foldedBoxes = (solids: Solids, { part, flat }: Whole): Boxes => {
  const { panels, bends } = foldBlank(solids, part, flat);
  const box = new Map([...panels].map(([id, solid]) => [id, solids.box(solid)]));
  return { box, all: [...box.values(), ...[...bends.values()].map((b) => solids.box(b))] };
};

/** From the outermost metal on one side to that on the other. */
const outside = (solids: Solids, made: Whole, axis: Axis): Span => {
  const { all } = boxesOf(solids, made);
  return {
    low: Math.min(...all.map((b) => b.low[axis])),
    high: Math.max(...all.map((b) => b.high[axis])),
  };
};

/** Between two panels that stand square, by the faces that look at each other. */
const between = (solids: Solids, made: Whole, ids: readonly string[], axis: Axis): number => {
  const { box } = boxesOf(solids, made);
  const [a, b] = ids
    .map((id) => box.get(id))
    .toSorted((p, q) => (p?.low[axis] ?? 0) - (q?.low[axis] ?? 0));
  return (b?.low[axis] ?? NaN) - (a?.high[axis] ?? NaN);
};

const SIDES = ['bottom', 'right', 'top', 'left'] as const;

const boxCase = fc.record({
  width: fc.integer({ min: 80, max: 200 }),
  depth: fc.integer({ min: 60, max: 150 }),
  thickness: fc.constantFrom(1, 1.5, 2, 3),
  radius: fc.constantFrom(1, 2, 3.5),
  measure: fc.constantFrom('outside', 'inside'),
  gap: fc.constantFrom(0, 0.5, 1, 2.5),
  heights: fc.tuple(...SIDES.map(() => fc.integer({ min: 25, max: 45 }))),
  direction: fc.constantFrom('up', 'down'),
  lip: fc.constantFrom<number[]>(0, 12),
  lipAngle: fc.constantFrom(60, 90),
  skirts: fc.constantFrom('up', 'down'),
});

type BoxCase = typeof boxCase extends fc.Arbitrary<infer T> ? T : never;

const walls = ({ heights, direction, lip, lipAngle }: BoxCase) => [
  ...SIDES.map((on, i) => ({ name: `wall ${on}`, on, height: heights[i], direction })),
  ...(lip === 0
    ? []
    : [
        {
          name: 'lip',
          on: 'wall right end',
          height: lip,
          angle: lipAngle,
          direction: direction === 'up' ? 'down' : 'up',
        },
      ]),
];

const fitted = async (c: BoxCase, name: string, fits: string) => {
  const parts = await makeWhole({
    thickness: c.thickness,
    radius: c.radius,
    measure: c.measure,
    hand: 'both',
    cornerGap: 1,
    pieces: [
      { name: 'box', base: `${c.width} x ${c.depth}`, flanges: walls(c) },
      {
        name,
        fits: `${fits} gap ${c.gap}`,
        flanges: SIDES.map((on) => ({ name: on, on, height: 20, direction: c.skirts })),
      },
    ],
  });
  const hands = ['left', 'right'].map((hand) =>
    ['box', name].map((piece) =>
      parts.find((p) => p.result.piece === piece && p.result.hand === hand),
    ),
  );
  return hands as [Whole, Whole][];
};

describe('pieces that fit others', async () => {
  const withSolids = await loadSolids();

  it('goes over a box with the gap on every side, whatever stands out of it', async () => {
    await fc.assert(
      fc.asyncProperty(boxCase, async (c) => {
        for (const [box, lid] of await fitted(c, 'lid', 'over box'))
          withSolids((solids) => {
            for (const [axis, ids] of [
              [0, ['left', 'right']],
              [1, ['bottom', 'top']],
            ] as const) {
              const { low, high } = outside(solids, box, axis);
              expect(between(solids, lid, ids, axis)).toBeCloseTo(high - low + 2 * c.gap, 4);
            }
          });
      }),
      { numRuns: fixedRuns(45, 45) },
    );
  });

  it('goes into a box with the gap on every side', async () => {
    await fc.assert(
      fc.asyncProperty(boxCase, async (given) => {
        const c = { ...given, lip: 0 };
        for (const [box, tray] of await fitted(c, 'tray', 'into box'))
          withSolids((solids) => {
            for (const [axis, ids] of [
              [0, ['wall left', 'wall right']],
              [1, ['wall bottom', 'wall top']],
            ] as const) {
              const { low, high } = outside(solids, tray, axis);
              expect(high - low).toBeCloseTo(between(solids, box, ids, axis) - 2 * c.gap, 4);
            }
          });
      }),
      { numRuns: fixedRuns(45, 45) },
    );
  });

  it('goes over a hexagon with the gap beside each wall', async () => {
    for (const measure of ['outside', 'inside']) {
      const sides = [1, 2, 3, 4, 5, 6];
      const parts = await makeWhole({
        thickness: 2,
        measure,
        pieces: [
          {
            name: 'pot',
            base: 'polygon 6 120',
            flanges: sides.map((n) => `wall ${n} on ${n} 40 90 up`),
          },
          {
            name: 'lid',
            fits: { over: 'pot', gap: 1.5 },
            flanges: sides.map((n) => `skirt ${n} on ${n} 15 90 up`),
          },
        ],
      });
      const [pot, lid] = parts as [Whole, Whole];
      withSolids((solids) => {
        // Walls 1 and 4 are level and look down and up on the drawing.
        const { low, high } = outside(solids, pot, 1);
        expect(between(solids, lid, ['skirt 1', 'skirt 4'], 1)).toBeCloseTo(high - low + 3, 4);
        const { part, flat } = lid;
        const skirts = [...foldBlank(solids, part, flat).panels].filter(([id]) => id !== 'base');
        const across = sides
          .slice(0, 3)
          .map((n) =>
            solids.distance(
              skirts.find(([id]) => id === `skirt ${n}`)?.[1] as never,
              skirts.find(([id]) => id === `skirt ${n + 3}`)?.[1] as never,
            ),
          );
        for (const mm of across) expect(mm).toBeCloseTo(high - low + 3, 4);
      });
    }
  });

  it('follows an outline with a corner that looks in, and one with arcs', async () => {
    const size = (made: Whole | undefined): readonly number[] => {
      const box = loopExtents(made?.part.panels[0]?.outline ?? []);
      return [(box?.maxX ?? 0) - (box?.minX ?? 0), (box?.maxY ?? 0) - (box?.minY ?? 0)];
    };
    const outline =
      '0,0 edge a; 100,0 edge b; 100,40 edge c; 50,40 edge d; 50,90 edge e; 0,90 edge f';
    const [, insert, cover] = await makeWhole({
      thickness: 2,
      radius: 2,
      pieces: [
        {
          name: 'tray',
          base: { outline },
          flanges: ['a', 'b', 'e', 'f'].map((on) => `wall ${on} on ${on} 30 90 up`),
        },
        { name: 'insert', fits: 'into tray gap 1' },
        { name: 'cover', fits: 'over tray gap 1' },
      ],
    });
    // Two walls across either way, and a gap beside each.
    expect(size(insert)).toEqual([expect.closeTo(100 - 6, 9), expect.closeTo(90 - 6, 9)]);
    expect(size(cover)).toEqual([expect.closeTo(102, 9), expect.closeTo(92, 9)]);
    const [, over, into] = await makeWhole({
      thickness: 2,
      radius: 2,
      pieces: [
        { name: 'round', base: 'disc 80' },
        { name: 'over', fits: 'over round gap 1.5' },
        { name: 'into', fits: 'into round gap 1' },
      ],
    });
    expect(size(over)).toEqual([expect.closeTo(83, 9), expect.closeTo(83, 9)]);
    expect(size(into)).toEqual([expect.closeTo(78, 9), expect.closeTo(78, 9)]);
  });

  it('is the same whatever the bend rule', async () => {
    const bases = [];
    for (const rule of ['din6935', 'k:0.3', 'k:0.5']) {
      const [, lid] = await makeWhole({
        thickness: 2,
        rule,
        pieces: [
          { name: 'box', base: '90 x 70', flanges: 'a on left 30 80 up; lip on a end 10 120 down' },
          { name: 'lid', fits: 'over box gap 1', flanges: 'skirt on left 15 90 up' },
        ],
      });
      bases.push(lid?.part.panels[0]?.outline);
    }
    expect(bases[1]).toEqual(bases[0]);
    expect(bases[2]).toEqual(bases[0]);
  });

  it('tells of a lid that rides on the radius of its bends, and how high', async () => {
    const [, lid] = await makeWhole({
      thickness: 2,
      radius: 3,
      pieces: [
        { name: 'box', base: '90 x 70', flanges: 'a on left 30 90 up; b on right 30 90 up' },
        { name: 'lid', fits: 'over box gap 1', flanges: 'c on left 15 90 up; d on right 15 90 up' },
      ],
    });
    const note = lid?.result.findings.find((f) => f.rule === 'fit-rides-on-bend');
    // A corner 1 from the skirt in a round of 3: 3 - sqrt(9 - 4) = 0.764.
    expect(note?.message).toContain('0.76 mm off');
  });

  it('takes a size through a chain of pieces', async () => {
    const parts = await makeWhole({
      thickness: 1,
      radius: 1,
      pieces: [
        {
          name: 'outer',
          fits: 'over inner gap 2',
          flanges: 'a on left 20 90 up; b on right 20 90 up',
        },
        { name: 'case', base: '100 x 60', flanges: 'a on left 30 90 up; b on right 30 90 up' },
        {
          name: 'inner',
          fits: 'over case gap 1',
          flanges: 'a on left 20 90 up; b on right 20 90 up',
        },
        { name: 'shim', base: { width: 'outer.base.width', depth: 'case.base.depth - 5' } },
      ],
    });
    const width = (piece: string): number =>
      Math.max(
        ...(parts.find((p) => p.result.piece === piece)?.part.panels[0]?.outline ?? []).map(
          ({ x }) => x,
        ),
      );
    expect(width('inner')).toBeCloseTo(100 + 2 * (1 + 1), 9);
    expect(width('outer')).toBeCloseTo(104 + 2 * (2 + 1), 9);
    expect(width('shim')).toBeCloseTo(110, 9);
  });
});
