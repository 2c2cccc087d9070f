import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { flatten } from '../../src/flatten/flatten.ts';
import type { HemCut } from '../../src/flatten/hem-cut.ts';
import { canBeJoined, type SeamCut } from '../../src/flatten/seam-cut.ts';
import { splitPart } from '../../src/flatten/split.ts';
import { foldUp } from '../../src/fold/fold-up.ts';
import { rectangle } from '../../src/geometry/loop.ts';
import { AT_HOME, composePoses, type Pose } from '../../src/geometry/pose.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { Part } from '../../src/model/part.ts';
import { expectAlike, type Folded } from '../helpers/assembly.ts';
import { fuzzRuns, inTurns } from '../helpers/extent.ts';
import { foldBlank } from '../helpers/folded-solid.ts';
import { fold, panel, part } from '../helpers/parts.ts';
import { randomPart } from '../helpers/random-part.ts';
import { loadSolids, type Solid, type Solids } from '../helpers/solid.ts';

/*
 * Parts cut apart at folds and joined by flanges that lap and by tabs in slots, put together by the
 * solid kernel out of their blanks.
 */

const RULE = { id: 'k', k: 0.42 } as const;

const folded = (one: Part): Folded => ({ part: one, flat: flatten(one, RULE) });

/** An open box of 120 x 80 x 40, with a lip on its right side. */
const box = (angleDeg: number, measure: Part['measure']): Part =>
  part(
    [
      panel('base', rectangle(0, 0, 120, 80)),
      panel('front', rectangle(0, 0, 120, 40)),
      panel('right', rectangle(0, 0, 80, 40)),
      panel('back', rectangle(0, 0, 120, 40)),
      panel('left', rectangle(0, 0, 80, 40)),
      panel('lip', rectangle(0, 0, 80, 12)),
    ],
    [
      fold('A', { panel: 'base', edge: 0 }, { panel: 'front', edge: 0 }, angleDeg),
      fold('B', { panel: 'base', edge: 1 }, { panel: 'right', edge: 0 }),
      fold('C', { panel: 'base', edge: 2 }, { panel: 'back', edge: 0 }, 90),
      fold('D', { panel: 'base', edge: 3 }, { panel: 'left', edge: 0 }),
      fold('E', { panel: 'right', edge: 2 }, { panel: 'lip', edge: 0 }),
    ],
    { thicknessMm: 2, cornerGapMm: 0.5, measure },
  );

const lap = (at: string, on: string, landMm = 14): SeamCut & { readonly way: 'lap' } => ({
  fold: at,
  way: 'lap',
  on,
  landMm,
});
const tab = (at: string, on: string, clearanceMm = 0.2): SeamCut & { readonly way: 'tab' } => ({
  fold: at,
  way: 'tab',
  on,
  clearanceMm,
});

interface Piece extends Folded {
  readonly pose: Pose;
}

const splitAt = (whole: Part, cuts: readonly (SeamCut | HemCut)[]): readonly Piece[] | string[] => {
  const split = splitPart(whole, RULE, cuts, 0.5);
  if (!split.ok) return split.findings.map(({ rule }) => rule);
  return split.pieces.map((one, i) => ({ ...folded(one), pose: split.poses[i] as Pose }));
};

const piecesOf = (whole: Part, cuts: readonly (SeamCut | HemCut)[]): readonly Piece[] => {
  const pieces = splitAt(whole, cuts);
  if (typeof pieces[0] === 'string') throw new Error(JSON.stringify(pieces));
  for (const { flat } of pieces as readonly Piece[])
    expect(flat.findings.filter(({ severity }) => severity === 'stop')).toEqual([]);
  return pieces as readonly Piece[];
};

/** The panels of all pieces in the place of the whole, by name, and their bends. */
const standing = (
  solids: Solids,
  pieces: readonly Piece[],
): { readonly panels: ReadonlyMap<string, Solid>; readonly of: readonly (readonly Solid[])[] } => {
  const all = pieces.map(({ part: own, flat, pose }) => {
    const { panels, bends } = foldBlank(solids, own, flat);
    const placed = new Map([...panels].map(([id, one]) => [id, solids.move(one, pose)] as const));
    return { placed, bends: [...bends.values()].map((one) => solids.move(one, pose)) };
  });
  return {
    panels: new Map(all.flatMap(({ placed }) => [...placed])),
    of: all.map(({ placed, bends }) => [...placed.values(), ...bends]),
  };
};

const HAIR_MM = 0.01;

const pieceWith = (pieces: readonly Piece[], id: string): Piece =>
  pieces.find((piece) => piece.part.panels.some((own) => own.id === id)) as Piece;

const landAreaOf = (pieces: readonly Piece[], id: string): number =>
  pieceWith(pieces, id).flat.panels.find((own) => own.id === id)?.areaMm2 ?? 0;

/** Where a panel stands in the whole. */
const poseIn = (pieces: readonly Piece[], id: string): Pose => {
  const { part: own, flat, pose } = pieceWith(pieces, id);
  return composePoses(pose, foldUp(own, flat).poses.get(id) as Pose);
};

