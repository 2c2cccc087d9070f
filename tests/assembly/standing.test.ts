import { describe, expect, test } from 'vitest';
import type { PlacedPiece } from '../../src/assembly/assembly.ts';
import { joinedBody } from '../../src/assembly/joined-body.ts';
import { weldsOf } from '../../src/assembly/weld-seams.ts';
import { foldUp } from '../../src/fold/fold-up.ts';
import {
  composePoses,
  invertPose,
  type Pose,
  posePoint,
  poseVector,
} from '../../src/geometry/pose.ts';
import { cross3, dot3, type Vec3 } from '../../src/geometry/vec3.ts';
import { mirrorStanding } from '../../src/model/standing.ts';
import { setsOf } from '../../src/use/assembly/assembled.ts';
import duct from '../../templates/duct-box/index.ts';
import tank from '../../templates/tank/index.ts';
import transition from '../../templates/duct-transition/index.ts';
import { ductPoses } from '../helpers/duct-box.ts';
import { oneOfEach } from '../helpers/extent.ts';
import { foldBlank } from '../helpers/folded-solid.ts';
import { exampleSets, setsFrom } from '../helpers/made-sets.ts';
import { loadSolids, type Solid, type Solids } from '../helpers/solid.ts';

/** A piece as solids of the kernel, from its blank, in the whole. */
const solidsOf = (solids: Solids, { part, flat, pose }: PlacedPiece): Solid[] => {
  const { panels, bends } = foldBlank(solids, part, flat);
  return [...panels.values(), ...bends.values()].map((solid) => solids.move(solid, pose));
};

/** Facets that meet about the middle of the sheet have no mitre in the kernel, and run into each other. */
const isOfFacets = ({ part }: PlacedPiece): boolean =>
  part.folds.some((fold) => fold.midSurface === true);

const ALL = await exampleSets();
const SOLID = ALL.filter(({ set }) => !set.assembly.pieces.some(isOfFacets));

describe.each([...oneOfEach(SOLID, ({ family }) => family)])('$title', async ({ set }) => {
  const withSolids = await loadSolids();
  const { pieces } = set.assembly;

  test('no piece runs into another, by the kernel', () => {
    withSolids((solids) => {
      const all = pieces.map((piece) => solidsOf(solids, piece));
      for (const [i, own] of all.entries())
        for (const other of all.slice(i + 1))
          for (const a of own)
            for (const b of other)
              if (solids.distance(a, b) === 0) expect(solids.commonVolume(a, b)).toBeLessThan(1e-3);
    });
  });

  test('pieces that are welded stand their gap apart, by the kernel', () => {
    const joined = joinedBody(set.assembly);
    const welds = weldsOf(set.assembly, joined).filter(({ turn }) => turn > 0);
    withSolids((solids) => {
      const panels = pieces.map(
        ({ part, flat, pose }) =>
          new Map(
            [...foldBlank(solids, part, flat).panels].map(([id, solid]) => [
              id,
              solids.move(solid, pose),
            ]),
          ),
      );
      const solidOf = (panel: string): Solid => {
        const found = panels[joined.pieceOf(panel)]?.get(joined.panelOf(panel));
        if (found === undefined) throw new Error(`no ${panel}`);
        return found;
      };
      const hasTeeth = /^(?:tool-bracket|seat-tank)/.test(set.name);
      // Floors that fall two ways, and ends of what narrows, meet walls askew: both are cut square to their own sheets, and come
      // nearest at a corner, by a few thousandths.
      const isSkew = /^(?:bed|cart|member)-tank/.test(set.name);
      let count = 0;
      for (const { runs } of welds)
        for (const {
          panels: [a, b],
          gapMm,
        } of runs) {
          const apart = solids.distance(solidOf(a), solidOf(b));
          // A tooth of the same panel stands nearer to the sides of its slot.
          if (hasTeeth) expect(apart).toBeGreaterThan(0.01);
          else {
            expect(apart, `${a} and ${b}`).toBeLessThan(gapMm + 5e-7);
            expect(apart, `${a} and ${b}`).toBeGreaterThan(gapMm - (isSkew ? 0.005 : 5e-7));
          }
          count += 1;
        }
      expect(count > 0 || set.assembly.pieces.some(({ weldedTo }) => weldedTo?.length === 0)).toBe(
        true,
      );
    });
  });
});

