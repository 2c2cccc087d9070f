import { describe, expect, test } from 'vitest';
import { movePoint } from '../../src/geometry/motion2.ts';
import type { FlatPanel } from '../../src/model/flat.ts';
import type { Part } from '../../src/model/part.ts';
import type { MadePart } from '../../src/use/made-part.ts';
import { make, rulesOf } from '../helpers/check-template.ts';
import { blankOf, proofOf, stopsOf } from '../helpers/proved.ts';
import { foldedPlaces } from '../helpers/witness.ts';
import { inTurns } from '../helpers/extent.ts';

type Whole = Extract<MadePart, { readonly stopped: false }>;
type Vec = readonly [number, number, number];

const THICKNESS = 2;

interface Case {
  readonly angle: number;
  readonly direction: 'up' | 'down';
  readonly measure: 'outside' | 'inside';
  /** A second flange on the first, at its end or at its right, with the hole in it. */
  readonly ear?: { readonly on: 'end' | 'right'; readonly direction: 'up' | 'down' };
}

const CASES: readonly Case[] = [30, 60, 90, 120].flatMap((angle) =>
  (['up', 'down'] as const).flatMap((direction) =>
    (['outside', 'inside'] as const).flatMap((measure): Case[] => [
      { angle, direction, measure },
      { angle, direction, measure, ear: { on: 'end', direction: 'up' } },
      { angle, direction, measure, ear: { on: 'end', direction: 'down' } },
      { angle, direction, measure, ear: { on: 'right', direction: 'up' } },
      { angle, direction, measure, ear: { on: 'right', direction: 'down' } },
    ]),
  ),
);

const inputsOf = ({ angle, direction, measure, ear }: Case, holes?: string) => {
  const own = holes === undefined ? {} : { holes };
  return {
    name: 'space',
    base: '120 x 80',
    flanges: [
      { name: 'wall', on: 'top', height: 60, angle, direction, ...(ear === undefined && own) },
      ...(ear === undefined
        ? []
        : [
            {
              name: 'ear',
              on: `wall ${ear.on}`,
              height: 40,
              angle: 50,
              direction: ear.direction,
              ...own,
            },
          ]),
    ],
    measure,
    thickness: THICKNESS,
    radius: 2.5,
    material: 's235',
    hand: 'both',
  };
};

const wholesOf = async (inputs: Record<string, unknown>): Promise<readonly Whole[]> => {
  const parts = await make('panels', inputs);
  return parts.map((part) => {
    if (part.stopped) throw new Error(JSON.stringify(part.result.findings));
    return part;
  });
};

/**
 * Where a point of the blank lies on the folded part, by the witness: how far over the face of the
 * base that is measured from, and how far in from the left edge of the base.
 */
const placeOf = ({ part, flat }: Whole, one: Case, point: readonly [number, number]) => {
  const panel = one.ear === undefined ? 'wall' : 'ear';
  const turned = one.ear?.direction ?? one.direction;
  // The outside of a fold up is the face below, and by inside dimensions it is the other one.
  const isLower = (direction: 'up' | 'down'): boolean =>
    (direction === 'up') === (one.measure === 'outside');
  const place = foldedPlaces(flat, part.root).get(panel);
  if (place === undefined) throw new Error(`${panel} is not folded on`);
  const [x, , z]: Vec = place([...point, isLower(turned) ? 0 : THICKNESS]);
  const base = flat.panels.find(({ id }) => id === 'base') as FlatPanel;
  const outline = part.panels.find(({ id }) => id === 'base')?.outline ?? [];
  const left = outline.find(({ edge }) => edge === 'left');
  const [leftX] = movePoint(base.placement, [left?.x ?? NaN, left?.y ?? NaN]);
  const level = isLower(one.direction) ? 0 : THICKNESS;
  return {
    overBase: one.direction === 'up' ? z - level : level - z,
    fromLeft: Math.abs(x - leftX),
  };
};

/** A point in the middle of the metal of the panel that gets the hole, on the blank. */
const middleOf = ({ flat }: Whole, panel: string): readonly [number, number] => {
  const { region, placement } = flat.panels.find(({ id }) => id === panel) as FlatPanel;
  const n = region.length;
  const mean = (of: (v: (typeof region)[number]) => number): number =>
    region.reduce((sum, v) => sum + of(v), 0) / n;
  return movePoint(placement, [mean((v) => v.x), mean((v) => v.y)]);
};

const holeOf = ({ flat }: Whole): readonly [number, number] => {
  const [hole, ...more] = flat.cutouts;
  if (hole?.kind !== 'round' || more.length > 0) throw new Error('not the one hole');
  return hole.centre;
};

