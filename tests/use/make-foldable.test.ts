import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHOP } from '../../src/data/shop-default.ts';
import { readInputs } from '../../src/forms/read.ts';
import type { Template } from '../../src/forms/template.ts';
import { filledOptions } from '../../src/use/make/make-options.ts';
import { redesignsOf } from '../../src/use/make/redesigns.ts';
import type { LaidFlat, MadePart } from '../../src/use/made-part.ts';
import { makeParts, type MakeOptions } from '../../src/use/make/make-parts.ts';
import { planParts } from '../../src/use/plan/plan-parts.ts';
import { cornersOf, expectAlike, type Folded, gapBetween } from '../helpers/assembly.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { fixedRuns, inTurns, IS_FULL } from '../helpers/extent.ts';
import { boxOf } from '../helpers/folded-points.ts';

type Inputs = Readonly<Record<string, unknown>>;

const ofMade = (found: ReturnType<typeof makeParts>): readonly MadePart[] => {
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return found.parts;
};

const made = async (
  family: string,
  inputs: Inputs,
  options: MakeOptions = {},
): Promise<readonly MadePart[]> =>
  ofMade(makeParts(await loadFamily(family), inputs, { shop: DEFAULT_SHOP, ...options }));

const usualTabs = (template: Template, inputs: Inputs): { readonly tabClearanceMm: number } => {
  const read = readInputs(template, inputs);
  if (!read.ok) throw new Error('not read');
  return read.values;
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

/** A zed with so little between its flanges that hands tap the second one over. */
const ZED = { flangeA: 60, offset: 10, flangeB: 60, material: 'dc01', thickness: 1 };

const CASES: readonly { readonly family: string; readonly inputs: () => Promise<Inputs> }[] = [
  { family: 'panels', inputs: () => Promise.resolve(DEEP.inputs) },
  { family: 'heel-rest', inputs: () => example('heel-rest', 2) },
  { family: 'panels', inputs: () => example('panels', 8) },
  // Left open, the choice of the wrap would be taken by the machines before anything is redesigned.
  { family: 'tank', inputs: async () => ({ ...(await example('tank', 2)), wrap: 'whole' }) },
];

const ALONE = { byMachineOnly: true, foldAt: 'here' } as const;

/** Each part was proved and can be folded, or has nothing to fold. */
const expectMade = (parts: readonly MadePart[]): void => {
  for (const { stopped, result } of parts) {
    expect([result.name, stopped]).toEqual([result.name, false]);
    expect(result.proof?.worstMm).toBeLessThan(0.01);
    expect(result.foldPlan?.feasible ?? true).toBe(true);
  }
};

/** The pieces that a blank became: those of its hand with its name in front. */
const piecesOf = (whole: MadePart, parts: readonly MadePart[]): readonly Folded[] =>
  parts
    .filter(
      ({ result: { hand, piece } }) =>
        hand === whole.result.hand &&
        (whole.result.piece === null || piece?.startsWith(whole.result.piece) === true),
    )
    .map(folded);

const isOn = ({ part: { panels } }: Folded, id: string): boolean =>
  panels.some((panel) => panel.id === id);

/**
 * The pieces, put together, are the blank that was asked for: every panel is on one piece, where it
 * stands on the folded whole, and what was bent there meets with the gap that its seam has.
 */
const expectWhole = (
  whole: MadePart,
  parts: readonly MadePart[],
  gapOf: (fold: string) => number,
): void => {
  const cut = folded(whole);
  const flats = piecesOf(whole, parts);
  expect(flats.length).toBeGreaterThan(1);
  const own = flats.map((piece) => ({
    ...piece,
    part: { ...piece.part, panels: piece.part.panels.filter(({ id }) => isOn(cut, id)) },
  }));
  expect(own.flatMap((p) => p.part.panels.map(({ id }) => id)).toSorted()).toEqual(
    cut.part.panels.map(({ id }) => id).toSorted(),
  );
  expectAlike(cut, own);
  for (const { id, parent, child } of cut.part.folds) {
    const [a, b] = [parent.panel, child.panel];
    if (own.some((piece) => isOn(piece, a) && isOn(piece, b))) continue;
    expect(gapBetween(cut, flats, [a, b]), id).toBeCloseTo(gapOf(id), 6);
  }
};

/** Square panels reach as far outside as the bends did in their place. */
const expectAsLarge = (whole: MadePart, parts: readonly MadePart[]): void => {
  const cut = folded(whole);
  const [was, is] = [[cut], piecesOf(whole, parts)].map((pieces) =>
    boxOf(cut.part.panels.flatMap(({ id }) => cornersOf(cut, pieces, id))),
  );
  was?.low.forEach((mm, i) => expect(is?.low[i]).toBeCloseTo(mm, 6));
  was?.high.forEach((mm, i) => expect(is?.high[i]).toBeCloseTo(mm, 6));
};

describe('a part that the shop cannot fold, made so that it can', () => {
  test.each(inTurns([...CASES.keys()], 0, CASES.length))(
    'case %d: each piece has an order and a proof, and together they are what was asked for',
    async (i) => {
      const { family, inputs: given } = CASES[i] as (typeof CASES)[number];
      const inputs = await given();
      const asked = await made(family, inputs, { byMachineOnly: true });
      const blocked = asked.filter(({ result: { foldPlan } }) => foldPlan?.feasible === false);
      expect(blocked.length).toBeGreaterThan(0);
      const other = await made(family, inputs, { ...ALONE, makeFoldable: true });
      expectMade(other);
      expect(changeOf(other[0] as MadePart)).toMatch(/weldAt|--weld-at/);
      for (const whole of blocked) expectWhole(whole, other, () => folded(whole).part.cornerGapMm);
    },
  );

  test('a channel of any size: whatever is told, welded, lapped or with tabs, is the channel', async () => {
    const channel = await loadFamily('bracket-channel');
    const kinds = new Set<string>();
    fc.assert(
      fc.property(
        fc.integer({ min: 40, max: 70 }),
        fc.integer({ min: 112, max: 160 }),
        fc.integer({ min: 110, max: 260 }),
        fc.constantFrom(1, 1.5, 2),
        fc.constantFrom('outside', 'inside'),
        (web, flange, width, thickness, measure) => {
          const sheet = { thickness, radius: thickness, measure };
          const inputs = { web, flangeA: flange, flangeB: flange, width, ...sheet };
          const options = filledOptions({ shop: DEFAULT_SHOP, byMachineOnly: true });
          const [whole] = ofMade(makeParts(channel, inputs, { ...ALONE, foldAt: 'service' }));
          for (const redesign of redesignsOf(channel, inputs, options)) {
            const parts = ofMade(makeParts(channel, { ...inputs, ...redesign.inputs }, ALONE));
            expectMade(parts);
            kinds.add(Object.keys(redesign.inputs).join());
            if (redesign.pieces.now === redesign.pieces.before) continue;
            const { tabClearanceMm } = usualTabs(channel, inputs);
            // A lapped panel stands a radius and a thickness before the other one, which ends at the
            // bend of its flange; that the flange lies on it is seen in flatten/seam-joints.test.ts.
            const gap =
              redesign.laps > 0 ? 2 * thickness : redesign.tabs > 0 ? tabClearanceMm : 0.5;
            expectWhole(whole as MadePart, parts, () => gap);
            expectAsLarge(whole as MadePart, parts);
          }
        },
      ),
      { numRuns: fixedRuns(6) },
    );
    for (const kind of ['weldAt', 'lapAt', 'tabAt']) expect([...kinds]).toContain(kind);
  });

  test.runIf(IS_FULL)('a hem is told in place of a stop that is folded double', async () => {
    const heelRest = await loadFamily('heel-rest');
    const sheet = { material: '5754-h111', thickness: 2 };
    const sizes = { floorAngle: -18, width: 160, treadDepth: 110, lipHeight: 60, cheeks: 'none' };
    const inputs = { ...sizes, ...sheet };
    const options = filledOptions({ shop: DEFAULT_SHOP, byMachineOnly: true });
    const told = redesignsOf(heelRest, inputs, options);
    expect(told.map((redesign) => redesign.inputs)).toContainEqual({ hemAt: 'C' });
    const parts = await made('heel-rest', { ...inputs, hemAt: 'C' }, ALONE);
    expectMade(parts);
    const [whole] = await made('heel-rest', inputs, { foldAt: 'service' });
    expectAlike(
      folded(whole as MadePart),
      parts.map(folded).map((piece) => ({
        ...piece,
        part: {
          ...piece.part,
          panels: piece.part.panels.filter(({ id }) => isOn(folded(whole as MadePart), id)),
        },
      })),
    );
  });

  test('a flange that laps on one of several blanks is welded to what that was welded to', async () => {
    const parts = await made('tank', { ...(await example('tank', 0)), lapAt: 'wrap B' });
    const baffle = parts.find(({ result }) => result.piece?.startsWith('baffle') === true);
    expect((baffle as LaidFlat).standing?.weldedTo).toEqual(
      expect.arrayContaining(['wrap-floor', 'wrap-shallow']),
    );
  });

  test('what can be folded stays as it was asked for', async () => {
    const inputs = await example('bracket-angle', 0);
    const [plain, asked] = [
      await made('bracket-angle', inputs),
      await made('bracket-angle', inputs, { makeFoldable: true }),
    ];
    expect(asked.map(({ result }) => result)).toEqual(plain.map(({ result }) => result));
  });

  test('what hands fold stays as it was asked for, unless the machine is to do it alone', async () => {
    const inputs = { ...ZED, width: 203.2 };
    const helped = await made('bracket-zed', inputs, { makeFoldable: true, foldAt: 'here' });
    expect(helped.map(changeOf)).toEqual(helped.map(() => ''));
    const rules = helped.flatMap(({ result }) => result.findings.map(({ rule }) => rule));
    expect(rules).toContain('fold-by-hand');
    expect(helped.every(({ result }) => result.foldPlan?.feasible ?? true)).toBe(true);
    // The plan of the command agrees, and tells other designs for the machine alone only.
    const template = await loadFamily('bracket-zed');
    const told = (byMachineOnly: boolean) => {
      const planned = planParts({ template, inputs, byMachineOnly });
      return planned.ok && [planned.isFoldable, planned.result.redesigns.length > 0];
    };
    expect(told(false)).toEqual([true, false]);
    expect(told(true)).toEqual([false, true]);
  });

  test('inches give the same pieces as millimetres', async () => {
    const alone = { byMachineOnly: true, makeFoldable: true };
    const mm = await made('bracket-zed', { ...ZED, width: 203.2 }, alone);
    const inch = await made('bracket-zed', { ...ZED, width: '8in', flangeA: '60mm' }, alone);
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
    expect(gap).toBeCloseTo(1.2, 6);
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
