import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldUp } from '../../src/fold/fold-up.ts';
import { foldedSizeMm } from '../../src/fold/size.ts';
import { selfCrossing } from '../../src/geometry/self-crossing.ts';
import { composePoses, invertPose, type Pose } from '../../src/geometry/pose.ts';
import type { FlatPanel, FlatPattern } from '../../src/model/flat.ts';
import type { Direction, Measure, Panel, Part } from '../../src/model/part.ts';
import {
  type AskedLeg,
  type AskedStrip,
  INTO_SECTION,
  section,
  stripSolid,
  takenByBend,
} from '../helpers/asked-strip.ts';
import { makeOne } from '../helpers/check-template.ts';
import { fixedRuns } from '../helpers/extent.ts';
import { loadSolids, type Solid, type Solids } from '../helpers/solid.ts';

/**
 * Each family as its help describes it: names of the legs and of their holes from one end to the
 * other, and the turns.
 */
interface Family {
  readonly legs: readonly {
    readonly input: string;
    readonly panel: string;
    readonly holes: string;
    readonly holesFrom: 'next' | 'before';
  }[];
  readonly bends: readonly Direction[];
  /**
   * Overall height and breadth with square bends, outside dimensions: the sums every workshop
   * makes.
   */
  readonly square: (legs: readonly number[], t: number) => readonly [number, number];
}

const FAMILIES: Record<string, Family> = {
  'bracket-angle': {
    legs: [
      { input: 'legA', panel: 'leg A', holes: 'holesA', holesFrom: 'next' },
      { input: 'legB', panel: 'leg B', holes: 'holesB', holesFrom: 'before' },
    ],
    bends: ['up'],
    square: ([a = 0, b = 0]) => [a, b],
  },
  'bracket-channel': {
    legs: [
      { input: 'flangeA', panel: 'flange A', holes: 'holesA', holesFrom: 'next' },
      { input: 'web', panel: 'web', holes: 'holesWeb', holesFrom: 'before' },
      { input: 'flangeB', panel: 'flange B', holes: 'holesB', holesFrom: 'before' },
    ],
    bends: ['up', 'up'],
    square: ([a = 0, web = 0, b = 0]) => [Math.max(a, b), web],
  },
  'bracket-zed': {
    legs: [
      { input: 'flangeA', panel: 'flange A', holes: 'holesA', holesFrom: 'next' },
      { input: 'offset', panel: 'web', holes: 'holesWeb', holesFrom: 'before' },
      { input: 'flangeB', panel: 'flange B', holes: 'holesB', holesFrom: 'before' },
    ],
    bends: ['up', 'down'],
    square: ([a = 0, offset = 0, b = 0], t) => [a + b - t, offset],
  },
  'bracket-hat': {
    legs: [
      { input: 'footA', panel: 'foot A', holes: 'holesFootA', holesFrom: 'next' },
      { input: 'height', panel: 'side A', holes: 'holesA', holesFrom: 'next' },
      { input: 'crown', panel: 'crown', holes: 'holesCrown', holesFrom: 'before' },
      { input: 'height', panel: 'side B', holes: 'holesB', holesFrom: 'before' },
      { input: 'footB', panel: 'foot B', holes: 'holesFootB', holesFrom: 'before' },
    ],
    bends: ['up', 'down', 'down', 'up'],
    square: ([a = 0, height = 0, crown = 0, , b = 0], t) => [crown + a + b - 2 * t, height],
  },
};

const hundredths = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.round(min * 100), max: Math.round(max * 100) }).map((n) => n / 100);

interface Numbers {
  readonly thicknessMm: number;
  readonly insideRadiusMm: number;
  readonly measure: Measure;
  readonly widthMm: number;
  readonly angleDeg: number;
  /** Flat metal of each leg beside its bends. */
  readonly flats: readonly number[];
  /** For each leg, where in its flat part a hole sits, as shares; none where `undefined`. */
  readonly holes: readonly (readonly [number, number] | undefined)[];
  readonly hand: 'left' | 'right';
}

const share = fc.integer({ min: 30, max: 70 }).map((n) => n / 100);