const expectApart = (solids: Solids, of: readonly (readonly Solid[])[]): void => {
  for (const [i, own] of of.entries())
    for (const other of of.slice(i + 1))
      for (const a of own)
        for (const b of other)
          if (solids.distance(a, b) < 1e-9) expect(solids.commonVolume(a, b)).toBeLessThan(1e-3);
};

/** Panels of the whole alone: a flange that was added stands nowhere on it. */
const ofWhole = (pieces: readonly Piece[], whole: Part): readonly Folded[] =>
  pieces.map((piece) => ({
    ...piece,
    part: {
      ...piece.part,
      panels: piece.part.panels.filter(({ id }) => whole.panels.some((own) => own.id === id)),
    },
  }));

describe('a lap in place of a bend', () => {
  test.each(
    inTurns(
      [
        [90, 'outside', [lap('A', 'base')]],
        [90, 'outside', [lap('A', 'front')]],
        [90, 'inside', [lap('A', 'base'), lap('C', 'base')]],
        [60, 'outside', [lap('A', 'base')]],
        [110, 'inside', [lap('A', 'front'), lap('B', 'base')]],
        [110, 'outside', [lap('A', 'base'), lap('D', 'left')]],
      ] as const,
      0,
      3,
    ),
  )(
    'fold A at %d degrees, %s, %j: panels stand as on the whole, the flange lies on its panel',
    async (angleDeg, measure, cuts) => {
      const withSolids = await loadSolids();
      for (const whole of [box(angleDeg, measure), mirrorPart(box(angleDeg, measure))]) {
        const pieces = piecesOf(whole, cuts);
        expect(pieces).toHaveLength(cuts.length + 1);
        expectAlike(folded(whole), ofWhole(pieces, whole));
        withSolids((solids) => {
          const { panels, of } = standing(solids, pieces);
          expectApart(solids, of);
          for (const { fold: at, on } of cuts) {
            const { parent, child } = whole.folds.find(
              ({ id }) => id === at,
            ) as Part['folds'][number];
            const lapped = parent.panel === on ? child.panel : parent.panel;
            const flange = panels.get(`${lapped} lap`) as Solid;
            const under = panels.get(lapped) as Solid;
            expect(solids.distance(flange, under)).toBeLessThan(1e-9);
            // Moved into the panel by a hair, all of its land is in it, but for what lies over the
            // relief at the end of another lap's fold.
            const area = landAreaOf(pieces, `${lapped} lap`);
            expect(area).toBeGreaterThan(14 * 30);
            const { z } = poseIn(pieces, lapped);
            const inward = [-HAIR_MM, HAIR_MM].map((mm) =>
              solids.commonVolume(
                solids.move(flange, { ...AT_HOME, o: [mm * z[0], mm * z[1], mm * z[2]] }),
                under,
              ),
            );
            const reliefMm2 = cuts.length > 1 && on !== 'base' ? 4 : 0;
            expect(Math.max(...inward)).toBeLessThan(area * HAIR_MM + 5e-5);
            expect(Math.max(...inward)).toBeGreaterThan((area - reliefMm2) * HAIR_MM - 5e-5);
          }
        });
      }
    },
  );

  // Sheet of 2, radius 2: the base ends 2 mm sooner and goes up for 4 + 14; the front keeps the whole
  // 40 of its leg, and its ends stand at the open corners.
  test('worked by hand: base and front of a box', () => {
    const [base, front] = piecesOf(box(90, 'outside'), [lap('A', 'base')]);
    expect(front?.flat.heightMm).toBeCloseTo(40, 6);
    expect(front?.flat.widthMm).toBeCloseTo(120 - 2 * 2.35355, 4);
    const flange = base?.flat.panels.find(({ id }) => id === 'front lap');
    const heights = (flange?.region ?? []).map(({ y }) => y);
    expect(Math.max(...heights) - Math.min(...heights)).toBeCloseTo(14, 6);
  });

  test('one that would cover a hole is refused', () => {
    const whole = box(90, 'outside');
    const holed = {
      ...whole,
      panels: whole.panels.map((one) =>
        one.id === 'front'
          ? {
              ...one,
              cutouts: [
                {
                  kind: 'round' as const,
                  from: 'holes 1',
                  centre: [60, 12] as const,
                  diameterMm: 6,
                },
              ],
            }
          : one,
      ),
    };
    expect(splitAt(holed, [lap('A', 'base')])).toEqual(['no-lap-seam']);
    expect(piecesOf(holed, [lap('A', 'front')])).toHaveLength(2);
  });
});

