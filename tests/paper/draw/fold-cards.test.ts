import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../../src/data/machines/press-brake.ts';
import { findMaterial } from '../../../src/data/materials.ts';
import { flatten } from '../../../src/flatten/flatten.ts';
import { withChords } from '../../../src/geometry/chords.ts';
import { pieceOf } from '../../../src/geometry/piece.ts';
import { rectangle } from '../../../src/geometry/loop.ts';
import { cross3 } from '../../../src/geometry/vec3.ts';
import type { Area, PictureItem } from '../../../src/model/picture.ts';
import type { Part } from '../../../src/model/part.ts';
import { seen } from '../../../src/paper/draw/camera.ts';
import { foldCells } from '../../../src/paper/draw/fold-cells.ts';
import { FROM_LEFT } from '../../../src/paper/draw/fold-lay.ts';
import { blockedScenes, type FoldScene, foldScenes } from '../../../src/paper/draw/fold-scene.ts';
import { blockedWords, cardLines } from '../../../src/paper/draw/fold-words.ts';
import { meshSection } from '../../../src/paper/draw/mesh-section.ts';
import { visibleEdges } from '../../../src/paper/draw/visible-edges.ts';
import { type PartPlan, planPart } from '../../../src/plan/of-part/part-plan.ts';
import { angle, box, fold, panel, part } from '../../helpers/parts.ts';

const material = findMaterial('dc01');
if (!material.ok) throw new Error('dc01 is in the catalogue');

interface Planned {
  readonly plan: PartPlan;
  readonly scenes: readonly FoldScene[];
  readonly flat: ReturnType<typeof flatten>;
  readonly part: Part;
}

const planned = (of: Part, machine: typeof BOX_PAN | typeof PRESS_BRAKE = BOX_PAN): Planned => {
  const flat = flatten(of, { id: 'k', k: 0.42 });
  const plan = planPart({ part: of, flat, material: material.value, bends: [] }, machine);
  return { plan, flat, part: of, scenes: foldScenes(plan, { part: of, flat }) };
};

const BRACKET = angle(60, 30, 100, 90, 1.5, 1.5);
const TRAY = box(200, 120, 30, 90, 1.5, 1.5);
const SIZE = { widthMm: 92, heightMm: 70 };

const inner = (items: readonly PictureItem[]): PictureItem[] =>
  items.flatMap((i) => (i.kind === 'group' ? inner(i.items) : [i]));
const cellsOf = (scene: FoldScene) =>
  foldCells(scene, SIZE).map(({ title, picture }) => ({ title, items: inner(picture.items) }));
const textsOf = (items: readonly PictureItem[]): string[] =>
  items.flatMap((i) => (i.kind === 'label' ? [i.text] : []));
const areas = (items: readonly PictureItem[], fill: number): Area[] =>
  items.filter((i): i is Area => i.kind === 'area' && i.fill === fill);

