import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loopExtents } from '../../src/geometry/extents.ts';
import { pointGap } from '../../src/geometry/gap.ts';
import { isInside } from '../../src/geometry/inside.ts';
import type { Loop } from '../../src/geometry/loop.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import { checkTemplate, make, rulesOf } from '../helpers/check-template.ts';
import { fuzzRuns, inTurns } from '../helpers/extent.ts';
import { foldedPlaces } from '../helpers/witness.ts';

// Boxes take long to plan; in short they are planned where plans are replayed.
checkTemplate('neck-plate', [0]);

const SHEET = { material: '5754-h111', thickness: 2, radius: 3 };
type Inputs = Readonly<Record<string, unknown>>;
type Point = readonly [x: number, y: number, z: number];

const whole = async (inputs: Inputs) => {
  const parts = await make('neck-plate', { ...SHEET, ...inputs });
  for (const part of parts) expect(rulesOf(part, 'stop')).toEqual([]);
  const [plate, patch] = parts;
  if (plate?.flat === undefined || patch?.flat === undefined) throw new Error('no plate');
  return { plate: plate.flat, patch: patch.flat, root: plate.part?.root ?? '' };
};

const loopOf = (flat: FlatPattern, from: string): Loop => {
  const hole = flat.cutouts.find((c) => c.from === from);
  if (hole?.kind !== 'loop') throw new Error(`no ${from}`);
  return hole.loop;
};

const centreOf = (flat: FlatPattern, from: string): readonly [number, number] => {
  const hole = flat.cutouts.find((c) => c.from === from);
  if (hole?.kind !== 'round') throw new Error(`no ${from}`);
  return hole.centre;
};

const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);
const cos = (deg: number): number => Math.cos((deg * Math.PI) / 180);

/** Points of a tube about its axis where a layer cuts it, the axis leaning up the drawing. */
const cut = (tube: number, lean: number, [x, y]: readonly [number, number]) =>
  Array.from({ length: 36 }, (_, k) => {
    const round = (k * Math.PI) / 18;
    return [
      x + (tube / 2) * Math.sin(round),
      y + ((tube / 2) * Math.cos(round)) / cos(lean),
    ] as const;
  });

describe('a flat plate', () => {
  test('one neck passes plate and panel, bolted on each other, with its rooms', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.record({
          tube: fc.integer({ min: 20, max: 90 }),
          lean: fc.integer({ min: 1, max: 45 }),
          panelThickness: fc.constantFrom(0.8, 1.5, 4),
          bolts: fc.integer({ min: 3, max: 8 }),
        }),
        async (ask) => {
          const inputs = { ...ask, clear: 0, panelClear: 0 };
          const { plate, patch } = await whole(inputs);
          // The bolts of the patch laid on those of the plate.
          const [a, b] = [centreOf(plate, 'bolt 1'), centreOf(patch, 'bolt 1')];
          for (let i = 2; i <= ask.bolts; i += 1) {
            const [c, d] = [centreOf(plate, `bolt ${i}`), centreOf(patch, `bolt ${i}`)];
            expect([d[0] - b[0], d[1] - b[1]]).toEqual([
              expect.closeTo(c[0] - a[0], 6),
              expect.closeTo(c[1] - a[1], 6),
            ]);
          }
          const box = loopExtents(loopOf(plate, 'tube 1'));
          if (box === undefined) throw new Error('no hole');
          const middle = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2] as const;
          // Down through the plate of 2 and the panel: the axis goes back as it goes down.
          const layers: readonly (readonly [level: number, flat: FlatPattern, by: Point])[] = [
            [0, plate, [0, 0, 0]],
            [-2, plate, [0, 0, 0]],
            [-2, patch, [b[0] - a[0], b[1] - a[1], 0]],
            [-2 - ask.panelThickness, patch, [b[0] - a[0], b[1] - a[1], 0]],
          ];
          for (const [level, flat, [dx, dy]] of layers) {
            const hole = loopOf(flat, 'tube 1');
            const axis = [middle[0] + dx, middle[1] + dy + (level + 1) * tan(ask.lean)] as const;
            for (const at of cut(ask.tube, ask.lean, axis))
              if (!isInside(hole, at)) expect(pointGap(at, hole)).toBeLessThan(0.0101);
            // And it touches the end that it leans to at the faces of each.
            const ends = cut(ask.tube, ask.lean, axis).map((at) => pointGap(at, hole));
            expect(Math.min(...ends)).toBeLessThan(0.0101);
          }
        },
      ),
      { numRuns: fuzzRuns(40) },
    );
  });

  test('60 through 3 mm at 30 degrees, by hand', async () => {
    const { plate } = await whole({ tube: 60, clear: 0.5, grommet: 1.5, thickness: 3 });
    const box = loopExtents(loopOf(plate, 'tube 1'));
    // 61 / cos 30 + 3 tan 30 + 3 = 75.1687 long, 64 wide.
    expect((box?.maxY ?? 0) - (box?.minY ?? 0)).toBeCloseTo(75.1687, 3);
    expect((box?.maxX ?? 0) - (box?.minX ?? 0)).toBeCloseTo(64, 6);
    // 30 all round the hole.
    expect(plate.widthMm).toBeCloseTo(135.1687, 3);
  });
});

