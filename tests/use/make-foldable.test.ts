import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import type { LaidFlat, MadePart } from '../../src/use/made-part.ts';
import { makeParts, type MakeOptions } from '../../src/use/make/make-parts.ts';
import { planParts } from '../../src/use/plan/plan-parts.ts';
import { expectAlike, type Folded, gapBetween } from '../helpers/assembly.ts';
import { loadFamily } from '../helpers/check-template.ts';

type Inputs = Readonly<Record<string, unknown>>;

const made = async (
  family: string,
  inputs: Inputs,
  options: MakeOptions = {},
): Promise<readonly MadePart[]> => {
  const found = makeParts(await loadFamily(family), inputs, { shop: DEFAULT_SHOP, ...options });
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return found.parts;
};

const example = async (family: string, place: number): Promise<Inputs> =>
  (await loadFamily(family)).examples[place]?.inputs ?? {};

const folded = (part: MadePart): Folded => {
  const { part: own, flat } = part as LaidFlat;
  return { part: own, flat };
};

const changeOf = (part: MadePart): string =>
  part.result.findings.find(({ rule }) => rule === 'made-foldable')?.message ?? '';

/** A channel whose flanges are deeper than the fingers of the folder, with lips on top in panels. */
const DEEP = {
  family: 'panels',
  inputs: {
    name: 'deep-tray',
    material: 'dc01',
    thickness: 1.5,
    base: '300 x 200',
    flanges: [
      'front on base bottom 140 90 up',
      'right on base right 140 90 up',
      'back on base top 140 90 up',
      'left on base left 140 90 up',
    ],
  },
};

const CASES: readonly { readonly family: string; readonly inputs: () => Promise<Inputs> }[] = [
  { family: 'heel-rest', inputs: () => example('heel-rest', 2) },
  { family: 'panels', inputs: () => example('panels', 8) },
  { family: 'tank', inputs: () => example('tank', 2) },
  { family: 'panels', inputs: () => Promise.resolve(DEEP.inputs) },
];

