import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { findMaterial } from '../../src/data/materials.ts';
import { type Shape, stepPictures } from '../../src/draw/fold-step.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import type { Part } from '../../src/model/part.ts';
import { type PartPlan, planPart } from '../../src/plan/part-plan.ts';
import { writeFoldSteps } from '../../src/write/fold-steps-svg.ts';
import { angle, box } from '../helpers/parts.ts';

const material = findMaterial('dc01');
if (!material.ok) throw new Error('dc01 is in the catalogue');

const planned = (part: Part, machine: typeof BOX_PAN | typeof PRESS_BRAKE = BOX_PAN): PartPlan =>
  planPart({ part, flat: flatten(part, { id: 'k', k: 0.42 }), material: material.value, bends: [] }, machine);

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
    const turned = of(picture.before, 'swung').map((s) => s.points.map(([x, y]) => [x * Math.cos(rad) - y * Math.sin(rad), x * Math.sin(rad) + y * Math.cos(rad)].map((v) => expect.closeTo(v, 6))));
    expect(of(picture.after, 'swung').map((s) => s.points)).toEqual(turned);
    // Bed, finger of two pieces and beam stay; the leaf of two pieces turns.
    const moved = of(picture.before, 'machine').map((s, i) => JSON.stringify(s.points) !== JSON.stringify(of(picture.after, 'machine')[i]?.points));
    expect(moved).toEqual([false, false, false, false, true, true]);
    // The swung leg stands upright behind the bed's edge, on the clamped side of the hinge by what it springs back.
    const xs = of(picture.after, 'swung').flatMap((s) => s.points.map(([x]) => x));
    expect(Math.max(...xs)).toBeLessThan(0.01);
    expect(Math.min(...xs)).toBeGreaterThan(-3);
  });

  test('on a press brake both legs rise alike', () => {
    const [picture] = stepPictures(planned(BRACKET, PRESS_BRAKE));
    const highest = (role: Shape['role']) => Math.max(...of(picture?.after ?? [], role).flatMap((s) => s.points.map(([, y]) => y)));
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
      const [[x0 = 0, y0 = 0] = [], [x1 = 0, y1 = 0] = []] = (line?.points ?? []) as readonly (readonly number[])[];
      // A line along the machine is seen at 30 degrees, in its true length.
      expect(Math.atan2(Math.abs(y1 - y0), Math.abs(x1 - x0))).toBeCloseTo(Math.PI / 6, 6);
      expect(Math.hypot(x1 - x0, y1 - y0)).toBeGreaterThan(100);
    }
  });
});

test('the page: one row a step, its words and its three pictures inside their frames', () => {
  const plan = planned(box(200, 120, 30, 90, 1.5, 1.5));
  const pictures = stepPictures(plan);
  const page = writeFoldSteps({ title: 'a <tray> & more', mark: 'blankwright tray a left', machine: plan.machine.name }, plan.plan.steps.map((step, i) => ({ step, picture: pictures[i] as never })));
  expect(page).toContain('a &lt;tray&gt; &amp; more: how it is folded');
  expect(page).toContain('<desc>blankwright tray a left</desc>');
  expect(page.match(/<clipPath/g)).toHaveLength(3 * plan.plan.steps.length);
  for (const [i, step] of plan.plan.steps.entries()) expect(page).toContain(`${i + 1}. Fold ${step.bend}: stop at `);
  expect(page).not.toMatch(/NaN|undefined|Infinity/);
  const open = page.match(/<(?!\/|\?|!)[^>]*[^/]>/g)?.length;
  expect(page.match(/<\//g)?.length).toBe(open);
  expect(writeFoldSteps({ title: 'x', mark: 'm', machine: 'y' }, plan.plan.steps.map((step) => ({ step })))).not.toContain('clipPath');
});