/** To a tenth, as somebody reads it off. */
const tenth = (mm: number): number => Math.round(mm * 10) / 10;

const called = ({ angle, direction, measure, ear }: Case): string =>
  [
    `${angle} ${direction}, ${measure}`,
    ...(ear === undefined ? [] : [`ear at its ${ear.on} ${ear.direction}`]),
  ].join(', ');

describe('a hole that is given by its place on the finished part', () => {
  test.each(inTurns(CASES, 0, 3).map((one) => [called(one), one] as const))(
    'is found there, in both hands: %s',
    async (_, one) => {
      const panel = one.ear === undefined ? 'wall' : 'ear';
      const [plain] = await wholesOf(inputsOf(one));
      if (plain === undefined) throw new Error('no part');
      const { overBase, fromLeft } = placeOf(plain, one, middleOf(plain, panel));
      const [h, l] = [tenth(overBase), tenth(fromLeft)];
      const parts = await wholesOf(inputsOf(one, `from base ${h}, from base left ${l}, M8`));
      expect(parts).toHaveLength(2);
      for (const part of parts) {
        const found = placeOf(part, one, holeOf(part));
        expect(found.overBase).toBeCloseTo(h, 6);
        expect(found.fromLeft).toBeCloseTo(l, 6);
        const proved = part.result.proof.measures.find(({ input }) =>
          input?.startsWith(`${panel} holes 1 from base`),
        );
        expect(proved?.askedMm).toBeCloseTo(Math.abs(h), 6);
        expect(proved?.foundMm).toBeCloseTo(Math.abs(h), 3);
        expect(part.result.proof.worstMm).toBeLessThan(0.01);
      }
      // The same hole half a millimetre away is refused by its own file.
      const [left] = parts as [Whole];
      for (const shift of [
        [0.5, 0],
        [0, 0.5],
      ] as const) {
        const { dxf, asked } = blankOf(shifted(left.part, shift)) as NonNullable<
          ReturnType<typeof blankOf>
        >;
        const off = proofOf(dxf, asked).measures.filter(
          ({ input, askedMm, foundMm }) =>
            input !== undefined && (foundMm === null || Math.abs(foundMm - askedMm) > 0.01),
        );
        expect(off.length).toBeGreaterThan(0);
        expect(stopsOf(proofOf(dxf, asked))).toContain('proof-failed');
      }
    },
  );

  // 90 degrees, no sums: a wall on a base 80 deep is 80 away from the front, whatever its height.
  test('lies where a tape says: 30 over the floor, 45 from the left end', async () => {
    const [one] = await wholesOf(
      inputsOf(
        { angle: 90, direction: 'up', measure: 'outside' },
        'from base 30, from base left 45, M8',
      ),
    );
    const wall = one?.part.panels.find(({ id }) => id === 'wall');
    // Seen from the base, left of the wall is left of the base.
    expect(wall?.cutouts).toEqual([
      expect.objectContaining({
        centre: [expect.closeTo(45, 9), expect.closeTo(30, 9)],
        diameterMm: 9,
      }),
    ]);
  });

  test('may be in a base, measured from what stands on it', async () => {
    const [one] = await wholesOf({
      ...inputsOf({ angle: 90, direction: 'up', measure: 'outside' }),
      base: '120 x 80 holes from wall 25, from left 40, 6',
    });
    const base = one?.part.panels.find(({ id }) => id === 'base');
    expect(base?.cutouts).toEqual([
      expect.objectContaining({ centre: [expect.closeTo(40, 9), expect.closeTo(55, 9)] }),
    ]);
  });

  test.each([
    // The wall is square to the base: both figures are heights.
    ['two figures the same way', 'from base 30, from foot 20, M8', 'hole-place-open'],
    ['a place off the metal', 'from base 90, from base left 45, M8', 'hole-off-metal'],
  ])('%s is a finding', async (_, holes, rule) => {
    const one: Case = { angle: 90, direction: 'up', measure: 'outside' };
    const [part] = await make('panels', inputsOf(one, holes));
    expect(rulesOf(part, 'stop')).toEqual([rule]);
  });
});

/** The same part, its one hole a little off in its panel, and still meant where it was meant. */
const shifted = (part: Part, [dx, dy]: readonly [number, number]): Part => ({
  ...part,
  panels: part.panels.map((panel) => ({
    ...panel,
    cutouts: panel.cutouts.map((hole) =>
      hole.kind === 'round'
        ? { ...hole, centre: [hole.centre[0] + dx, hole.centre[1] + dy] as const }
        : hole,
    ),
  })),
});