/** The box folded by the witness, standing on its flanges, y from the outside of its low wall. */
const standing = (flat: FlatPattern, root: string, wide: number) => {
  const places = foldedPlaces(flat, root);
  const corners = (panel: string, z: number): Point[] => {
    const found = flat.panels.find(({ id }) => id === panel);
    if (found === undefined) throw new Error(`no ${panel}`);
    const { c, s, x, y } = found.placement;
    return found.region.map(
      (v) => places.get(panel)?.([x + c * v.x - s * v.y, y + s * v.x + c * v.y, z]) as Point,
    );
  };
  const sub = (p: Point, q: Point): Point => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
  const dot = (p: Point, q: Point): number => p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
  const unit = (p: Point): Point => {
    const long = Math.hypot(...p);
    return [p[0] / long, p[1] / long, p[2] / long];
  };
  const foot = corners('foot A', 0);
  const home = foot[0] as Point;
  const up = unit(sub(corners('foot A', 1)[0] as Point, home));
  // From the low wall to the high one: square to the lower face of side A.
  const across = unit(sub(corners('side A', 0)[0] as Point, corners('side A', 1)[0] as Point));
  const along: Point = [
    across[1] * up[2] - across[2] * up[1],
    across[2] * up[0] - across[0] * up[2],
    across[0] * up[1] - across[1] * up[0],
  ];
  const seated = (p: Point): Point => {
    const d = sub(p, home);
    return [dot(d, along), dot(d, across), dot(d, up)];
  };
  const low = seated(corners('side A', 2)[0] as Point)[1];
  // The flanges are cut back at the corners as much on the left as on the right.
  const ends = foot.map((p) => seated(p)[0]);
  const left = (Math.min(...ends) + Math.max(...ends)) / 2 - wide / 2;
  const stand = (p: Point): Point => {
    const [x, y, z] = seated(p);
    return [x - left, y - low, z];
  };
  return {
    all: (panel: string, z: number) => corners(panel, z).map(stand),
    at: (panel: string, [x, y]: readonly [number, number], z: number) =>
      stand(places.get(panel)?.([x, y, z]) as Point),
  };
};

const BOX = { tube: 50, base: 130, wide: 100, low: 20, flange: 24, bolts: 3, lean: 20 };

