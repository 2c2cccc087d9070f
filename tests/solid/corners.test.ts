import fc from 'fast-check';
import { expect, it } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import { foldUp } from '../../src/fold/fold-up.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import type { Pose } from '../../src/geometry/pose.ts';
import { hasStop } from '../../src/model/finding.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import type { Direction, Panel, Part } from '../../src/model/part.ts';
import { fixedRuns, shareOf } from '../helpers/extent.ts';
import { foldBlank } from '../helpers/folded-solid.ts';
import { fold, panel, prism } from '../helpers/parts.ts';
import { randomPart } from '../helpers/random-part.ts';
import { loadSolids, type Solids } from '../helpers/solid.ts';

const HALF = { id: 'k', k: 0.5 } as const;

const tenths = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.round(min * 10), max: Math.round(max * 10) }).map((n) => n / 10);

const walls = fc.record({
  sides: fc.integer({ min: 3, max: 8 }),
  edge: tenths(40, 120),
  height: tenths(15, 50),
  // Wider above than below: neighbours that stand up at all would run through each other.
  flare: tenths(0, 12),
  angleDeg: fc.oneof(fc.constant(90), fc.integer({ min: 20, max: 140 })),
  radius: tenths(0.2, 6),
  thicknessMm: tenths(0.8, 5),
  gap: fc.constantFrom(0.3, 0.5, 1.5),
});

type Walls = typeof walls extends fc.Arbitrary<infer T> ? T : never;

const wallsOf = (w: Walls): Part =>
  prism(w.sides, w.edge, w.height, w.flare, w.angleDeg, w.radius, w.thicknessMm, {
    cornerGapMm: w.gap,
  });

/** Which panels stand next to each other round the base: walls, lips, and lip to wall. */
const neighbours = (sides: number, kinds: readonly string[]): [string, string][] =>
  Array.from({ length: sides }, (_, i) => (i + 1) % sides).flatMap((next, i) =>
    kinds.flatMap((a) => kinds.map((b): [string, string] => [`${a} ${i}`, `${b} ${next}`])),
  );

const expectGaps = (
  solids: Solids,
  part: Part,
  flat: FlatPattern,
  pairs: readonly [string, string][],
  said: string,
): void => {
  const { panels } = foldBlank(solids, part, flat);
  for (const [first, second] of pairs) {
    const [a, b] = [panels.get(first), panels.get(second)];
    if (a === undefined || b === undefined)
      throw new Error(`${first} or ${second} is not in the blank`);
    expect(solids.distance(a, b), `${first} and ${second} of ${said}`).toBeGreaterThan(
      part.cornerGapMm - 1e-6,
    );
  }
};

/**
 * Whether two panels with their outlines as asked, up to the mould lines, would come nearer than
 * the gap.
 */
const wouldMeet = (
  solids: Solids,
  part: Part,
  flat: FlatPattern,
  first: string,
  second: string,
): boolean => {
  const { poses } = foldUp(part, flat);
  const [a, b] = [first, second].map((id) => {
    const { outline } = part.panels.find((p) => p.id === id) as Panel;
    return solids.move(solids.prism(outline, part.thicknessMm), poses.get(id) as Pose);
  });
  return a !== undefined && b !== undefined && solids.distance(a, b) < part.cornerGapMm;
};

it('walls round a base that would run into each other keep their gap', async () => {
  const withSolids = await loadSolids();
  let made = 0;
  let needed = 0;
  for (const given of fc.sample(walls, { numRuns: fixedRuns(24), seed: 3 })) {
    const part = wallsOf(given);
    const flat = flatten(part, HALF);
    if (hasStop(flat.findings)) continue;
    made++;
    withSolids((solids) => {
      if (wouldMeet(solids, part, flat, 'wall 0', 'wall 1')) needed++;
      expectGaps(solids, part, flat, neighbours(given.sides, ['wall']), JSON.stringify(given));
    });
  }
  expect(made).toBeGreaterThan(shareOf(18));
  expect(needed).toBeGreaterThan(made / 2);
});

const lips = fc.record({
  walls,
  /** Narrower walls stand clear of each other, and leave the corner to their lips. */
  flare: fc.oneof(tenths(-6, 0), tenths(0, 12)),
  angleDeg: fc.oneof(fc.constant(90), fc.integer({ min: 20, max: 170 })),
  direction: fc.constantFrom<Direction[]>('up', 'up', 'down'),
});

it.each(['every wall', 'one wall'])(
  'lips that turn in or out on %s keep their gap from each other and from the walls',
  async (where) => {
    const withSolids = await loadSolids();
    let made = 0;
    for (const given of fc.sample(lips, { numRuns: fixedRuns(24), seed: 4 })) {
      const shape: Walls = { ...given.walls, flare: given.flare };
      const bare = wallsOf(shape);
      const along = shape.edge + 2 * shape.flare;
      // A lip as high as its wall could reach the base or the wall opposite: no trimming of corners
      // helps that.
      const height = Math.min(20, shape.height / 2);
      const on = Array.from({ length: where === 'every wall' ? shape.sides : 1 }, (_, i) => i);
      const part: Part = {
        ...bare,
        panels: [
          ...bare.panels,
          ...on.map((i) => panel(`lip ${i}`, rectangle(0, 0, along, height))),
        ],
        folds: [
          ...bare.folds,
          ...on.map((i) =>
            fold(
              `L${i}`,
              { panel: `wall ${i}`, edge: 2 },
              { panel: `lip ${i}`, edge: 0 },
              given.angleDeg,
              given.direction,
              shape.radius,
            ),
          ),
        ],
      };
      const flat = flatten(part, HALF);
      if (hasStop(flat.findings)) continue;
      made++;
      const has = new Set(part.panels.map((p) => p.id));
      const pairs = neighbours(shape.sides, ['wall', 'lip']).filter((pair) =>
        pair.every((id) => has.has(id)),
      );
      withSolids((solids) =>
        expectGaps(solids, part, flat, pairs, JSON.stringify({ ...given, walls: shape })),
      );
    }
    expect(made).toBeGreaterThan(shareOf(12));
  },
);

it('a blank comes apart at its tangent lines into its panels and nothing else', async () => {
  const withSolids = await loadSolids();
  const anyAngle = fc.oneof(fc.constantFrom(90, 180, 135), fc.integer({ min: 1, max: 180 }));
  let made = 0;
  for (const part of fc.sample(randomPart(anyAngle), { numRuns: fixedRuns(100), seed: 1 })) {
    const flat = flatten(part, HALF);
    if (hasStop(flat.findings)) continue;
    made++;
    withSolids((solids) => {
      const { panels } = foldBlank(solids, part, flat);
      expect([...panels.keys()].sort()).toEqual(part.panels.map((p) => p.id).sort());
    });
  }
  expect(made).toBeGreaterThan(shareOf(30));
});
