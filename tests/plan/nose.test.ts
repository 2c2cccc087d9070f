import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import type { Folder } from '../../src/model/machine.ts';
import { folderBodies } from '../../src/plan/machines/folder.ts';
import { noseGapMm } from '../../src/plan/machines/nose.ts';
import { machineParts } from '../../src/plan/machines/section.ts';
import { planPart } from '../../src/plan/of-part/part-plan.ts';
import type { PartToFold } from '../../src/plan/of-part/plan-steps.ts';
import { planText } from '../../src/use/plan/plan-text.ts';
import { stepWords } from '../../src/paper/draw/fold-words.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { angle } from '../helpers/parts.ts';
import { material } from '../helpers/plate.ts';

const withNoses = (...radii: number[]): Folder => ({
  ...BOX_PAN,
  noseRadiiMm: { value: radii, basis: 'measured', source: 'the shop file' },
});

const toFold = (deg: number, t: number, r: number, legB = 60): PartToFold => {
  const part = angle(80, legB, 100, deg, r, t);
  return {
    part,
    flat: flatten(part, { id: 'k', k: 0.42 }),
    material: material('dc01'),
    bends: [],
  };
};

/** The front of what stands on the sheet, as the pictures and the search for contact have it. */
const frontMm = ({ answer, machine }: ReturnType<typeof planPart>): number => {
  const { net } = answer.lattice;
  const [fold] = net.folds;
  if (fold === undefined) throw new Error('it has a fold');
  const still = machineParts(machine, net, fold, { startDeg: 0, endDeg: 0 })
    .before.filter((p) => !p.moves)
    .flatMap((p) => p.pieces);
  const above = still.filter((p) => p.every(([, y]) => y >= net.thicknessMm - 1e-9));
  return Math.max(...above.flat().map(([x]) => x));
};

describe('one nose for mark, contact and picture', () => {
  // The tangent line that the nose rests on lies (r + t) tan(A/2) behind the hinge, where the
  // outside faces cross: plain geometry, worked here from the flat pattern alone.
  test('the front of the nose stands over the mark, at any angle and with any nose', () => {
    let folded = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 5, max: 130 }),
        fc.constantFrom(0.8, 1.5, 2),
        fc.constantFrom(0.5, 1, 2, 4),
        fc.constantFrom([], [0], [0, 1], [0, 0.5, 2], [4]),
        (deg, t, r, noses) => {
          const fold = toFold(deg, t, r);
          const machine = noses.length === 0 ? BOX_PAN : withNoses(...noses);
          const plan = planPart(fold, machine);
          const [step] = plan.plan.steps;
          if (step === undefined) return;
          folded += 1;
          const flatMm =
            Math.max(...fold.flat.outline.map((v) => v.y)) -
            Math.min(...fold.flat.outline.map((v) => v.y));
          const heldMm = step.clampedSide === 'leg A' ? 80 : 60;
          // Past 90 degrees legs are measured to the outermost tangent, (r + t) from the line.
          const setback = (r + t) * Math.tan((Math.min(deg, 90) * Math.PI) / 360);
          const tangentMm = flatMm - (heldMm - setback);
          const hinge = tangentMm - (r + t) * Math.tan((deg * Math.PI) / 360);
          expect(step.from).toMatch(/^the free edge of leg [AB]$/);
          // A round nose that is swung past gives way by what springs back:
          // (r + t) (1 - tan(A/2) / tan(A'/2)).
          const past = Math.tan((deg * Math.PI) / 360) / Math.tan((step.stopAtDeg * Math.PI) / 360);
          const radius = Math.min(step.nose?.radiusMm ?? NaN, r);
          const givesWay = Math.max(0, radius - ((r + t) * past - t));
          expect(hinge - frontMm(plan) - givesWay).toBeCloseTo(step.sightLineMm ?? NaN, 6);
          expect(frontMm(plan) + givesWay).toBeCloseTo(-(step.nose?.gapMm ?? NaN), 6);
        },
      ),
      { numRuns: fuzzRuns(60) },
    );
    expect(folded).toBeGreaterThan(shareOf(30));
  });

  test('without noses in the shop file it is sharp and said to be assumed, on plan and sheet', () => {
    const { plan } = planPart(toFold(90, 3, 4), BOX_PAN);
    expect(plan.steps[0]?.nose).toEqual({
      radiusMm: 0,
      gapMm: expect.closeTo(7, 9),
      basis: 'assumed',
    });
    const told = 'nose gap 7 mm (sharp nose, assumed)';
    expect(planText('bracket', plan)).toContain(told);
    expect(stepWords(plan.steps[0] as never, 1).lines[0]).toContain(told);
  });

  test('with noses it is the roundest that fits, as measured', () => {
    const { plan } = planPart(toFold(90, 3, 4), withNoses(0, 3, 6));
    expect(plan.steps[0]?.nose).toEqual({
      radiusMm: 3,
      gapMm: expect.closeTo(4, 9),
      basis: 'measured',
    });
    expect(planText('bracket', plan)).toContain('nose gap 4 mm (nose of radius 3 mm, measured)');
  });
});

describe('the nose past 90 degrees', () => {
  // At 130 degrees the tangent line lies 2.14 (r + t) behind the hinge. A nose at r + t would stand
  // before it, in the metal that swings: its bevel of 45 degrees is met on the way.
  test('a fold of 130 degrees about a sharp nose', () => {
    const fold = toFold(130, 2, 1, 25);
    expect(planPart(fold, BOX_PAN).plan.feasible).toBe(true);
  });

  test.each([30, 60, 90, 120, 132])('a round nose lies within the bend of %d degrees', (deg) => {
    const sheet = { thicknessMm: 2, insideRadiusMm: 5, angleDeg: deg, noseRadiusMm: 5 };
    const { clamp } = folderBodies(withNoses(5), sheet);
    const tangent = 7 * Math.tan((deg * Math.PI) / 360);
    expect(noseGapMm(sheet, 5)).toBeCloseTo(tangent - 5, 9);
    // Everything that lies before the tangent line lies within the round of the bend about its axis.
    for (const [x, y] of clamp[0] ?? [])
      if (x > -tangent && Math.atan2(x + tangent, 7 - y) * (180 / Math.PI) <= deg)
        expect(Math.hypot(x + tangent, y - 7)).toBeLessThanOrEqual(5 + 1e-9);
  });
});
