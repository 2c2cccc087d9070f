import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../../src/data/machines/press-brake.ts';
import { findMaterial } from '../../../src/data/materials.ts';
import { blockedPictures, type Shape, stepPictures } from '../../../src/paper/draw/fold-step.ts';
import { blockedWords, stepWords } from '../../../src/paper/draw/fold-words.ts';
import { rectangle } from '../../../src/geometry/loop.ts';
import { flatten } from '../../../src/flatten/flatten.ts';
import type { Part } from '../../../src/model/part.ts';
import { type PartPlan, planPart } from '../../../src/plan/of-part/part-plan.ts';
import { writeFoldSteps } from '../../../src/paper/write/fold-steps-svg.ts';
import { angle, box, fold, panel, part } from '../../helpers/parts.ts';

const material = findMaterial('dc01');
if (!material.ok) throw new Error('dc01 is in the catalogue');

const planned = (part: Part, machine: typeof BOX_PAN | typeof PRESS_BRAKE = BOX_PAN): PartPlan =>
  planPart(
    { part, flat: flatten(part, { id: 'k', k: 0.42 }), material: material.value, bends: [] },
    machine,
  );

const BRACKET = angle(60, 30, 100, 90, 1.5, 1.5);
const of = (shapes: readonly Shape[], role: Shape['role']) => shapes.filter((s) => s.role === role);

describe('the pictures of a stroke', () => {
  test('on a folder: the held side stays, the swung side and the leaf turn by the stop angle', () => {
    const plan = planned(BRACKET);
    const [picture, ...more] = stepPictures(plan);
    if (picture === undefined) throw new Error('one stroke has one picture');
    expect(more).toEqual([]);
    expect(of(picture.after, 'held')).toEqual(of(picture.before, 'held'));
    // Springback of DC01 at r = t: 0.99.
    const rad = ((90 / 0.99) * Math.PI) / 180;
    const turned = of(picture.before, 'swung').map((s) =>
      s.points.map(([x, y]) =>
        [x * Math.cos(rad) - y * Math.sin(rad), x * Math.sin(rad) + y * Math.cos(rad)].map((v) =>
          expect.closeTo(v, 6),
        ),
      ),
    );
    expect(of(picture.after, 'swung').map((s) => s.points)).toEqual(turned);
    // Bed, finger of two pieces and beam stay; the leaf of two pieces turns.
    const moved = of(picture.before, 'machine').map(
      (s, i) =>
        JSON.stringify(s.points) !== JSON.stringify(of(picture.after, 'machine')[i]?.points),
    );
    expect(moved).toEqual([false, false, false, false, true, true]);
    // The swung leg stands upright behind the bed's edge, on the clamped side of the hinge by what
    // it springs back.
    const xs = of(picture.after, 'swung').flatMap((s) => s.points.map(([x]) => x));
    expect(Math.max(...xs)).toBeLessThan(0.01);
    expect(Math.min(...xs)).toBeGreaterThan(-3);
  });

  test('on a press brake both legs rise alike', () => {
    const [picture] = stepPictures(planned(BRACKET, PRESS_BRAKE));
    const highest = (role: Shape['role']) =>
      Math.max(...of(picture?.after ?? [], role).flatMap((s) => s.points.map(([, y]) => y)));
    expect(highest('held')).toBeGreaterThan(15);
    expect(highest('swung')).toBeGreaterThan(15);
  });

  test('the view shows every face of every panel, the nearest last, and the fold that is next', () => {
    const tray = planned(box(200, 120, 30, 90, 1.5, 1.5));
    const pictures = stepPictures(tray);
    expect(pictures).toHaveLength(tray.plan.steps.length);
    for (const { view } of pictures) {
      // Five panels of one convex piece, six faces each.
      expect([...of(view, 'face'), ...of(view, 'swung-face')]).toHaveLength(30);
      const [line] = of(view, 'fold-line');
      const [[x0 = 0, y0 = 0] = [], [x1 = 0, y1 = 0] = []] = (line?.points ??
        []) as readonly (readonly number[])[];
      // A line along the machine is seen at 30 degrees, in its true length.
      expect(Math.atan2(Math.abs(y1 - y0), Math.abs(x1 - x0))).toBeCloseTo(Math.PI / 6, 6);
      expect(Math.hypot(x1 - x0, y1 - y0)).toBeGreaterThan(100);
    }
  });
});