test('pieces that are welded to another stand as far off as was asked: the gap of the weld, or the clearance of a baffle', () => {
  const gapsOf = (inputs: Record<string, unknown>) =>
    setsFrom(tank, { ...tank.examples[0]?.inputs, ...inputs }).flatMap(({ assembly }) =>
      weldsOf(assembly).map(({ pieces, gapMm }) => [
        pieces.some((id) => id.startsWith('baffle')),
        gapMm.map((mm) => Number(mm.toFixed(9))),
      ]),
    );
  const gaps = gapsOf({ cornerGap: 0.8 });
  expect(gaps.length).toBeGreaterThan(5);
  for (const [isBaffle, gap] of gaps) expect(gap).toEqual(isBaffle === true ? [1, 1] : [0.8, 0.8]);
});

test('the walls of a duct box stand on the planes that were asked for, worked out from its corners', () => {
  // A ring of lips has its own thickness between the walls and their aperture, and seams make other
  // pieces: both have tests of their own.
  for (const { lipForm: _, weldAt: __, ...inputs } of duct.examples.map(
    (example): Record<string, unknown> => example.inputs,
  )) {
    for (const { parts } of setsFrom(duct, { ...inputs, hand: 'left' })) {
      const { name: ___, ...given } = inputs as Record<string, number | string>;
      const isInside = given['measure'] === 'inside';
      const mm = (key: string): number => (given[key] === '8in' ? 203.2 : Number(given[key] ?? 0));
      const asked = {
        width: mm('width'),
        height: mm('height'),
        endWidth: mm('endWidth'),
        endHeight: mm('endHeight'),
        depth: mm('length') - (given['end'] === 'stub' ? mm('thickness') : 0),
        offsetRight: mm('offsetRight'),
        offsetUp: mm('offsetUp'),
      };
      for (const { part, flat, standing, result } of parts) {
        if (result.piece === 'end-plate') continue;
        const wanted = ductPoses(part, flat, asked, isInside ? mm('thickness') : 0).get(part.root);
        const [pose] = standing?.poses ?? [];
        if (pose === undefined || wanted === undefined) throw new Error('no place');
        for (const axis of ['o', 'x', 'y', 'z'] as const)
          pose[axis].forEach((v, i) => expect(v).toBeCloseTo(wanted[axis][i] as number, 9));
      }
    }
  }
});

