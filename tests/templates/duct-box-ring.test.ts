import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { loopExtents } from '../../src/geometry/extents.ts';
import type { LaidFlat } from '../../src/use/made-part.ts';
import { makeParts } from '../../src/use/make/make-parts.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { IS_FULL } from '../helpers/extent.ts';

type Inputs = Readonly<Record<string, unknown>>;

const STRAIGHT = {
  width: 240,
  height: 160,
  endWidth: 240,
  endHeight: 160,
  length: 80,
  lip: 20,
  material: 'dc01',
  thickness: 1.5,
  cornerGap: 0.5,
};

const made = async (inputs: Inputs) => {
  const found = makeParts(await loadFamily('duct-box'), inputs, { shop: DEFAULT_SHOP });
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return found.parts;
};

const ringOf = async (inputs: Inputs) => {
  const ring = (await made({ ...inputs, lipForm: 'ring' })).find(
    ({ result }) => result.piece === 'lip-ring',
  ) as LaidFlat | undefined;
  if (ring?.flat === undefined) throw new Error('no ring');
  const [panel] = ring.part.panels;
  const window = panel?.cutouts.find(({ from }) => from === 'aperture');
  if (panel === undefined || window?.kind !== 'loop') throw new Error('no window');
  return { outer: loopExtents(panel.outline), window: loopExtents(window.loop), panel };
};

describe('the lips of a duct as a ring of their own', () => {
  // A lip of 20 from the inside of its wall stands 18.5 beyond its outside: 240 + 2 x 18.5.
  test('reaches as far as folded lips, with a window that clears the walls by the gap', async () => {
    const { outer, window } = await ringOf(STRAIGHT);
    expect(outer).toEqual({ minX: -138.5, minY: -98.5, maxX: 138.5, maxY: 98.5 });
    expect(window).toEqual({ minX: -120.5, minY: -80.5, maxX: 120.5, maxY: 80.5 });
  });

  test('measured inside, its lip is what stands beyond the wall', async () => {
    const { outer, window } = await ringOf({ ...STRAIGHT, measure: 'inside' });
    expect(outer?.maxX).toBeCloseTo(120 + 1.5 + 20, 9);
    expect(window?.maxX).toBeCloseTo(120 + 1.5 + 0.5, 9);
  });

  test('walls that flare pass through it too', async () => {
    const { window } = await ringOf({ ...STRAIGHT, endWidth: 300, length: 60 });
    // The walls lean out by 30 in 60: half a millimetre for each one of depth.
    expect(window?.maxX).toBeCloseTo(120 + 1.5 * 0.5 + 0.5, 9);
  });

  test('the walls are those of a duct without lips', async () => {
    const sizes = (parts: Awaited<ReturnType<typeof made>>) =>
      parts
        .filter(({ result }) => result.piece !== 'lip-ring')
        .map(({ result: { blank } }) => [blank?.widthMm, blank?.heightMm]);
    expect(sizes(await made({ ...STRAIGHT, lipForm: 'ring' }))).toEqual(
      sizes(await made({ ...STRAIGHT, lip: 0 })),
    );
  });

  test('its holes stand in the middle of its sides, no further apart than asked', async () => {
    const { panel } = await ringOf({ ...STRAIGHT, lipHole: 5, lipPitch: 80 });
    const holes = panel.cutouts.flatMap((c) => (c.kind === 'round' ? [c.centre] : []));
    const bottom = holes.filter(([, y]) => Math.abs(y + 89.5) < 1e-9).map(([x]) => x);
    expect(bottom.length).toBeGreaterThan(2);
    for (const [i, x] of bottom.slice(1).entries())
      expect(x - (bottom[i] ?? 0)).toBeLessThanOrEqual(80 + 1e-9);
    expect(holes).toHaveLength(2 * bottom.length + 2 * 3);
  });

  test('a lip that leaves no ring is refused with the one that would do', async () => {
    const [first] = await made({ ...STRAIGHT, lip: 2, lipForm: 'ring' });
    expect(first?.result.findings.filter((f) => f.severity === 'stop')).toMatchObject([
      { rule: 'lip-too-short', mends: [{ input: 'lip' }] },
    ]);
  });

  test('three pieces that any finger folder makes, where the duct is one that none does', async () => {
    const template = await loadFamily('duct-box');
    const { inputs } = template.examples[0] ?? {};
    const found = makeParts(template, { ...inputs }, { shop: DEFAULT_SHOP, byMachineOnly: true });
    const parts = found.ok ? found.parts : [];
    expect(parts).toHaveLength(3);
    for (const { stopped, result } of parts) {
      expect(stopped).toBe(false);
      expect(result.foldPlan?.feasible ?? true).toBe(true);
    }
  });

  test.runIf(IS_FULL)('they are found where the same duct is asked for without them', async () => {
    const template = await loadFamily('duct-box');
    const { lipForm: _, weldAt: __, ...intake } = template.examples[0]?.inputs ?? {};
    const found = makeParts(template, intake, {
      shop: DEFAULT_SHOP,
      makeFoldable: true,
      byMachineOnly: true,
    });
    const parts = found.ok ? found.parts : [];
    expect(parts).toHaveLength(3);
    for (const { stopped, result } of parts) {
      expect(stopped).toBe(false);
      expect(result.foldPlan?.feasible ?? true).toBe(true);
      expect(result.findings[0]?.rule).toBe('made-foldable');
    }
  });
});
