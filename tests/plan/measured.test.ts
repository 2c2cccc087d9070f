import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { PRESS_BRAKE } from '../../src/data/machines/press-brake.ts';
import { STRAIGHT } from '../../src/data/machines/straight.ts';
import { findMaterial, MATERIALS } from '../../src/data/materials.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import type { MeasuredBend } from '../../src/model/bend-rule.ts';
import type { Folder, HardestFold } from '../../src/model/machine.ts';
import type { Sourced } from '../../src/model/material.ts';
import { restsOnWords, stepWords } from '../../src/paper/draw/fold-words.ts';
import {
  deratingOf,
  FINGER_DERATING,
  longestBendMm,
  ratingByFoldMm,
} from '../../src/plan/machines/bend-capacity.ts';
import { noseGapMm, radiusAtGapMm } from '../../src/plan/machines/nose.ts';
import { planPart } from '../../src/plan/of-part/part-plan.ts';
import type { PartToFold } from '../../src/plan/of-part/plan-steps.ts';
import { MM_PER_INCH } from '../../src/text/units.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { fixedRuns } from '../helpers/extent.ts';
import { angle } from '../helpers/parts.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';

const own = <T>(value: T): Sourced<T> => ({ value, basis: 'measured', source: 'the shop file' });

const toFold = (
  width: number,
  t: number,
  { id = 'dc01', deg = 90, r = t, bends = [] as readonly MeasuredBend[], rule = 'k' } = {},
): PartToFold => {
  const material = findMaterial(id);
  if (!material.ok) throw new Error(material.reason);
  const part = angle(60 + 4 * t, 40 + 4 * t, width, deg, t, r);
  const by =
    rule === 'k' ? ({ id: 'k', k: 0.42 } as const) : ({ id: 'measured', rows: bends } as const);
  return { part, flat: flatten(part, by), material: material.value, bends };
};

const planOn = (machine: Folder | typeof PRESS_BRAKE, fold = toFold(300, 1.5)) =>
  planPart(fold, machine).plan;

describe('how the stop reads', () => {
  test('is added to what is printed, and to nothing else', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -15, max: 15, noNaN: true }),
        fc.constantFrom(30, 90, 120),
        (offset, deg) => {
          const fold = toFold(300, 1.5, { deg });
          const [plain, shifted] = [
            planOn(BOX_PAN, fold),
            planOn({ ...BOX_PAN, stopOffsetDeg: own(offset) }, fold),
          ];
          const [a, b] = [plain.steps[0], shifted.steps[0]];
          expect(b?.stopAtDeg).toBeCloseTo((a?.stopAtDeg ?? 0) + offset, 9);
          expect({ ...b, stopAtDeg: 0, stop: 0 }).toEqual({ ...a, stopAtDeg: 0, stop: 0 });
          expect([a?.stop, b?.stop]).toEqual([
            { offsetDeg: 0, basis: 'assumed' },
            { offsetDeg: offset, basis: 'measured' },
          ]);
        },
      ),
      { numRuns: fixedRuns(40) },
    );
  });

  test('stands at the step', () => {
    const [step] = planOn({ ...BOX_PAN, stopOffsetDeg: own(-1.5) }).steps;
    expect(step && stepWords(step, 1).lines[0]).toContain(
      'the stop reads 1.5 deg less than it turns, as measured',
    );
    const [plain] = planOn(BOX_PAN).steps;
    expect(plain && stepWords(plain, 1).lines[0]).not.toContain('reads');
  });

  test('does not take the machine beyond its greatest angle, for it turns no further by it', () => {
    const machine = { ...BOX_PAN, maxAngleDeg: own(100), stopOffsetDeg: own(12) };
    expect(planOn(machine).feasible).toBe(true);
  });

  test('is in the springback of strips, which were read from the same dial', () => {
    const bends: MeasuredBend[] = [
      {
        machine: 'mine',
        tool: 'nose',
        noseRadiusMm: 1.5,
        thicknessMm: 1.5,
        insideRadiusMm: 1.5,
        kFactor: 0.4,
        kError: 0.01,
        radiusErrorMm: 0.05,
        correlation: 0,
        spreadMm: 0.05,
        springback: 0.96,
        anglesDeg: [60, 120],
        hem: undefined,
      },
    ];
    const fold = toFold(300, 1.5, { bends, rule: 'measured' });
    const { steps, restsOn } = planOn({ ...BOX_PAN, stopOffsetDeg: own(3) }, fold);
    expect(steps[0]).toMatchObject({
      stopAtDeg: expect.closeTo(90 / 0.96, 9) as number,
      stop: { offsetDeg: 0, basis: 'measured' },
      nose: { basis: 'measured' },
    });
    expect(restsOn.measured).toContain('stop offset');
  });
});

