import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import { STRAIGHT } from '../../src/data/machines/straight.ts';
import type { Machine } from '../../src/model/machine.ts';
import type { Stroke } from '../../src/plan/search/stroke.ts';
import { finishOnShop, rescuesOf } from '../../src/plan/of-part/half-folded.ts';
import { netFor, planPart } from '../../src/plan/of-part/part-plan.ts';
import { withoutFolds } from '../../src/plan/of-part/pieces.ts';
import type { PartToFold } from '../../src/plan/of-part/plan-steps.ts';
import { latticeOf } from '../../src/plan/search/lattice.ts';
import type { LaidFlat } from '../../src/use/made-part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { planParts } from '../../src/use/plan/plan-parts.ts';
import { fuzzRuns, shareOf } from '../helpers/extent.ts';
import { loadFamily } from '../helpers/check-template.ts';

type Inputs = Readonly<Record<string, unknown>>;

const BUDGET = 2_000_000;

const toFold = async (family: string, inputs: Inputs): Promise<PartToFold> => {
  const made = makeParts(await loadFamily(family), inputs, { foldAt: 'service' });
  const part = (made.ok ? made.parts[0] : undefined) as LaidFlat | undefined;
  if (part?.flat === undefined) throw new Error(JSON.stringify(made));
  return { part: part.part, flat: part.flat, material: part.material, bends: [] };
};

/** Whether any order of the folds that are left works: all of them, one after the other. */
const bruteForce = (fold: PartToFold, machine: Machine, done: readonly string[]): boolean => {
  const { net } = netFor(fold, machine);
  const lattice = latticeOf(net, machine);
  const start = net.folds.reduce(
    (bits, f, i) => ((f.ids ?? [f.id]).every((id) => done.includes(id)) ? bits | (1 << i) : bits),
    0,
  );
  const goesOn = (made: number): boolean =>
    made === lattice.full ||
    lattice.strokes.some(
      ({ bits }: Stroke, s) =>
        (made & bits) === 0 && lattice.isOpen(s, made) && goesOn(made | bits),
    );
  return goesOn(start);
};

const length = (min: number, max: number) => fc.integer({ min, max });

const parts: fc.Arbitrary<{ readonly family: string; readonly inputs: Inputs }> = fc.oneof(
  fc
    .record({
      footA: length(10, 40),
      footB: length(10, 40),
      crown: length(30, 90),
      height: length(20, 60),
    })
    .map((sizes) => ({ family: 'bracket-hat', inputs: { ...sizes, width: 60 } })),
  fc
    .record({ length: length(60, 200), depth: length(60, 200), height: length(15, 90) })
    .map((sizes) => ({ family: 'tray', inputs: { ...sizes, lipFront: 'in', lipDepth: 12 } })),
  fc
    .record({ base: length(60, 140), upright: length(30, 140), gussetDepth: length(20, 60) })
    .map((sizes) => ({
      family: 'bracket-gusset',
      inputs: { ...sizes, gussetHeight: 25, width: 60 },
    })),
);

const cases = fc.record({
  part: parts,
  done: fc.array(fc.constantFrom('A', 'B', 'C', 'D', 'E'), { maxLength: 3 }),
  machines: fc.constantFrom<readonly Machine[]>([BOX_PAN], [STRAIGHT, BOX_PAN]),
});

const SHEET = { material: 'dc01', thickness: 1, radius: 1 };

describe('a part that is half folded', () => {
  test('is finished where any order of what is left works, and nowhere else', async () => {
    const seen = { yes: 0, no: 0 };
    await fc.assert(
      fc.asyncProperty(cases, async ({ part: { family, inputs }, done, machines }) => {
        const fold = await toFold(family, { ...inputs, ...SHEET });
        const own = [...new Set(done)].filter((id) => fold.part.folds.some((f) => f.id === id));
        const plan = finishOnShop(fold, machines, own, BUDGET);
        const can = machines.some((machine) => bruteForce(fold, machine, own));
        expect(plan?.feasible).toBe(can);
        seen[can ? 'yes' : 'no'] += 1;
        if (!can) return;
        const made = plan?.steps.flatMap(({ bend }) => bend.split(' + ')) ?? [];
        expect([...own, ...made].toSorted()).toEqual(
          [...new Set([...own, ...fold.part.folds.map(({ id }) => id)])].toSorted(),
        );
      }),
      { numRuns: fuzzRuns(100) },
    );
    expect(seen.yes).toBeGreaterThan(shareOf(15));
    expect(seen.no).toBeGreaterThan(shareOf(15));
  });

  test('what rescues it leads to an order, and nothing smaller does', async () => {
    let told = 0;
    await fc.assert(
      fc.asyncProperty(cases, async ({ part: { family, inputs }, done, machines }) => {
        const fold = await toFold(family, { ...inputs, ...SHEET });
        const own = [...new Set(done)].filter((id) => fold.part.folds.some((f) => f.id === id));
        const can = (piece: PartToFold, made: readonly string[]): boolean =>
          machines.some((machine) => bruteForce(piece, machine, made));
        if (can(fold, own)) return;
        for (const { open, cut } of rescuesOf(fold, machines, own, BUDGET)) {
          told += 1;
          const pieces = cut.length === 0 ? [fold] : withoutFolds(fold, cut);
          const left = own.filter((id) => !open.includes(id));
          const finishes = (piece: PartToFold): boolean =>
            piece.part.folds.length === 0 ||
            can(
              piece,
              left.filter((id) => piece.part.folds.some((f) => f.id === id)),
            );
          expect(pieces.every(finishes), JSON.stringify({ open, cut })).toBe(true);
          if (open.length > 1)
            for (const id of own)
              expect(
                can(
                  fold,
                  own.filter((o) => o !== id),
                ),
              ).toBe(false);
        }
      }),
      { numRuns: fuzzRuns(40) },
    );
    expect(told).toBeGreaterThan(shareOf(20));
  });

  test('from flat it is folded where the whole plan says so', async () => {
    const tray = await toFold('tray', { length: 120, depth: 90, height: 40, ...SHEET });
    expect(finishOnShop(tray, [BOX_PAN], [], BUDGET)?.feasible).toBe(
      planPart(tray, BOX_PAN).plan.feasible,
    );
  });

  // Crown and sides of a hat were folded first: the feet cannot be reached any more.
  test('plan --done of a hat whose middle was folded first', async () => {
    const hat = { crown: 60, height: 30, footA: 25, footB: 25, width: 40, ...SHEET, thickness: 2 };
    const of = async (done: readonly string[]) =>
      planParts({ template: await loadFamily('bracket-hat'), inputs: hat, done });
    const stuck = await of(['B', 'C']);
    expect(stuck.ok && stuck.isFoldable).toBe(false);
    const rescues = stuck.ok ? (stuck.result.parts[0]?.rescues ?? []) : [];
    expect(rescues.map(({ open, cut }) => [open, cut])).toContainEqual([['B', 'C'], []]);
    expect(rescues.map(({ open, cut }) => [open, cut])).toContainEqual([[], ['B']]);
    const whole = planParts({ template: await loadFamily('bracket-hat'), inputs: hat });
    const order = whole.ok ? (whole.result.parts[0]?.foldPlan?.steps.map((s) => s.bend) ?? []) : [];
    const begun = await of(order.slice(0, 2));
    expect(begun.ok && begun.result.parts[0]?.foldPlan?.steps).toHaveLength(2);
    const wrong = await of(['Q']);
    expect(wrong.ok ? [] : wrong.problems.map(({ input, given }) => [input, given])).toEqual([
      ['done', "'Q'"],
    ]);
  });
});