describe('a stroke at the machine', () => {
  test('on a folder the held side stays, the swung side and the leaf turn by the stop angle', () => {
    const [scene, ...more] = planned(BRACKET).scenes as [FoldScene];
    expect(more).toEqual([]);
    // Springback of DC01 at r = t: 0.99.
    expect(scene.stopDeg).toBeCloseTo(90 / 0.99, 6);
    const cut = (mesh: FoldScene['before'], isSwung: boolean) =>
      meshSection(mesh, 0.0137).cut.filter(
        (c) => c.kind === 'panel' && scene.swung.has(c.of) === isSwung,
      );
    expect(cut(scene.after, false)).toEqual(cut(scene.before, false));
    const slope = (mesh: FoldScene['before']): number => {
      const [p = [0, 0], q = [0, 0]] = cut(mesh, true)[0]?.slice ?? [];
      return (Math.atan2(q[1] - p[1], q[0] - p[0]) * 180) / Math.PI;
    };
    const turned = (slope(scene.after) - slope(scene.before) + 720) % 180;
    expect(turned).toBeCloseTo(90 / 0.99, 6);
    const moved = scene.machineBefore.filter(
      (p, i) => JSON.stringify(p.pieces) !== JSON.stringify(scene.machineAfter[i]?.pieces),
    );
    expect(moved.map((p) => p.name)).toEqual(['leaf']);
    expect(scene.machineBefore.map((p) => p.name)).toEqual(['bed', 'fingers', 'beam', 'leaf']);
  });

  test('on a press brake both legs rise alike over a die drawn as a V', () => {
    const [scene] = planned(BRACKET, PRESS_BRAKE).scenes as [FoldScene];
    const highest = (isSwung: boolean): number =>
      Math.max(
        ...meshSection(scene.after, 0.0137)
          .cut.filter((c) => scene.swung.has(c.of) === isSwung)
          .flatMap((c) => c.slice.map((p) => p[1])),
      );
    expect(highest(true)).toBeGreaterThan(15);
    expect(highest(false)).toBeGreaterThan(15);
    const cells = cellsOf(scene);
    for (const title of ['3  Under the punch', '4  Press to the stop']) {
      const items = cells.find((c) => c.title === title)?.items ?? [];
      const dies = items.filter((i): i is Area => i.kind === 'area' && i.rims[0]?.length === 7);
      expect(dies).toHaveLength(1);
      const [, left, tip, right] = (dies[0]?.rims[0] ?? []).map((p) => p.from);
      expect(tip?.[0]).toBeCloseTo(((left?.[0] ?? 0) + (right?.[0] ?? 0)) / 2, 6);
      expect(tip?.[1]).toBeLessThan(
        (left?.[1] ?? 0) - 0.4 * ((right?.[0] ?? 0) - (left?.[0] ?? 0)),
      );
      expect(textsOf(items)).toEqual(expect.arrayContaining(['punch', 'die']));
    }
  });

  test('is seen as it is, not mirrored, with the leaf on the right as in the section', () => {
    expect(cross3(FROM_LEFT.right, FROM_LEFT.up)).toEqual(
      FROM_LEFT.toward.map((v) => expect.closeTo(v, 12)),
    );
    expect(FROM_LEFT.right[0]).toBeGreaterThan(0);
    // Whoever works at x > 0 and looks along -x has +z on the left: cross(-x, y) = -z.
    expect(cross3([-1, 0, 0], [0, 1, 0])).toEqual([-0, 0, -1].map((v) => expect.closeTo(v, 12)));
  });

  test.each([
    ['a bracket', BRACKET],
    ['a tray', TRAY],
  ])('%s has no line on a panel that is not an edge of the metal or of a bend', (_, of) => {
    const { scenes, flat } = planned(of);
    const [scene] = scenes as [FoldScene];
    // Before the first stroke all is flat: what is seen are the outline on both faces and its corners.
    const flatTo = ([x, y]: readonly [number, number], deep: number) => {
      const [px, py, pz] = scene.onSheet([x, y]);
      return seen(FROM_LEFT, [px, py - deep, pz]);
    };
    const round = withChords(flat.outline, 0.0005);
    const outline = round.map((_v, i) => pieceOf(round, i));
    const rims = outline.flatMap(({ from, to }) => [
      [flatTo(from, 0), flatTo(to, 0)] as const,
      [flatTo(from, 1.5), flatTo(to, 1.5)] as const,
      [flatTo(from, 0), flatTo(from, 1.5)] as const,
    ]);
    const bends = flat.bends.flatMap((b) =>
      [b.parentTangent, b.childTangent].map(([p, q]) => [flatTo(p, 0), flatTo(q, 0)] as const),
    );
    const isOn = (p: readonly number[], lines: typeof rims): boolean =>
      lines.some(([a, b]) => {
        const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
        const t = ((p[0]! - a[0]) * dx + (p[1]! - a[1]) * dy) / (dx * dx + dy * dy || 1);
        const s = Math.max(0, Math.min(1, t));
        return Math.hypot(p[0]! - a[0] - s * dx, p[1]! - a[1] - s * dy) < 0.11;
      });
    const { edges } = visibleEdges(scene.before, FROM_LEFT);
    expect(edges.length).toBeGreaterThan(6);
    for (const { from, to, kind } of edges)
      for (const share of [0.1, 0.5, 0.9]) {
        const p = [0, 1].map((i) => from[i]! + share * (to[i]! - from[i]!));
        expect(isOn(p, kind === 'bend' ? bends : rims), kind).toBe(true);
      }
  });

  test('has the same scale before, after and at its check', () => {
    for (const scene of planned(TRAY).scenes) {
      const held = cellsOf(scene)
        .filter(({ title }) => /^[345]/.test(title))
        .map(({ items }) => areas(items, 0).filter((a) => a.rims[0]?.length === 4));
      expect(held).toHaveLength(3);
      const widths = held.map((list) => {
        const xs = list.flatMap((a) => a.rims.flatMap((r) => r.map((p) => p.from[0])));
        return Math.max(...xs) - Math.min(...xs);
      });
      expect(widths[0]).toBeGreaterThan(5);
      expect(widths[1]).toBeCloseTo(widths[0] ?? 0, 6);
      expect(widths[2]).toBeCloseTo(widths[0] ?? 0, 6);
    }
  });

  test('shows the fingers of the plan, which stand between the standing sides', () => {
    const { plan, scenes } = planned(TRAY);
    plan.plan.steps.forEach((step, i) => {
      const scene = scenes[i] as FoldScene;
      expect(step.card.tools.flatMap((t) => t.widthsMm)).toEqual(step.fingersMm);
      const front = cellsOf(scene).find(({ title }) => title.startsWith('2'));
      expect(textsOf(front?.items ?? [])).toEqual(
        step.card.tools.map((t) => t.widthsMm.join(' + ')),
      );
      // What stands up is no nearer to a block than the clearance beside fingers.
      const standing = scene.before.points.filter((p) => p[1] > 10 && Math.abs(p[0]) < 30);
      for (const { line, from, widthsMm } of scene.tools) {
        const to = from - widthsMm.reduce((s, w) => s + w, 0);
        for (const [, , z] of standing) expect(z > to + 0.9 && z < from - 0.9).toBe(false);
        expect(from - line.to).toBeLessThan(2);
        expect(line.from - to).toBeLessThan(2);
      }
    });
  });

  test('names machine parts, the clamped and the swung panel, folds, mark and check', () => {
    const { plan, scenes } = planned(BRACKET);
    const [step] = plan.plan.steps;
    const cells = cellsOf(scenes[0] as FoldScene);
    const [lay, , clamp, swing, check] = cells.map(({ items }) => textsOf(items));
    expect(cells.map((c) => c.title[0])).toEqual(['1', '2', '3', '4', '5']);
    expect(lay).toEqual(
      expect.arrayContaining([
        `CLAMP ${step?.clampedSide}`,
        `SWING ${step?.card.swungSide}`,
        step?.bend,
        String(Math.round((step?.sightLineMm ?? 0) * 10) / 10),
      ]),
    );
    expect(clamp).toEqual(expect.arrayContaining(['fingers', 'bed', 'leaf']));
    expect(swing).toContain(`${(90 / 0.99).toFixed(1)}°`);
    expect(check).toEqual(expect.arrayContaining(['90° inside']));
    expect(cardLines(step as never).map(([word]) => word)).toEqual(
      expect.arrayContaining(['MARK', 'SET', 'HOLD', 'STOP', 'CHECK', 'CARE']),
    );
  });
});