describe('the hardest fold in the place of the rating', () => {
  const hardest = (value: HardestFold, machine: Folder = STRAIGHT): Folder => ({
    ...machine,
    hardestFold: own(value),
  });
  const isMade = (machine: Folder, fold: PartToFold): boolean =>
    planPart(fold, machine).plan.feasible === true;

  // Article on brake capacity (tests/published/folding.json): 6 ft of 0.036 in or 2 ft of 0.060 in.
  test('the published example gives back its rating, to the 4 parts in 100 that it is rounded by', () => {
    const rating = ratingByFoldMm(
      { thicknessMm: 0.06 * MM_PER_INCH, lengthMm: 24 * MM_PER_INCH, factor: 1 },
      72 * MM_PER_INCH,
    );
    expect(rating / MM_PER_INCH / 0.036).toBeCloseTo(1, 1);
    expect(Math.abs(rating / MM_PER_INCH / 0.036 - 1)).toBeLessThan(0.04);
  });

  test('is made again, and what is a little longer or thicker is not, in whatever sheet and with whatever set-up', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...MATERIALS),
        fc.double({ min: 0.8, max: 6, noNaN: true }),
        fc.double({ min: 100, max: 1900, noNaN: true }),
        fc.constantFrom(1, FINGER_DERATING),
        (material, thicknessMm, lengthMm, share) => {
          const { factor } = deratingOf(material);
          const steelMm = ratingByFoldMm({ thicknessMm, lengthMm, factor }, 2000, share);
          const rated = { lengthMm: 2000, thicknessMm: steelMm * factor, mostMm: thicknessMm };
          expect(longestBendMm(rated, thicknessMm, share)).toBeCloseTo(lengthMm, 6);
        },
      ),
      { numRuns: fixedRuns(200) },
    );
  });

  test('is larger than the rating: what the plate refuses is planned', () => {
    const fold = toFold(1000, 2);
    expect(isMade(STRAIGHT, toFold(1900, 2))).toBe(false);
    expect(isMade(hardest({ material: 'dc01', thickness: 2 }), toFold(1900, 2))).toBe(true);
    expect(isMade(hardest({ material: 'dc01', thickness: 2, length: 1000 }), fold)).toBe(true);
    expect(isMade(hardest({ material: 'dc01', thickness: 2, length: 900 }), fold)).toBe(false);
  });

  test('is smaller than the rating: what the plate allows is refused, by the fold it was found with', () => {
    const machine = hardest({ material: 'dc01', thickness: 1, length: 2000 });
    expect(isMade(STRAIGHT, toFold(1500, 1.5))).toBe(true);
    const { feasible, blockedBy, restsOn } = planOn(machine, toFold(1500, 1.5));
    expect([feasible, blockedBy[0]?.reason]).toEqual([
      false,
      'the machine bends 1.5 mm DC01 over 889 mm at most; the fold is 1500 mm long (by the hardest fold it has made, 1 mm dc01 over 2000 mm, it takes 1 mm of it over its whole length)',
    ]);
    expect(restsOn.measured).toContain('largest thickness');
  });

  test('in one sheet stands for others by the factors of bend-capacity', () => {
    // Stainless takes 0.6 of mild steel: 1.2 mm of it is as hard as 2 mm of steel.
    const machine = hardest({ material: '1.4301', thickness: 1.2 });
    expect([2, 2.02].map((t) => isMade(machine, toFold(1999, t)))).toEqual([true, false]);
  });

  test('with fingers in, and without the bar, holds as the machine was set up for it', () => {
    const fingers = hardest({ material: 'dc01', thickness: 2, length: 600 }, BOX_PAN);
    expect([600, 610].map((l) => isMade(fingers, toFold(l, 2)))).toEqual([true, false]);
    const made = { material: 'dc01', thickness: 2, length: 600, leafBarFitted: true };
    const bare = { ...hardest(made, BOX_PAN), isLeafBarFitted: own(false) };
    // A leaf without its bar takes 0.71 of the thickness, half the length.
    expect([300, 310].map((l) => isMade(bare, toFold(l, 2)))).toEqual([true, false]);
    const asMade = { ...made, leafBarFitted: false };
    expect(
      isMade({ ...hardest(asMade, BOX_PAN), isLeafBarFitted: own(false) }, toFold(600, 2)),
    ).toBe(true);
  });

  test('far thicker than the rating over a short length: what was done can be done', () => {
    const machine = hardest({ material: 'dc01', thickness: 4, length: 100 });
    expect(isMade(machine, toFold(100, 4))).toBe(true);
    expect(isMade(machine, toFold(100, 4.5))).toBe(false);
  });
});