const numbers = (legs: number): fc.Arbitrary<Numbers> =>
  fc.record({
    thicknessMm: fc.oneof(fc.constantFrom(1, 2, 3), hundredths(0.5, 8)),
    insideRadiusMm: fc.oneof(fc.constantFrom(0, 0.001, 0.01), hundredths(0.1, 12)),
    measure: fc.constantFrom('outside' as const, 'outside' as const, 'inside' as const),
    widthMm: hundredths(12, 90),
    angleDeg: fc.oneof(
      fc.constant(90),
      fc.integer({ min: 3, max: 179 }),
      fc.integer({ min: 6, max: 358 }).map((n) => n / 2),
    ),
    flats: fc.array(hundredths(1, 60), { minLength: legs, maxLength: legs }),
    holes: fc.array(fc.option(fc.tuple(share, share), { nil: undefined, freq: 2 }), {
      minLength: legs,
      maxLength: legs,
    }),
    hand: fc.constantFrom('left' as const, 'left' as const, 'right' as const),
  });

/** Lengths are typed to the thousandth. */
const typed = (mm: number): number => Math.ceil(mm * 1000) / 1000;

const stripOf = (family: Family, given: Numbers): AskedStrip => {
  const { holes, flats, hand: _, ...rest } = given;
  const taken = takenByBend({ ...rest, bends: family.bends });
  const same = (input: string): number => family.legs.findIndex((leg) => leg.input === input);
  const legs = family.legs.map(({ input, holesFrom }, i): AskedLeg => {
    // Both sides of a hat are as long.
    const flat = flats[same(input)] as number;
    const bends = i === 0 || i === family.legs.length - 1 ? 1 : 2;
    const diameterMm = typed(Math.min(flat, rest.widthMm) * 0.4);
    const [across, along] = holes[i] ?? [0, 0];
    const hole = {
      acrossMm: typed(taken + across * flat),
      alongMm: typed(along * rest.widthMm),
      diameterMm,
    };
    return {
      lengthMm: typed(bends * taken + flat),
      holesFrom,
      holes: holes[i] === undefined || flat < 3 ? [] : [hole],
    };
  });
  return { ...rest, bends: family.bends, legs };
};

const inputsOf = (family: Family, strip: AskedStrip, hand: string): Record<string, unknown> => ({
  ...Object.fromEntries(family.legs.map(({ input }, i) => [input, strip.legs[i]?.lengthMm])),
  ...Object.fromEntries(
    family.legs.map(({ holes }, i) => [
      holes,
      (strip.legs[i]?.holes ?? [])
        .map((h) => `${h.acrossMm},${h.alongMm},${h.diameterMm}`)
        .join(';'),
    ]),
  ),
  width: strip.widthMm,
  bendAngle: strip.angleDeg,
  thickness: strip.thicknessMm,
  radius: strip.insideRadiusMm,
  measure: strip.measure,
  rule: 'k:0.5',
  hand,
});

/** A panel of the flat pattern with its holes, as a solid in its own coordinates. */
const panelSolid = (solids: Solids, part: Part, flat: FlatPattern, id: string): Solid => {
  const { region } = flat.panels.find((p) => p.id === id) as FlatPanel;
  const { cutouts } = part.panels.find((p) => p.id === id) as Panel;
  const drills = cutouts.flatMap((c) =>
    c.kind === 'round'
      ? [solids.cylinder([...c.centre, -1], [0, 0, 1], c.diameterMm / 2, part.thicknessMm + 2)]
      : [],
  );
  return solids.cut(solids.prism(region, part.thicknessMm), drills);
};

/** The panel that lies in the folded part's own frame as it lies in the drawing: the largest. */
const seatOf = (flat: FlatPattern): { readonly id: string; readonly pose: Pose } => {
  const { id, placement: m } = flat.panels.reduce((best, p) =>
    p.areaMm2 > best.areaMm2 ? p : best,
  );
  return { id, pose: { o: [m.x, m.y, 0], x: [m.c, m.s, 0], y: [-m.s, m.c, 0], z: [0, 0, 1] } };
};

const RUNS = fixedRuns(24);

