import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { reachOf, widthOf } from '../../src/forms/hole-extent.ts';
import { readHoleSize } from '../../src/forms/hole-shape.ts';
import { placeHole } from '../../src/forms/place-hole.ts';
import { loopExtents } from '../../src/geometry/extents.ts';
import { pointGap } from '../../src/geometry/gap.ts';
import { isInside } from '../../src/geometry/inside.ts';
import type { Loop } from '../../src/geometry/loop.ts';
import { signedArea } from '../../src/geometry/measure.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import { published } from '../helpers/published.ts';

const shapeOf = (text: string) => {
  const read = readHoleSize(text);
  if (!read.ok) throw new Error(read.reasons.join('; '));
  return read.value;
};

const loopOf = (text: string, thicknessMm: number): Loop => {
  const cutout = placeHole({ acrossMm: 30, alongMm: 50, ...shapeOf(text) }, 'holes 1', {
    origin: [0, 0],
    across: [0, 1],
    along: [1, 0],
    thicknessMm,
  });
  if (cutout.kind !== 'loop') throw new Error('round');
  return cutout.loop;
};

const sizeOf = (loop: Loop): readonly [number, number] => {
  const box = loopExtents(loop);
  return box === undefined ? [0, 0] : [box.maxX - box.minX, box.maxY - box.minY];
};

describe('the hole in a sheet for a tube at an angle, against the published sizes', () => {
  it.each(['sheet-hole-30', 'sheet-hole-45'])('%s', (id) => {
    const { given, expect: asked, tolerance } = published('cope', id);
    const { D, angle_deg, t } = given as Record<string, number>;
    const [length, width] = sizeOf(loopOf(`T${D}@${angle_deg}`, t ?? 0));
    expect(Math.abs(length - (asked['length'] as number))).toBeLessThan(tolerance);
    expect(Math.abs(width - (asked['width'] as number))).toBeLessThan(tolerance);
    const [plain] = sizeOf(loopOf(`T${D}@${angle_deg}`, 0));
    expect(Math.abs(plain - (asked['plain_ellipse'] as number))).toBeLessThan(tolerance);
  });

  it('a sheet without thickness has the ellipse of a flue, and of pins and a string', () => {
    const flue = published('cope', 'sheet-hole-flue');
    const { slope_deg } = flue.given as Record<string, number>;
    const [long, wide] = sizeOf(loopOf(`T200@${slope_deg}`, 0));
    expect(Math.abs(long / 200 - (flue.expect['long_half'] as number))).toBeLessThan(
      flue.tolerance,
    );
    expect(wide).toBeCloseTo(200, 9);
    const string = published('cope', 'sheet-hole-45-string');
    const [major, minor] = sizeOf(loopOf('T100@45', 0));
    expect(Math.abs(major / 100 - (string.expect['major'] as number))).toBeLessThan(
      string.tolerance,
    );
    expect(
      Math.abs(
        Math.sqrt(major ** 2 - minor ** 2) / 100 - (string.expect['focal_distance'] as number),
      ),
    ).toBeLessThan(string.tolerance);
  });
});