describe('tabs and slots in place of a bend', () => {
  test.each(
    inTurns(
      [
        [90, 'outside', [tab('A', 'front')]],
        [90, 'outside', [tab('A', 'base'), tab('C', 'back')]],
        [90, 'inside', [tab('A', 'front'), tab('B', 'right')]],
        [75, 'outside', [tab('A', 'front')]],
        [100, 'outside', [tab('A', 'front', 0.35)]],
        [100, 'inside', [tab('A', 'base')]],
      ] as const,
      0,
      3,
    ),
  )(
    'fold A at %d degrees, %s, %j: nothing meets, and tabs stand their clearance from their slots',
    async (angleDeg, measure, cuts) => {
      const withSolids = await loadSolids();
      for (const whole of [box(angleDeg, measure), mirrorPart(box(angleDeg, measure))]) {
        const pieces = piecesOf(whole, cuts);
        expectAlike(folded(whole), pieces);
        withSolids((solids) => {
          const { panels, of } = standing(solids, pieces);
          expectApart(solids, of);
          for (const { fold: at, clearanceMm } of cuts) {
            const { parent, child } = whole.folds.find(
              ({ id }) => id === at,
            ) as Part['folds'][number];
            const [a, b] = [panels.get(parent.panel), panels.get(child.panel)] as [Solid, Solid];
            expect(solids.distance(a, b)).toBeCloseTo(clearanceMm, 6);
          }
        });
      }
    },
  );

  test('a tab reaches to the outside of the other panel', () => {
    const [, front] = piecesOf(box(90, 'outside'), [tab('A', 'front')]);
    expect(front?.flat.heightMm).toBeCloseTo(40, 6);
  });

  test('panels that lean have none', () => {
    expect(splitAt(box(45, 'outside'), [tab('A', 'front')])).toEqual(['no-tab-seam']);
  });
});

describe('a hem in place of sheet that is folded double', () => {
  /** A plate of 120 x 80 with a stop of 30, folded right over into a riser of 70 with a foot. */
  const stop = part(
    [
      panel('tread', rectangle(0, 0, 120, 80)),
      panel('stop', rectangle(0, 0, 120, 30)),
      panel('riser', rectangle(0, 0, 120, 70)),
      panel('foot', rectangle(0, 0, 120, 20)),
    ],
    [
      fold('A', { panel: 'tread', edge: 2 }, { panel: 'stop', edge: 0 }),
      fold('B', { panel: 'stop', edge: 2 }, { panel: 'riser', edge: 0 }, 180, 'down'),
      fold('C', { panel: 'riser', edge: 2 }, { panel: 'foot', edge: 0 }),
    ],
    { thicknessMm: 2, cornerGapMm: 0.5 },
  );
  const hem: HemCut = { fold: 'B', way: 'hem', depthMm: 14 };

  test('the rest stands in the plane of the hem, the weld gap before its edge', async () => {
    const withSolids = await loadSolids();
    for (const whole of [stop, mirrorPart(stop)]) {
      const pieces = piecesOf(whole, [hem]);
      expect(pieces.map((p) => p.part.panels.map(({ id }) => id))).toEqual([
        ['tread', 'stop', 'riser hem'],
        ['riser', 'foot'],
      ]);
      expectAlike(folded(whole), ofWhole(pieces, whole));
      withSolids((solids) => {
        const { panels, of } = standing(solids, pieces);
        expectApart(solids, of);
        const [own, rest] = [panels.get('riser hem'), panels.get('riser')] as [Solid, Solid];
        expect(solids.distance(own, rest)).toBeCloseTo(0.5, 6);
      });
      // Of the depth of 14 the bend takes its radius of 3 and the sheet, the gap half of its 0.5.
      const flat = pieces[0]?.flat.panels.find(({ id }) => id === 'riser hem');
      expect(flat?.areaMm2).toBeCloseTo(120 * (14 - 5 - 0.25), 6);
    }
  });

  test('a square fold is no hem, nor is one with too little beyond it', () => {
    expect(splitAt(stop, [{ ...hem, fold: 'A' }])).toEqual(['no-hem-seam']);
    expect(splitAt(stop, [{ ...hem, depthMm: 68 }])).toEqual(['no-hem-seam']);
  });
});

test('random parts, cut and joined in some way: the panels stand as on the whole', () => {
  let looked = 0;
  fc.assert(
    fc.property(
      randomPart(fc.constantFrom(90, 90, 75, 110)),
      fc.nat(11),
      fc.constantFrom('lap', 'tab'),
      fc.boolean(),
      (whole, at, way, isOnParent) => {
        const folds = whole.folds.filter((one) => canBeJoined(one, way));
        const one = folds[at % Math.max(1, folds.length)];
        if (one === undefined || flatten(whole, RULE).outline.length === 0) return;
        const on = (isOnParent ? one.parent : one.child).panel;
        const pieces = splitAt(whole, [way === 'lap' ? lap(one.id, on) : tab(one.id, on)]);
        if (typeof pieces[0] === 'string') return;
        const made = pieces as readonly Piece[];
        if (made.some(({ flat }) => flat.outline.length === 0)) return;
        expectAlike(folded(whole), ofWhole(made, whole));
        looked++;
      },
    ),
    { numRuns: fuzzRuns(300) },
  );
  expect(looked).toBeGreaterThan(5);
});