describe('a box tilted square to the neck, folded by the witness', () => {
  const leans = [{}, { lean: 5, low: 12 }, { lean: 0 }, { lean: 35, base: 150, low: 14 }];
  test.each(inTurns(leans, 1, 2))('%o', async (more) => {
    const ask = { ...BOX, ...more };
    const { plate, root } = await whole({ ...ask, mount: 'sunk' });
    const { all, at } = standing(plate, root, ask.wide);
    for (const foot of ['foot A', 'foot B'])
      for (const [, , z] of all(foot, 0)) expect(z).toBeCloseTo(0, 6);
    for (const [, y] of all('side B', 2)) expect(y).toBeCloseTo(ask.base, 6);
    // The outside of the face rises by the lean from where it meets the low wall.
    for (const [, y, z] of all('crown', 2)) expect(z - ask.low).toBeCloseTo(y * tan(ask.lean), 6);
    for (const [x] of all('cheek left', 2)) expect(x).toBeCloseTo(0, 6);
    for (const [x] of all('cheek right', 2)) expect(x).toBeCloseTo(ask.wide, 6);
    for (const cheek of ['cheek left', 'cheek right'])
      expect(Math.min(...all(cheek, 2).map(([, , z]) => z))).toBeCloseTo(0, 6);
    // The hole is round, and its axis square to the face.
    const hole = centreOf(plate, 'tube 1');
    const [lower, upper] = [at('crown', hole, 0), at('crown', hole, 2)];
    expect(lower[0]).toBeCloseTo(ask.wide / 2, 6);
    expect((lower[1] - upper[1]) / (upper[2] - lower[2])).toBeCloseTo(tan(ask.lean), 6);
  });

  test.each([{}, { lean: 12, low: 25, panelThickness: 4 }])(
    'its neck goes on through the panel under it: %o',
    async (more) => {
      const ask = { ...BOX, panelThickness: 1.5, ...more };
      const inputs = { ...ask, mount: 'raised', clear: 0, panelClear: 0 };
      const { plate, patch, root } = await whole(inputs);
      const { at } = standing(plate, root, ask.wide);
      const hole = centreOf(plate, 'tube 1');
      const [lower, upper] = [at('crown', hole, 0), at('crown', hole, 2)];
      const way = (lower[1] - upper[1]) / (upper[2] - lower[2]);
      const opening = loopOf(patch, 'tube 1');
      // Of the patch: the low wall above, so much under its upper edge.
      const { y: top } = patch.outline.reduce((best, v) => (v.y > best.y ? v : best));
      const wall = top - (ask.flange - 2);
      for (const level of [0, -ask.panelThickness]) {
        const y = lower[1] + way * (lower[2] - level);
        const gaps = cut(ask.tube, ask.lean, [ask.wide / 2, wall - y]).map((p) => {
          if (!isInside(opening, p)) expect(pointGap(p, opening)).toBeLessThan(0.0101);
          return pointGap(p, opening);
        });
        expect(Math.min(...gaps)).toBeLessThan(0.0101);
      }
      // The bolts of both flanges as far apart as on the box.
      const bolts = [at('foot A', centreOf(plate, 'bolt 1'), 0)];
      expect(bolts[0]?.[1]).toBeCloseTo(-(ask.flange - 2) / 2, 6);
      const low = patch.cutouts.flatMap((c) => (c.kind === 'round' ? [c.centre[1]] : []));
      expect(wall - Math.max(...low)).toBeCloseTo(-(ask.flange - 2) / 2, 6);
    },
  );

  test('a sunk box falls through its opening, with room for the rounding of its flanges', async () => {
    const { patch } = await whole({ ...BOX, mount: 'sunk', panelClear: 1 });
    const box = loopExtents(loopOf(patch, 'box'));
    expect((box?.maxX ?? 0) - (box?.minX ?? 0)).toBeCloseTo(102, 6);
    // The radius of 3 is more than the room of 1.
    expect((box?.maxY ?? 0) - (box?.minY ?? 0)).toBeCloseTo(136, 6);
  });
});

describe('figures that cannot be', () => {
  const bad = [
    ['neck-plate-too-small', { tube: 60, outer: 70 }, 'outer'],
    ['neck-bolts-off', { tube: 60, outer: 120, boltCircle: 75, boltStart: 90 }, undefined],
    ['neck-bolts-off', { tube: 60, outer: 120, boltCircle: 118 }, undefined],
    ['bolts-too-close', { tube: 60, bolts: 24, boltHole: 14 }, 'bolts'],
    ['neck-wall-too-low', { ...BOX, mount: 'raised', low: 6 }, 'low'],
    ['neck-face-too-small', { ...BOX, mount: 'raised', base: 55 }, 'base'],
    ['neck-face-too-small', { ...BOX, mount: 'raised', wide: 50 }, 'wide'],
    ['neck-flange-too-narrow', { ...BOX, mount: 'sunk', flange: 12 }, 'flange'],
    ['neck-through-wall', { ...BOX, mount: 'raised', lean: 35, low: 40 }, undefined],
  ] as const;
  test.each(inTurns(bad, 0, 3))(
    '%s: the figure that works is given, and works',
    async (rule, more, input) => {
      const inputs = { ...SHEET, ...more };
      const [bad] = await make('neck-plate', inputs);
      expect(rulesOf(bad, 'stop')).toContain(rule);
      const finding = bad?.result.findings.find((f) => f.rule === rule);
      const mends = finding?.mends ?? [];
      expect(mends.length).toBeGreaterThan(0);
      for (const mend of mends) {
        if (input !== undefined && mend.input !== input) continue;
        const good = await make('neck-plate', {
          ...inputs,
          [mend.input]: mend.atLeast ?? mend.atMost ?? mend.value,
        });
        expect(good.flatMap((part) => rulesOf(part, 'stop'))).not.toContain(rule);
      }
    },
  );
});