test('what stands in the way: the panel that is met, grey, and the stroke as far as it gets', () => {
  const sides = [
    panel('web', rectangle(0, 0, 80, 40)),
    panel('flange A', rectangle(0, 0, 80, 90)),
    panel('flange B', rectangle(0, 0, 80, 90)),
  ];
  const at = (id: string, edge: number) =>
    fold(id, { panel: 'web', edge }, { panel: `flange ${id}`, edge: 0 }, 90, 'up', 1.5);
  const {
    plan,
    part: of,
    flat,
  } = planned(part(sides, [at('A', 0), at('B', 2)], { thicknessMm: 1.5 }));
  expect(plan.plan.feasible).toBe(false);
  const rows = blockedScenes(plan, { part: of, flat });
  expect(rows.map((r) => r.blocked)).toEqual(plan.plan.blockedBy);
  expect(blockedWords(plan.plan.blockedBy[0] as never)).toMatchObject({
    title: 'Fold B cannot be made after A',
    moves: null,
  });
  for (const { blocked, scene } of rows) {
    if (scene === undefined) throw new Error(`fold ${blocked.bend} has no picture`);
    expect(scene.inTheWay).toBe(blocked.touches);
    expect(scene.stopDeg).toBeCloseTo(blocked.atDeg ?? 0, 9);
    const after = cellsOf(scene).find(({ title }) => title.startsWith('4'));
    expect(areas(after?.items ?? [], 0.6).length).toBeGreaterThan(0);
  }
});
