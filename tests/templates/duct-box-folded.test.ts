import fc from 'fast-check';
import { expect, test } from 'vitest';
import { posePoint } from '../../src/geometry/pose.ts';
import { dot3, type Vec3 } from '../../src/geometry/vec3.ts';
import { make } from '../helpers/check-template.ts';
import {
  askedFaces,
  type AskedDuct,
  cornersOf,
  ductPoses,
  type Face,
} from '../helpers/duct-box.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';

const WALLS = ['bottom', 'right', 'top', 'left'];

/** What is asked for in these tests: a plate only where it is folded on. */
interface Case extends AskedDuct {
  readonly lip: number;
  readonly end: 'open' | 'lip-in' | 'lip-out' | 'stub';
  /** Never `none` with a stub: then the plate is a part of its own. */
  readonly plateOn: string;
  readonly blanks: 'whole' | 'halves' | 'top-off';
  readonly seam: string;
  readonly thickness: number;
  readonly radius: number;
  readonly measure: 'outside' | 'inside';
}

const inputsOf = ({ depth, ...rest }: Case) => ({
  ...rest,
  length: depth,
  endLip: 18,
  stub: 30,
  rule: 'k:0.42',
  material: 's235',
});

/**
 * The outside face of the plate closes the asked rectangle, but for the side that its bend takes.
 */
const expectPlate = (
  corners: readonly Vec3[],
  { endWidth: w, endHeight: h, offsetRight: x = 0, offsetUp: y = 0, plateOn }: Case,
): void => {
  const box = [0, 1].flatMap((k) => [
    Math.min(...corners.map((p) => p[k] ?? NaN)),
    Math.max(...corners.map((p) => p[k] ?? NaN)),
  ]);
  const folded = ['left', 'right', 'bottom', 'top'].indexOf(plateOn);
  const want = [x - w / 2, x + w / 2, y - h / 2, y + h / 2];
  expect(box.filter((_, k) => k !== folded)).toEqual(
    want.filter((_, k) => k !== folded).map((n) => expect.closeTo(n, 6)),
  );
};

/**
 * Every panel lies on the planes through the asked edges, and nothing stands out of the planes of
 * the two ends.
 */
const expectAsAsked = async (asked: Case): Promise<boolean> => {
  const parts = await make('duct-box', inputsOf(asked));
  if (parts.some((p) => p.stopped)) return false;
  const faces = askedFaces(asked);
  // On the face that is measured, and as much further out as the sheet is thick where that is the
  // inside.
  const over = asked.measure === 'inside' ? asked.thickness : 0;
  const depths: number[] = [];
  for (const { part, flat } of parts) {
    if (part === undefined || flat === undefined) throw new Error('no flat pattern');
    const poses = ductPoses(part, flat, asked, over);
    for (const panel of flat.panels) {
      const [name = '', ...kind] = panel.id.split(' ');
      const pose = poses.get(panel.id);
      if (pose === undefined) throw new Error(`no ${panel.id}`);
      const [lower, upper] = [cornersOf(panel, pose, 0), cornersOf(panel, pose, asked.thickness)];
      depths.push(...[...lower, ...upper].map((p) => p[2]));
      if (kind.length === 0) {
        const { normal, level } = faces[WALLS.indexOf(name)] as Face;
        for (const p of lower) expect(dot3(normal, p)).toBeCloseTo(level + over, 6);
        for (const p of upper)
          expect(dot3(normal, p)).toBeCloseTo(level + over - asked.thickness, 6);
      } else if (panel.id === 'end plate') {
        for (const p of lower) expect(p[2]).toBeCloseTo(asked.depth, 6);
        if (over === 0) expectPlate(lower, asked);
        const hole = part.panels.find((p) => p.id === panel.id)?.cutouts[0];
        const [x, y] = hole?.kind === 'round' ? posePoint(pose, [...hole.centre, 0]) : [];
        expect([x, y]).toEqual([
          expect.closeTo(asked.offsetRight ?? 0, 6),
          expect.closeTo(asked.offsetUp ?? 0, 6),
        ]);
      } else if (kind.join(' ') === 'lip') {
        for (const p of upper) expect(p[2]).toBeCloseTo(0, 6);
      } else {
        for (const p of asked.end === 'lip-in' ? lower : upper)
          expect(p[2]).toBeCloseTo(asked.depth, 6);
      }
    }
  }
  expect([Math.min(...depths), Math.max(...depths)]).toEqual([
    expect.closeTo(0, 6),
    expect.closeTo(asked.depth, 6),
  ]);
  return true;
};

test('folded, all walls lie on the planes through the asked edges, whatever the offsets, lips, seams and blanks', async () => {
  const mm = (min: number, max: number) => fc.integer({ min, max });
  const cases = fc.record({
    width: mm(90, 300),
    height: mm(90, 300),
    endWidth: mm(80, 300),
    endHeight: mm(80, 300),
    depth: mm(60, 400),
    offsetRight: mm(-90, 90),
    offsetUp: mm(-90, 90),
    lip: fc.constantFrom(0, 18, 25),
    end: fc.constantFrom('open' as const, 'lip-in' as const, 'lip-out' as const, 'stub' as const),
    plateOn: fc.constantFrom('bottom', 'right', 'top', 'left'),
    blanks: fc.constantFrom('whole' as const, 'halves' as const, 'top-off' as const),
    seam: fc.constantFrom('bottom-right', 'top-right', 'top-left', 'bottom-left'),
    thickness: fc.constantFrom(1, 1.5, 2),
    radius: fc.constantFrom(1, 2, 3),
    measure: fc.constantFrom('outside' as const, 'inside' as const),
  });
  let made = 0;
  for (const asked of fc.sample(cases, { numRuns: fuzzRuns(120, 20), seed: 7 }))
    if (await expectAsAsked(asked)) made++;
  expect(made).toBeGreaterThan(shareOf(60));
});
