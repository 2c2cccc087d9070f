import { describe, expect, test } from 'vitest';
import { BOX_PAN } from '../../src/data/machines/box-pan.ts';
import type { FoldStep } from '../../src/contract/fold-plan.ts';
import { planOnShop } from '../../src/plan/of-part/shop-plan.ts';
import { make } from '../helpers/check-template.ts';

const steps = async (
  family: string,
  inputs: Record<string, unknown>,
): Promise<readonly FoldStep[]> => {
  const [made] = await make(family, inputs);
  if (made?.part === undefined || made.flat === undefined) throw new Error('it is made');
  const { part, flat, material } = made;
  const found = planOnShop({ part, flat, material, bends: [] }, [BOX_PAN]);
  if (found?.plan.feasible !== true) throw new Error('it folds');
  return found.plan.steps;
};

describe('the order that a person would fold in', () => {
  // A sheet of 13 kg with a lip of 12 at one edge and another at the other edge: with fewest turns
  // first, the whole sheet was swung from a grip of 12 mm.
  test('the large side of a heavy sheet is held, though it is turned round for that', async () => {
    const channel = await steps('bracket-channel', {
      flangeA: 30,
      web: 900,
      flangeB: 30,
      width: 900,
      material: 's235',
      thickness: 1.5,
    });
    expect(channel.map((s) => s.clampedSide)).toEqual(['web', 'web']);
    expect(channel.reduce((sum, s) => sum + s.turnDeg, 0)).toBe(180);
  });

  test('the fingers of a tray are set once: both sides with all of them, then the ends', async () => {
    const tray = await steps('tray', {
      length: 300,
      depth: 200,
      height: 40,
      corner: 'open',
      material: 'dc01',
      thickness: 1.5,
    });
    const sides = tray.map((s) => (['A', 'C'].includes(s.bend) ? 'one way' : 'other way'));
    expect(sides[0]).toBe(sides[1]);
    expect(sides[2]).toBe(sides[3]);
    expect(sides[1]).not.toBe(sides[2]);
    // The two ends between the sides are folded with the same block.
    expect(tray[2]?.fingersMm).toEqual(tray[3]?.fingersMm);
    expect(tray.map((s) => s.flip)).toEqual([false, false, false, false]);
  });

  test('it begins right side up where nothing asks for the other', async () => {
    const zed = await steps('bracket-zed', {
      flangeA: 40,
      offset: 60,
      flangeB: 40,
      width: 80,
      material: 'dc01',
      thickness: 1.5,
    });
    expect(zed.map((s) => s.flip)).toEqual([false, true]);
  });
});