describe('any tube through any sheet', () => {
  const any = fc.record({
    tube: fc.double({ min: 6, max: 200, noNaN: true }),
    lean: fc.double({ min: 0.5, max: 75, noNaN: true }),
    turn: fc.integer({ min: 0, max: 359 }),
    t: fc.double({ min: 0.5, max: 10, noNaN: true }),
  });

  it('touches the edge of its hole all round, and cuts into it nowhere', () => {
    fc.assert(
      fc.property(any, ({ tube, lean, turn, t }) => {
        const loop = loopOf(`T${tube}@${lean}@${turn}`, t);
        const [a, b] = [lean, turn].map((d) => (d * Math.PI) / 180) as [number, number];
        // The tube, walked through the sheet layer by layer: its axis leans by the angle, and its
        // section in every layer is the same ellipse, moved along.
        const gaps = Array.from({ length: 72 }, (_, k) => (k * Math.PI) / 36).flatMap((round) =>
          [-0.5, 0, 0.5].map((layer) => {
            const along = (tube / 2) * (Math.cos(round) / Math.cos(a)) + layer * t * Math.tan(a);
            const across = (tube / 2) * Math.sin(round);
            const at = [
              50 + along * Math.cos(b) - across * Math.sin(b),
              30 + along * Math.sin(b) + across * Math.cos(b),
            ] as const;
            return { inside: isInside(loop, at), gap: pointGap(at, loop), round, layer };
          }),
        );
        for (const { inside, gap } of gaps) expect(inside ? 0 : gap).toBeLessThan(0.0101);
        // The foremost points of the two faces lie on the edge.
        for (const { gap, round, layer } of gaps)
          if (layer !== 0 && Math.cos(round) * layer > 0.01) expect(gap).toBeLessThan(0.0101);
        // Ellipse and the parallelogram that it is swept over.
        const exact = (Math.PI * tube * tube) / 4 / Math.cos(a) + tube * t * Math.tan(a);
        expect(Math.abs(signedArea(loop) - exact)).toBeLessThan(0.01 * tube * 4);
      }),
      { numRuns: fuzzRuns(200) },
    );
  });

  it('is as wide and reaches as far as is said of it', () => {
    fc.assert(
      fc.property(any, ({ tube, lean, t }) => {
        const text = `T${tube}@${lean} clear 1 grommet 2`;
        const { shape } = shapeOf(text);
        const [long, wide] = sizeOf(loopOf(text, t));
        expect(widthOf(shape)).toBeCloseTo(wide, 6);
        expect(2 * reachOf(shape, t)).toBeCloseTo(long, 6);
      }),
      { numRuns: fuzzRuns(100) },
    );
  });
});

describe('how it is written', () => {
  it('square to the sheet it is round; room and grommet are on all sides', () => {
    expect(shapeOf('T76')).toEqual({
      shape: { kind: 'round', diameterMm: 76 },
      use: { tube: { diameterMm: 76, leanDeg: 0 } },
    });
    expect(shapeOf('t 76 clear 0.5 grommet 2').shape).toEqual({ kind: 'round', diameterMm: 81 });
    // Room is square to the tube, a grommet as thick as it is in the plane of the sheet.
    const [long, wide] = sizeOf(loopOf('T40@60 clear 1 grommet 2', 2));
    expect(long).toBeCloseTo(42 * 2 + 2 * Math.sqrt(3) + 4, 6);
    expect(wide).toBeCloseTo(46, 6);
    expect(shapeOf('T 3in@30').shape).toMatchObject({ tubeMm: 76.2, leanDeg: 30, turnDeg: 0 });
  });

  it('leans along the fold, or as it is turned', () => {
    const [along, across] = sizeOf(loopOf('T40@30', 3));
    expect([along, across]).toEqual([expect.closeTo(47.9201, 3), expect.closeTo(40, 6)]);
    expect(sizeOf(loopOf('T40@30@90', 3))).toEqual([
      expect.closeTo(40, 6),
      expect.closeTo(47.9201, 3),
    ]);
  });

  it.each([
    ['T76@81', /0 to 80 degrees/],
    ['T76@-1', /0 to 80 degrees/],
    ['T0@30', /more than 0/],
    ['T76@30@90@1', /T76@30@90/],
    ['T76@30 for M8', /not for/],
    ['T76@30 csk up', /not csk/],
    ['T76@30 drill', /not drill/],
    ['T76@30 clear 101', /0 to 100/],
    ['T76@30 clear 1 clear 2', /clear once/],
    ['T76@30 grommet', /grommet/],
    ['9 clear 1', /behind a tube/],
    ['T76@x', /angle/],
  ])('%s is refused', (text, why) => {
    const read = readHoleSize(text);
    expect(read.ok ? 'read' : read.reasons.join('; ')).toMatch(why);
  });
});