test('what stands in the way: the panel that is met, and the stroke as far as it gets', () => {
  const sides = [
    panel('web', rectangle(0, 0, 80, 40)),
    panel('flange A', rectangle(0, 0, 80, 90)),
    panel('flange B', rectangle(0, 0, 80, 90)),
  ];
  const at = (id: string, edge: number) =>
    fold(id, { panel: 'web', edge }, { panel: `flange ${id}`, edge: 0 }, 90, 'up', 1.5);
  const plan = planned(part(sides, [at('A', 0), at('B', 2)], { thicknessMm: 1.5 }));
  expect(plan.plan.feasible).toBe(false);
  const rows = blockedPictures(plan);
  expect(rows.map((r) => r.blocked)).toEqual(plan.plan.blockedBy);
  expect(blockedWords(plan.plan.blockedBy[0] as never)).toMatchObject({
    title: 'Fold B cannot be made after A',
    moves: null,
  });
  for (const { blocked, picture } of rows) {
    if (picture === undefined) throw new Error(`fold ${blocked.bend} has no picture`);
    // The flange that is folded already stands 90 high, less the setback t + r.
    const [flange, ...more] = of(picture.before, 'in-the-way');
    expect(more).toEqual([]);
    const ys = (flange?.points ?? []).map(([, y]) => y);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(87, 6);
    // It swings with the web to where it meets the finger, and no further.
    expect(blocked.atDeg).toBeGreaterThan(10);
    expect(blocked.atDeg).toBeLessThan(90);
    const [c, s] = [
      Math.cos(((blocked.atDeg ?? 0) * Math.PI) / 180),
      Math.sin(((blocked.atDeg ?? 0) * Math.PI) / 180),
    ];
    const swung = of(picture.before, 'in-the-way').map((f) =>
      f.points.map(([x, y]) => [
        expect.closeTo(x * c - y * s, 6),
        expect.closeTo(x * s + y * c, 6),
      ]),
    );
    expect(of(picture.after, 'in-the-way').map((f) => f.points)).toEqual(swung);
  }
});

test('the page: one row a step, its words and its three pictures inside their frames', () => {
  const plan = planned(box(200, 120, 30, 90, 1.5, 1.5));
  const pictures = stepPictures(plan);
  const page = writeFoldSteps(
    {
      heading: 'a <tray> & more: how it is folded',
      mark: 'blankwright tray a left',
      captions: ['on a folder'],
    },
    plan.plan.steps.map((step, i) => ({
      words: stepWords(step, i + 1),
      picture: pictures[i] as never,
    })),
  );
  expect(page).toContain('a &lt;tray&gt; &amp; more: how it is folded');
  expect(page).toContain('<desc>blankwright tray a left</desc>');
  expect(page.match(/<clipPath/g)).toHaveLength(3 * plan.plan.steps.length);
  for (const [i, step] of plan.plan.steps.entries())
    expect(page).toContain(`${i + 1}. Fold ${step.bend}: stop at `);
  expect(page).not.toMatch(/NaN|undefined|Infinity/);
  const open = page.match(/<(?!\/|\?|!)[^>]*[^/]>/g)?.length;
  expect(page.match(/<\//g)?.length).toBe(open);
  expect(
    writeFoldSteps(
      { heading: 'x', mark: 'm', captions: [] },
      plan.plan.steps.map((step, i) => ({ words: stepWords(step, i + 1) })),
    ),
  ).not.toContain('clipPath');
});