describe('a part that the shop cannot fold, made so that it can', () => {
  test.each(CASES.map((c, i) => [c.family, i] as const))(
    '%s (%d): each piece has an order and a proof, and together they are what was asked for',
    async (family, i) => {
      const inputs = await (CASES[i] as (typeof CASES)[number]).inputs();
      const asked = await made(family, inputs);
      const blocked = asked.filter(({ result: { foldPlan } }) => foldPlan?.feasible === false);
      expect(blocked.length).toBeGreaterThan(0);
      const other = await made(family, inputs, { makeFoldable: true, foldAt: 'here' });
      for (const { stopped, result } of other) {
        expect(stopped).toBe(false);
        expect(result.proof?.worstMm).toBeLessThan(0.01);
        expect(result.foldPlan?.feasible ?? true).toBe(true);
      }
      expect(changeOf(other[0] as MadePart)).toMatch(/weldAt|--weld-at/);
      for (const whole of blocked) {
        const cut = folded(whole);
        const pieces = other.filter(
          ({ result: { hand, piece } }) =>
            hand === whole.result.hand &&
            (whole.result.piece === null || piece?.startsWith(whole.result.piece) === true),
        );
        expect(pieces.length).toBeGreaterThan(1);
        const flats = pieces.map(folded);
        // Every panel is on one piece, where it stands as on the part that was asked for.
        expect(flats.flatMap((p) => p.part.panels.map(({ id }) => id)).toSorted()).toEqual(
          cut.part.panels.map(({ id }) => id).toSorted(),
        );
        expectAlike(cut, flats);
        const kept = new Set(flats.flatMap((p) => p.part.folds.map(({ id }) => id)));
        for (const { id, parent, child } of cut.part.folds) {
          if (kept.has(id)) continue;
          const gap = gapBetween(cut, flats, [parent.panel, child.panel]);
          expect(gap).toBeGreaterThan(cut.part.cornerGapMm - 1e-6);
          expect(gap).toBeLessThan(cut.part.cornerGapMm + 0.2);
        }
      }
    },
  );

  test('what can be folded stays as it was asked for', async () => {
    const inputs = await example('bracket-angle', 0);
    const [plain, asked] = [
      await made('bracket-angle', inputs),
      await made('bracket-angle', inputs, { makeFoldable: true }),
    ];
    expect(asked.map(({ result }) => result)).toEqual(plain.map(({ result }) => result));
  });

  test('inches give the same pieces as millimetres', async () => {
    const zed = { flangeA: 60, offset: 10, flangeB: 60, width: 203.2, material: 'dc01' };
    const mm = await made('bracket-zed', { ...zed, thickness: 1 }, { makeFoldable: true });
    const inch = await made(
      'bracket-zed',
      { ...zed, width: '8in', flangeA: '60mm', thickness: 1 },
      { makeFoldable: true },
    );
    expect(changeOf(mm[0] as MadePart)).not.toBe('');
    const sizes = (parts: readonly MadePart[]) =>
      parts.map(({ result: { blank } }) => [blank?.widthMm, blank?.heightMm]);
    expect(sizes(inch)).toEqual(sizes(mm));
    expect(changeOf(inch[0] as MadePart)).toBe(changeOf(mm[0] as MadePart));
  });

  test('the weld gap is that of the shop', async () => {
    const shop = { ...DEFAULT_SHOP, isAssumed: false, weldGap: 1.2 };
    const parts = await made('panels', { ...DEEP.inputs, weldAt: 'A, C' }, { shop });
    expect(folded(parts[0] as MadePart).part.cornerGapMm).toBe(1.2);
    const whole = await made('panels', DEEP.inputs, { shop });
    const gap = gapBetween(folded(whole[0] as MadePart), parts.map(folded), ['base', 'front']);
    expect(gap).toBeGreaterThan(1.2 - 1e-6);
    expect(gap).toBeLessThan(1.3);
  });

  test('where a weld takes the place of a bend, the cautions of welding are told', async () => {
    const [plain] = await made('tray', await example('tray', 0));
    const [welded] = await made('tray', { ...(await example('tray', 0)), weldAt: 'A' });
    const cautions = (part: MadePart | undefined) =>
      part?.result.findings.map(({ rule }) => rule).filter((rule) => rule.startsWith('caution'));
    expect(cautions(plain)).not.toContain('caution-weld-for-bend');
    expect(cautions(welded)).toEqual(
      expect.arrayContaining(['caution-weld-for-bend', 'caution-weld-heat']),
    );
  });

  test('plate too thick for every machine is slit, bent by hand and welded up', async () => {
    const shoe = { web: 86, flangeA: 50, flangeB: 50, width: 70, material: 's235', thickness: 6 };
    const planned = planParts({ template: await loadFamily('bracket-channel'), inputs: shoe });
    expect(planned.ok && planned.result.redesigns[0]).toMatchObject({
      inputs: { slitAt: 'A, B' },
      flags: "--slit-at 'A, B'",
      seams: 0,
      slits: 2,
      pieces: { before: 1, now: 1 },
    });
  });

  test('what something else stops is not redesigned', async () => {
    const planned = planParts({
      template: await loadFamily('bracket-channel'),
      inputs: { web: 5, flangeA: 50, flangeB: 50, width: 70, thickness: 3 },
    });
    expect(planned.ok && planned.result.redesigns).toEqual([]);
  });

  test('a fold that is not there, and one that is both slit and welded, are problems', async () => {
    const tray = await loadFamily('tray');
    const inputs = await example('tray', 0);
    const problemsOf = (more: Inputs) => {
      const found = makeParts(tray, { ...inputs, ...more });
      return found.ok ? [] : found.problems.map(({ input, given }) => `${input}: ${given}`);
    };
    expect(problemsOf({ weldAt: 'A, Q' })).toEqual(["weldAt: 'Q'"]);
    expect(problemsOf({ weldAt: 'A', slitAt: 'A' })).toEqual(['slitAt: A']);
    expect(problemsOf({ weldAt: ['A', 'C'] })).toEqual([]);
  });
});