describe('the halves and the collar of a transition', () => {
  const inputs = transition.examples[1]?.inputs as Record<string, number>;
  const [set] = setsFrom(transition, inputs);
  if (set === undefined) throw new Error('no set');
  const [width, depth, diameter, length, divisions] = [
    'width',
    'depth',
    'diameter',
    'length',
    'divisions',
  ].map((key) => inputs[key]) as [number, number, number, number, number];
  const t = inputs['thickness'] as number;
  // On the middle of the sheet an end that is measured outside is a thickness smaller; the chords
  // of the round end add up to its circumference.
  const corner = [(width - t) / 2, (depth - t) / 2] as const;
  const chord = (Math.PI * (diameter - t)) / divisions;
  const rim = chord / (2 * Math.sin(Math.PI / divisions));
  const centre = [inputs['offsetRight'], inputs['offsetBack']] as [number, number];
  /** Corners of the facets on the middle of the sheet, in the whole. */
  const cornersOf = ({ part, flat, pose }: PlacedPiece): Vec3[] => {
    const { poses } = foldUp(part, flat);
    // Panels beside a seam are cut back by half its gap.
    const whole = part.panels.filter(({ outline }) => outline.every(({ edge }) => edge !== 'seam'));
    return whole.flatMap(({ id, outline }) =>
      outline.map(({ x, y }) =>
        posePoint(pose, posePoint(poses.get(id) as Pose, [x, y, part.thicknessMm / 2])),
      ),
    );
  };

  test('end at the rectangle and at the circle', () => {
    const halves = set.assembly.pieces.filter(({ id }) => id !== 'collar');
    expect(halves).toHaveLength(2);
    for (const [x, y, z] of halves.flatMap(cornersOf)) {
      const isBelow = Math.abs(z) < 1e-9;
      expect(isBelow || Math.abs(z - length) < 1e-9).toBe(true);
      if (isBelow) {
        const off = Math.min(Math.abs(Math.abs(x) - corner[0]), Math.abs(Math.abs(y) - corner[1]));
        expect(off).toBeLessThan(1e-9);
      } else expect(Math.abs(Math.hypot(x - centre[0], y - centre[1]) - rim)).toBeLessThan(1e-9);
    }
  });

  test('the collar stands over the round end, closed but for its gap', () => {
    const collar = set.assembly.pieces.find(({ id }) => id === 'collar');
    if (collar === undefined) throw new Error('no collar');
    const points = cornersOf(collar);
    const [first, last] = [points[0], points.at(-3)] as [Vec3, Vec3];
    expect(Math.hypot(first[0] - last[0], first[1] - last[1])).toBeLessThan(0.51);
    for (const [x, y, z] of points) {
      expect(Math.hypot(x - centre[0], y - centre[1])).toBeGreaterThan(
        rim * Math.cos(Math.PI / divisions) - 1e-9,
      );
      expect(Math.hypot(x - centre[0], y - centre[1])).toBeLessThan(rim + 1e-9);
      expect(z).toBeGreaterThan(length - 1e-9);
      expect(z).toBeLessThan(length + 40 + t);
    }
  });
});

test.each([...ALL])('$title: every pose is a rigid motion', ({ set }) => {
  for (const { pose } of set.assembly.pieces) {
    const { x, y, z } = pose;
    const [wx, wy, wz] = cross3(x, y);
    expect(Math.hypot(wx - z[0], wy - z[1], wz - z[2])).toBeLessThan(1e-9);
    for (const [a, b] of [
      [x, y],
      [y, z],
      [z, x],
    ] as const) {
      expect(Math.abs(dot3(a, b))).toBeLessThan(1e-9);
      expect(Math.abs(dot3(a, a) - 1)).toBeLessThan(1e-9);
    }
  }
});

test('a set of which a piece is stopped, has no place or is of other sheet is no whole', () => {
  const [set] = setsFrom(tank, { ...tank.examples[0]?.inputs });
  const [first, ...rest] = set?.parts ?? [];
  if (first === undefined) throw new Error('no set');
  const { standing: _, ...nowhere } = first;
  const thicker = { ...first, part: { ...first.part, thicknessMm: 9 } };
  const stopped = { ...first, stopped: true, files: (): readonly [] => [] } as const;
  expect(setsOf([first, ...rest])).toHaveLength(1);
  for (const other of [nowhere, thicker, stopped]) expect(setsOf([other, ...rest])).toEqual([]);
});

test('the other hand is the mirror image of the whole: a point of a piece and its image', () => {
  const pose: Pose = { o: [10, 20, 30], x: [0, 1, 0], y: [0, 0, 1], z: [1, 0, 0] };
  const [mirrored] = mirrorStanding({ poses: [pose] }).poses;
  if (mirrored === undefined) throw new Error('no pose');
  const [x, y, z] = posePoint(pose, [3, 4, 5]);
  const image = posePoint(mirrored, [-3, 4, 5]);
  [-x, y, z].forEach((v, i) => expect(image[i]).toBeCloseTo(v, 12));
  expect(poseVector(composePoses(invertPose(mirrored), mirrored), [1, 2, 3])).toEqual([1, 2, 3]);
});