describe.each(Object.entries(FAMILIES))(
  '%s against a solid drawn from its asked dimensions',
  async (name, family) => {
    const withSolids = await loadSolids();
    const cases = fc
      .sample(numbers(family.legs.length), { numRuns: 2 * RUNS, seed: 20 })
      .map((given) => ({ given, strip: stripOf(family, given) }))
      // Legs that run through each other are no solid.
      .filter(({ strip }) => selfCrossing(section(strip).outline) === undefined)
      .slice(0, RUNS);

    it(`is cut from as much metal and folds to the same size and place, ${RUNS} times`, async () => {
      expect(cases).toHaveLength(RUNS);
      for (const { given, strip } of cases) {
        const { part, flat } = await makeOne(name, inputsOf(family, strip, given.hand));
        if (part === undefined) throw new Error('no part');
        const said = JSON.stringify(given);
        withSolids((solids) => {
          const asked = stripSolid(solids, strip, given.hand);
          const volume = solids.volume(asked);
          expect(flat.areaMm2 * strip.thicknessMm, said).toBeGreaterThan(volume * (1 - 1e-6));
          expect(flat.areaMm2 * strip.thicknessMm, said).toBeLessThan(volume * (1 + 1e-6));

          const { poses } = foldUp(part, flat);
          const first = invertPose(poses.get(family.legs[0]?.panel ?? '') as Pose);
          const place = (id: string): Pose =>
            composePoses(INTO_SECTION, composePoses(first, poses.get(id) as Pose));
          for (const { panel } of family.legs) {
            const own = solids.move(panelSolid(solids, part, flat, panel), place(panel));
            expect(
              solids.volume(solids.cut(own, [asked])),
              `${panel} sticks out: ${said}`,
            ).toBeLessThan(1e-5);
          }

          const { id, pose } = seatOf(flat);
          const seated = solids.move(asked, composePoses(pose, invertPose(place(id))));
          expect(foldedSizeMm(part, flat), said).toEqual(
            solids.size(seated).map((v) => expect.closeTo(v, 6)),
          );
        });
      }
    });

    it('with square bends has the height and breadth that the legs add up to', async () => {
      for (const { given } of cases) {
        const strip = stripOf(family, { ...given, angleDeg: 90 });
        const { thicknessMm: t, measure, widthMm } = strip;
        if (selfCrossing(section(strip).outline) !== undefined) continue;
        // Inside dimensions end at the inside faces: a sheet short at each bend.
        const outside = strip.legs.map(
          ({ lengthMm }, i) =>
            lengthMm +
            (measure === 'outside' ? 0 : i === 0 || i === strip.legs.length - 1 ? t : 2 * t),
        );
        const wanted = [...family.square(outside, t), widthMm];
        withSolids((solids) =>
          expect(solids.size(stripSolid(solids, strip, 'left'))).toEqual(
            wanted.map((v) => expect.closeTo(v, 6)),
          ),
        );
        const { folded } = await makeOne(name, inputsOf(family, strip, given.hand));
        // Which of them lies along the drawing's y depends on which leg is the largest.
        expect(sorted(folded.sizeMm)).toEqual(sorted(wanted).map((v) => expect.closeTo(v, 6)));
      }
    });
  },
);

const sorted = (numbers: readonly number[]): number[] => [...numbers].sort((a, b) => a - b);

it('a leg past square measures to the outermost point of the bend', async () => {
  // DIN 6935: over 90 degrees legs are measured to the tangent of the bend that stands square to
  // them.
  const withSolids = await loadSolids();
  const family = FAMILIES['bracket-angle'] as Family;
  for (const angleDeg of [90, 91, 110, 135, 160, 179, 180]) {
    for (const [r, t] of [
      [0, 3],
      [0.5, 1],
      [3, 3],
      [10, 2],
    ] as const) {
      const legs = [80, 8 + 2 * (r + t)].map((lengthMm, i): AskedLeg => ({
        lengthMm,
        holes: [],
        holesFrom: i === 0 ? 'next' : 'before',
      }));
      const strip: AskedStrip = {
        thicknessMm: t,
        insideRadiusMm: r,
        measure: 'outside',
        widthMm: 30,
        angleDeg,
        legs,
        bends: family.bends,
      };
      if (selfCrossing(section(strip).outline) !== undefined) continue;
      const { folded } = await makeOne('bracket-angle', inputsOf(family, strip, 'left'));
      withSolids((solids) =>
        expect(solids.size(stripSolid(solids, strip, 'left'))[0]).toBeCloseTo(80, 6),
      );
      expect(folded.sizeMm[1]).toBeCloseTo(80, 6);
    }
  }
});
