import { describe, expect, test } from 'vitest';
import type { FoldStep, StepCheck } from '../../src/contract/fold-plan.ts';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { withChords } from '../../src/geometry/chords.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import { MACHINES } from '../../src/data/machines.ts';
import { planOnShop } from '../../src/plan/of-part/shop-plan.ts';
import { FAMILIES } from '../../templates/index.ts';
import { examplesIn } from '../helpers/extent.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { foldedPlaces, type Place } from '../helpers/witness.ts';

/**
 * The blank folded up to a step by the second way of folding (`helpers/witness.ts`): the bends that are
 * not made yet turn by nothing and move nothing, so that their zones lie flat.
 */
const placesAfter = (
  flat: FlatPattern,
  anglesDeg: ReadonlyMap<string, number>,
): Map<string, Place> => {
  const bends = flat.bends.map((b) => {
    const deg = anglesDeg.get(b.id) ?? 0;
    const rad = (deg * Math.PI) / 180;
    if (deg === 0) return { ...b, angleDeg: 0, allowanceMm: 0 };
    // On the way the neutral line keeps its length.
    const r =
      deg === b.angleDeg ? b.insideRadiusMm : b.allowanceMm / rad - b.kFactor * flat.thicknessMm;
    return { ...b, angleDeg: deg, insideRadiusMm: r };
  });
  const root = flat.panels.find(({ id }) => bends.every((b) => b.child !== id))?.id ?? '';
  return foldedPlaces({ ...flat, bends }, root);
};

type Vec = readonly [number, number, number];
const minus = (a: Vec, b: Vec): Vec => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Vec, b: Vec): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Points of the blank's rim that belong to a panel. */
const rimOf = (flat: FlatPattern, panel: string): (readonly [number, number])[] => {
  const own = flat.panels.find((p) => p.id === panel);
  if (own === undefined) return [];
  const { c, s, x, y } = own.placement;
  return withChords(own.region, 0.01).map((p) => [c * p.x - s * p.y + x, s * p.x + c * p.y + y]);
};

/** The panels on the far side of a fold. */
const beyond = (flat: FlatPattern, fold: string, first: string): string[] => {
  const found = new Set([first]);
  for (const id of found)
    for (const b of flat.bends)
      if (b.id !== fold) {
        if (b.parent === id) found.add(b.child);
        if (b.child === id) found.add(b.parent);
      }
  return [...found];
};

/** What the witness reads for a check of a kind. */
const witnessed = (
  flat: FlatPattern,
  step: FoldStep,
  kind: StepCheck['kind'],
  anglesDeg: ReadonlyMap<string, number>,
): number | undefined => {
  const fold = step.bend.split(' + ')[0] as string;
  const bend = flat.bends.find((b) => b.id === fold);
  if (bend === undefined) return undefined;
  const places = placesAfter(flat, anglesDeg);
  const at = places.get(step.clampedSide) as Place;
  const t = flat.thicknessMm;
  const [low, high] = bend.direction === 'up' ? [0, t] : [t, 0];
  const tangent = step.clampedSide === bend.parent ? bend.parentTangent : bend.childTangent;
  const [p, q] = tangent;
  const foot = at([p[0], p[1], low]);
  const normal = minus(at([p[0], p[1], high]), foot).map((v) => v / t) as unknown as Vec;
  const otherSide = step.clampedSide === bend.parent ? bend.child : bend.parent;
  const swung = beyond(flat, fold, otherSide).flatMap((id) =>
    rimOf(flat, id).flatMap((r) => [0, t].map((z) => (places.get(id) as Place)([r[0], r[1], z]))),
  );
  if (kind === 'height') return Math.max(...swung.map((v) => dot(minus(v, foot), normal)));
  if (kind === 'angle') {
    const own = places.get(otherSide) as Place;
    const n2 = minus(own([q[0], q[1], high]), own([q[0], q[1], low])).map(
      (v) => v / t,
    ) as unknown as Vec;
    return 180 - (Math.acos(Math.max(-1, Math.min(1, dot(normal, n2)))) * 180) / Math.PI;
  }
  return undefined;
};

let compared = 0;

describe('what tape and square read after each fold', () => {
  test.each([...FAMILIES])(
    '%s: as the blank folded up to there by another way',
    async (_, load) => {
      const template = (await load()).default;
      for (const { title, inputs } of examplesIn(template)) {
        const made = madeOnce(template, { ...inputs, hand: 'right' }, { foldAt: 'service' });
        if (!made.ok) throw new Error(JSON.stringify(made.problems));
        for (const part of made.parts) {
          if (part.stopped) throw new Error(`${part.result.name} is stopped`);
          const { flat, material } = part;
          const plan = planOnShop(
            { part: part.part, flat, material, bends: [] },
            MACHINES,
            50_000,
          )?.plan;
          const anglesDeg = new Map<string, number>();
          for (const step of plan?.steps ?? []) {
            for (const id of step.bend.split(' + ')) anglesDeg.set(id, step.card.keepsDeg);
            for (const { kind, value, to } of step.card.checks) {
              const found = witnessed(flat, step, kind, anglesDeg);
              // The witness has panels alone: what ends in the round of a bend is told of that fold.
              if (found === undefined || to.startsWith('the outside of fold')) continue;
              compared += 1;
              expect([title, step.bend, kind, value]).toEqual([
                title,
                step.bend,
                kind,
                expect.closeTo(found, 4),
              ]);
            }
          }
        }
      }
    },
  );

  test('in enough checks to tell', () => {
    expect(compared).toBeGreaterThan(60);
  });

  // A person's own figures: a channel of 30 x 60 x 30 outside, read as it is folded.
  test('a channel: its flange, then the other and the width over both', async () => {
    const load = new Map(FAMILIES).get('bracket-channel');
    if (load === undefined) throw new Error('there is a channel');
    const inputs = { flangeA: 30, web: 60, flangeB: 32, width: 80, thickness: 2, radius: 2 };
    for (const hand of ['left', 'right'])
      for (const machine of MACHINES.filter((m) => /boxpan|pressbrake/.test(m.id))) {
        const made = madeOnce((await load()).default, { ...inputs, hand }, { shop: DEFAULT_SHOP });
        if (!made.ok || made.parts[0]?.stopped !== false) throw new Error('it is made');
        const { part, flat, material } = made.parts[0];
        const plan = planOnShop({ part, flat, material, bends: [] }, [machine])?.plan;
        const read = plan?.steps.map((s) =>
          s.card.checks.map((c) => [c.kind, c.value, c.plusMinus]),
        );
        const close = (v: number): unknown => expect.closeTo(v, 6);
        const order = plan?.steps.map((s) => (s.card.swungSide === 'flange A' ? 30 : 32)) ?? [];
        expect(new Set(order)).toEqual(new Set([30, 32]));
        // Class m of ISO 2768-1: 0.2 to 30 mm, 0.3 to 120 mm; 30' for legs of 10 to 50 mm.
        const of = (mm: number): number => (mm <= 30 ? 0.2 : 0.3);
        expect(read?.[1]).toEqual([
          ['height', close(order[1] as number), of(order[1] as number)],
          ['over', close(60), 0.3],
          ['angle', close(90), 0.5],
        ]);
        expect(read?.[0]?.[0]).toEqual([
          'height',
          close(order[0] as number),
          of(order[0] as number),
        ]);
      }
  });
});
