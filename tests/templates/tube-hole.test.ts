import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loopExtents } from '../../src/geometry/extents.ts';
import { pointGap } from '../../src/geometry/gap.ts';
import { isInside } from '../../src/geometry/inside.ts';
import type { Loop } from '../../src/geometry/loop.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import patch from '../../templates/tube-hole/index.ts';
import { checkTemplate, make, makeOne, rulesOf } from '../helpers/check-template.ts';
import { ezdxfAvailable, readWithEzdxf } from '../helpers/ezdxf.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { needsOutside } from '../helpers/needs-outside.ts';
import { published } from '../helpers/published.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';

checkTemplate('tube-hole');

const SHEET = { material: 'dc01', thickness: 1 };

const holeOf = async (inputs: Readonly<Record<string, unknown>>): Promise<Loop> => {
  const [hole] = (await makeOne('tube-hole', { ...SHEET, ...inputs })).flat.cutouts;
  if (hole?.kind !== 'loop') throw new Error('no hole');
  return hole.loop;
};

/** Along the way that the tube leans, and across. */
const sizeOf = (loop: Loop): readonly [length: number, width: number] => {
  const box = loopExtents(loop);
  return box === undefined ? [NaN, NaN] : [box.maxY - box.minY, box.maxX - box.minX];
};

const figuresOf = (inputs: Readonly<Record<string, unknown>>) => {
  const made = madeOnce(patch, { ...SHEET, ...inputs }, UNPLANNED);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const { figures = [], tables = [] } = made.reports[0] ?? {};
  return {
    value: (name: string): number => figures.find((f) => f.name === name)?.value ?? NaN,
    points: tables[0]?.rows ?? [],
  };
};

describe('against the published sizes, whose sources stand beside them', () => {
  test.each(['sheet-hole-30', 'sheet-hole-45'])('%s', async (id) => {
    const { given, expect: asked, tolerance } = published('cope', id);
    const { D: tube, angle_deg: lean, t: panelThickness } = given as Record<string, number>;
    const [length, width] = sizeOf(await holeOf({ tube, lean, panelThickness }));
    expect(Math.abs(length - (asked['length'] as number))).toBeLessThan(tolerance);
    expect(Math.abs(width - (asked['width'] as number))).toBeLessThan(tolerance);
    const { value } = figuresOf({ tube, lean, panelThickness });
    expect(Math.abs(value('length of the hole') - (asked['length'] as number))).toBeLessThan(
      tolerance,
    );
  });

  // The thinnest panel that is taken, whose thickness is taken off again.
  test('sheet-hole-flue and sheet-hole-45-string, a panel without thickness', async () => {
    const t = 0.3;
    const plain = async (tube: number, lean: number): Promise<number> =>
      sizeOf(await holeOf({ tube, lean, panelThickness: t }))[0] -
      t * Math.tan((lean * Math.PI) / 180);
    const flue = published('cope', 'sheet-hole-flue');
    const { slope_deg: slope } = flue.given as Record<string, number>;
    const long = (await plain(200, slope as number)) / 200;
    expect(Math.abs(long - (flue.expect['long_half'] as number))).toBeLessThan(flue.tolerance);
    const string = published('cope', 'sheet-hole-45-string');
    const major = (await plain(100, 45)) / 100;
    expect(Math.abs(major - (string.expect['major'] as number))).toBeLessThan(string.tolerance);
    const focal = Math.sqrt(major ** 2 - 1);
    expect(Math.abs(focal - (string.expect['focal_distance'] as number))).toBeLessThan(
      2 * string.tolerance,
    );
  });
});

/** What there is of a patch on the drawing: its corners, the way it points, and its hole. */
const drawn = async (inputs: Readonly<Record<string, unknown>>) => {
  const { flat } = await makeOne('tube-hole', { ...SHEET, ...inputs });
  const { placement } = flat.panels[0] as (typeof flat.panels)[number];
  const middle = [placement.x, placement.y] as const;
  return { flat, middle, outline: flat.outline };
};