describe('the opening of the clamp', () => {
  test('keeps out sheet that is as thick as it', () => {
    const reasonAt = (open: number) =>
      planOn({ ...BOX_PAN, clampOpeningMm: own(open) }).blockedBy[0]?.reason;
    expect([reasonAt(1.5), reasonAt(10)]).toEqual([
      'the clamp opens 1.5 mm, and the sheet is 1.5 mm thick',
      undefined,
    ]);
  });

  const channel = async (open: number) => {
    const inputs = { flangeA: 60, web: 120, flangeB: 30, width: 300, thickness: 1.5, radius: 1.5 };
    const made = makeParts(await loadFamily('bracket-channel'), inputs, { foldAt: 'service' });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const [part] = made.parts;
    if (part?.flat === undefined) throw new Error('no blank');
    const fold: PartToFold = {
      part: part.part,
      flat: part.flat,
      material: part.material,
      bends: [],
    };
    return planPart(fold, { ...BOX_PAN, clampOpeningMm: own(open) }).plan.steps.map((s) => s.note);
  };

  test('says when a flange goes in and comes off along the machine only', async () => {
    expect(await channel(70)).toEqual([null, null]);
    const [first, second] = await channel(20);
    expect([first, second]).toEqual([
      null,
      expect.stringMatching(
        /with the clamp open by 20 mm it comes off along the machine/,
      ) as string,
    ]);
  });

  test('a hem that stands higher than it opens is closed with a mallet first', async () => {
    const noteAt = async (open: number) => {
      const inputs = { legA: 60, legB: 20, width: 200, thickness: 1, bendAngle: 180, radius: 0 };
      const made = makeParts(await loadFamily('bracket-angle'), inputs, { foldAt: 'service' });
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      const [part] = made.parts;
      if (part?.flat === undefined) throw new Error(JSON.stringify(part?.result.findings));
      const fold: PartToFold = {
        part: part.part,
        flat: part.flat,
        material: part.material,
        bends: [],
      };
      return planPart(fold, { ...BOX_PAN, clampOpeningMm: own(open) }).plan.steps[0]?.note;
    };
    expect(await noteAt(10)).toMatch(
      /the hem stands 1[78] mm high before it is flat, and the clamp opens 10 mm/,
    );
    expect(await noteAt(25)).not.toMatch(/stands/);
  });
});

describe('the gap that the nose stands at', () => {
  test('gives a radius, the other way about', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 6, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 20, max: 150, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (thicknessMm, insideRadiusMm, angleDeg, share) => {
          const bend = { thicknessMm, insideRadiusMm, angleDeg };
          const nose = share * insideRadiusMm;
          expect(radiusAtGapMm(bend, noseGapMm(bend, nose), nose)).toBeCloseTo(insideRadiusMm, 9);
        },
      ),
      { numRuns: fixedRuns(200) },
    );
  });

  test.each([
    // A sharp nose takes t + r = 3 at 90 degrees.
    [2, /set it back to 3, or the radius comes out near 0.5/],
    [1, /set it back to 3, or it pinches the sheet/],
    [5, /set it forward to 3, or the radius comes out near 3.5/],
  ])('at %d mm', (gap, told) => {
    expect(planOn({ ...BOX_PAN, noseSetbackMm: own(gap) }).steps[0]?.note).toMatch(told);
  });

  test('is not spoken of where it is right, or assumed', () => {
    expect(planOn({ ...BOX_PAN, noseSetbackMm: own(3.1) }).steps[0]?.note).toBeNull();
    expect(planOn(BOX_PAN).steps[0]?.note).toBeNull();
  });
});

describe('what a plan rests on', () => {
  test('nothing measured: all that it goes by is assumed', () => {
    const { restsOn } = planOn(BOX_PAN);
    expect(restsOn).toEqual({
      measured: [],
      assumed: [
        'nose radius',
        'clamp opening',
        'finger widths',
        'finger depth',
        'bar of the leaf',
        'stop offset',
        'largest thickness',
        'length',
      ],
    });
    expect(planOn(STRAIGHT, toFold(300, 1)).restsOn.assumed).not.toContain('finger widths');
    expect(planOn(PRESS_BRAKE).restsOn.assumed).toEqual(
      expect.arrayContaining(['V opening', 'daylight', 'stop offset']),
    );
  });

  test.each<[string, Partial<Folder>]>([
    ['nose radius', { noseRadiiMm: own([1.5]) }],
    ['nose gap', { noseSetbackMm: own(2) }],
    ['clamp opening', { clampOpeningMm: own(60) }],
    [
      'finger widths',
      { clamp: { ...BOX_PAN.clamp, widthsMm: own([25, 50, 100]) } as Folder['clamp'] },
    ],
    ['finger depth', { clamp: { ...BOX_PAN.clamp, boxDepthMm: own(80) } as Folder['clamp'] }],
    ['bar of the leaf', { isLeafBarFitted: own(true) }],
    ['stop offset', { stopOffsetDeg: own(0) }],
    ['largest thickness', { hardestFold: own({ material: 'dc01', thickness: 2 }) }],
    ['largest thickness', { capacityMm: own(2) }],
    ['length', { workingLengthMm: own(1000) }],
  ])('%s as measured', (name, measured) => {
    const plan = planOn({ ...BOX_PAN, ...measured }, toFold(150, 1.5));
    expect(plan.restsOn.measured).toEqual([name]);
    expect(plan.restsOn.assumed).not.toContain(name);
    expect(restsOnWords(plan)).toMatch(new RegExp(`^measured: ${name}; assumed: `));
  });
});