describe('the patch', () => {
  test('lies with its notches on lines through the axis of the tube on the face', async () => {
    // t/2 tan 45 = 3 over the middle of the hole; half of 40 and 25 beside it, 4 of that notched.
    const { middle, outline } = await drawn({ tube: 40, lean: 45, panelThickness: 6 });
    const at = (x: number, y: number): number =>
      Math.min(...outline.map((v) => Math.hypot(v.x - middle[0] - x, v.y - middle[1] - y)));
    for (const side of [-1, 1]) expect(at(side * (20 + 25 - 4), 3)).toBeLessThan(1e-9);
    const reach = (40 * Math.SQRT2 + 6) / 2;
    expect(at(0, 4 - reach - 25)).toBeLessThan(1e-9);
    // The point stands half of its half width over the edge.
    expect(at(0, reach + 25 + 22.5)).toBeLessThan(1e-9);
    expect(Math.max(...outline.map((v) => v.y - middle[1]))).toBeCloseTo(reach + 47.5, 9);
  });

  test('its punches lie on the line of the hole, and so do the points that are told', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.record({
          tube: fc.integer({ min: 30, max: 120 }),
          lean: fc.double({ min: 0.5, max: 70, noNaN: true }),
          clear: fc.integer({ min: 0, max: 3 }),
          grommet: fc.constantFrom(0, 1.5, 4),
          panelThickness: fc.integer({ min: 1, max: 12 }),
        }),
        async (ask) => {
          const { middle, flat } = await drawn({ ...ask, form: 'punch', punchHole: 1 });
          const whole = await drawn(ask);
          const [hole] = whole.flat.cutouts;
          if (hole?.kind !== 'loop') throw new Error('no hole');
          const shifted = (x: number, y: number) =>
            [x + whole.middle[0], y + whole.middle[1]] as const;
          const punches = flat.cutouts
            .slice(1)
            .map((c) => (c.kind === 'round' ? c.centre : [0, 0]));
          expect(punches).toHaveLength(12);
          for (const [x = NaN, y = NaN] of punches)
            expect(pointGap(shifted(x - middle[0], y - middle[1]), hole.loop)).toBeLessThan(0.0101);
          for (const [, x = NaN, y = NaN] of figuresOf(ask).points)
            expect(pointGap(shifted(x, y), hole.loop)).toBeLessThan(0.0101);
        },
      ),
      { numRuns: fuzzRuns(60) },
    );
  });

  test('any tube passes, walked through the panel layer by layer, and touches all round', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.record({
          tube: fc.integer({ min: 10, max: 150 }),
          lean: fc.double({ min: 1, max: 75, noNaN: true }),
          panelThickness: fc.double({ min: 0.5, max: 20, noNaN: true }),
        }),
        async (ask) => {
          const { middle, flat } = await drawn(ask);
          const [hole] = flat.cutouts;
          if (hole?.kind !== 'loop') throw new Error('no hole');
          const a = (ask.lean * Math.PI) / 180;
          let nearest = Infinity;
          for (let k = 0; k < 72; k += 1)
            for (const layer of [-0.5, 0, 0.5]) {
              const round = (k * Math.PI) / 36;
              // On the upper face the tube is farther towards the point.
              const y =
                (ask.tube / 2) * (Math.cos(round) / Math.cos(a)) +
                layer * ask.panelThickness * Math.tan(a);
              const at = [middle[0] + (ask.tube / 2) * Math.sin(round), middle[1] + y] as const;
              const gap = pointGap(at, hole.loop);
              nearest = Math.min(nearest, gap);
              if (!isInside(hole.loop, at)) expect(gap).toBeLessThan(0.0101);
            }
          expect(nearest).toBeLessThan(0.0101);
        },
      ),
      { numRuns: fuzzRuns(60) },
    );
  });

  test('a tube square to the panel has a round hole', async () => {
    const { flat } = await drawn({ tube: 40, lean: 0, clear: 1, grommet: 2 });
    expect(flat.cutouts).toMatchObject([{ kind: 'round', diameterMm: 46 }]);
  });
});

test('its hole is arcs in a file of R12, within 0.01 mm of what the tube leaves', (ctx) => {
  needsOutside(ctx, 'ezdxf', ezdxfAvailable);
  const made = makeParts(
    patch,
    { ...SHEET, tube: 60, lean: 45, panelThickness: 3 },
    { ...UNPLANNED, dxfVersion: 'r12' },
  );
  const [part] = made.ok ? made.parts : [];
  const dxf = part?.files().find(({ name }) => name.endsWith('.dxf'))?.contents;
  const [read] = readWithEzdxf([dxf as string]);
  const hole = read?.entities
    .filter((e) => e.type === 'POLYLINE')
    .find((e) => e.vertices.some(({ bulge }) => bulge !== 0));
  if (hole?.type !== 'POLYLINE') throw new Error('no hole');
  const loop: Loop = hole.vertices.map(({ x, y, bulge }) => ({ x, y, bulge }));
  const box = loopExtents(loop) ?? { minX: NaN, maxX: NaN, minY: NaN, maxY: NaN };
  const [mx, my] = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  // Two half ellipses of 30 by 30 / cos 45, 3 tan 45 apart.
  for (let deg = 0; deg < 360; deg += 1) {
    const a = (deg * Math.PI) / 180;
    const y = 30 * Math.SQRT2 * Math.cos(a) + Math.sign(Math.cos(a)) * 1.5;
    expect(pointGap([mx + 30 * Math.sin(a), my + y], loop)).toBeLessThan(0.01);
  }
});

test('punches that run into each other are told, and fewer are not', async () => {
  const inputs = { ...SHEET, tube: 20, form: 'punch', punches: 40 };
  const [bad] = await make('tube-hole', inputs);
  expect(rulesOf(bad, 'stop')).toEqual(['tube-hole-punches-meet']);
  const most = bad?.result.findings[0]?.mends?.find((m) => m.input === 'punches')?.atMost;
  expect(most).toBeGreaterThan(4);
  const [good] = await make('tube-hole', { ...inputs, punches: most });
  expect(rulesOf(good, 'stop')).toEqual([]);
});
