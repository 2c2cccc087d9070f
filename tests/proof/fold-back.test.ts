import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mirrorPart } from '../../src/model/mirror.ts';
import type { Part } from '../../src/model/part.ts';
import { FAMILIES } from '../../templates/index.ts';
import { examplesIn, fuzzRuns, inTurns } from '../helpers/extent.ts';
import { madeOnce } from '../helpers/made-once.ts';
import { angle, box, fold, panel, part } from '../helpers/parts.ts';
import { blankOf, foundOf, proofOf, stopsOf } from '../helpers/proved.ts';
import { randomPart } from '../helpers/random-part.ts';
import { TREES } from '../helpers/trees.ts';
import { UNPLANNED } from '../helpers/unplanned.ts';
import { rectangle } from '../../src/geometry/loop.ts';

/** Two coordinates rounded for the file, as far from each other as the corners of a part, mm. */
const ROUNDING_MM = 1e-3;

/** Curves are arcs that stay nearer than this to what was asked, by half of what a proof allows. */
const CURVES_MM = 5e-3;
const CURVED: readonly string[] = ['neck-plate'];

describe('every example of every family', () => {
  const ways = [{}, { dxfVersion: 'r12' }, { cutOnly: true }, { kerf: 0.3 }] as const;
  test.each([...FAMILIES.keys()].map((family, place) => [family, place] as const))(
    '%s folds to what was asked, in either dialect, in both hands, cut only, and with a kerf',
    async (family, place) => {
      const load = FAMILIES.get(family) as NonNullable<ReturnType<typeof FAMILIES.get>>;
      const template = (await load()).default;
      for (const { inputs } of examplesIn(template)) {
        for (const options of inTurns(ways, place, 2)) {
          const made = madeOnce(
            template,
            { ...inputs, hand: 'both' },
            { ...UNPLANNED, ...options },
          );
          if (!made.ok) throw new Error(JSON.stringify(made.problems));
          for (const { result, stopped } of made.parts) {
            if (stopped && result.findings.some((f) => f.rule === 'kerf-too-wide')) continue;
            expect([result.name, result.findings.filter((f) => f.severity === 'stop')]).toEqual([
              result.name,
              [],
            ]);
            expect(result.proof?.worstMm).toBeLessThan(
              'kerf' in options ? 0.01 : CURVED.includes(family) ? CURVES_MM : ROUNDING_MM,
            );
            expect(result.proof?.measures.length).toBeGreaterThan(2);
            const names = result.proof?.measures.map((m) => m.name) ?? [];
            expect(new Set(names).size).toBe(names.length);
          }
        }
      }
    },
  );
});

describe('parts that break naive engines', () => {
  test.each(TREES)('$name', ({ part: tree }) => {
    for (const given of [tree, mirrorPart(tree)]) {
      for (const rule of [{ id: 'din6935' }, { id: 'k', k: 0 }] as const) {
        const blank = blankOf(given, rule);
        if (blank === undefined) continue;
        const proof = proofOf(blank.dxf, blank.asked);
        expect(stopsOf(proof)).toEqual([]);
        expect(proof.worstMm).toBeLessThan(ROUNDING_MM);
      }
    }
    expect(blankOf(tree)).toBeDefined();
  });

  test('random ones of any angle, in one dialect or the other', () => {
    let proved = 0;
    const any = fc.oneof(fc.constantFrom(90, 180, 135), fc.integer({ min: 0, max: 180 }));
    fc.assert(
      fc.property(
        randomPart(any),
        fc.constantFrom('r2000' as const, 'r12' as const),
        (random, version) => {
          const blank = blankOf(random, { id: 'din6935' }, version);
          if (blank === undefined) return;
          proved += 1;
          const proof = proofOf(blank.dxf, blank.asked);
          expect(stopsOf(proof)).toEqual([]);
          expect(proof.worstMm).toBeLessThan(0.01);
        },
      ),
      { numRuns: fuzzRuns(2000) },
    );
    expect(proved).toBeGreaterThan(fuzzRuns(2000) / 3);
  });
});

describe('what is asked', () => {
  /** Leg A 60, leg B 40, one hole in each: 20 from the fold and 30 from the fold, on one line. */
  const holed = (angleDeg: number): Part => {
    const plain = angle(60, 40, 80, angleDeg, 3, 3);
    const [a, b] = plain.panels as [Part['panels'][number], Part['panels'][number]];
    return {
      ...plain,
      panels: [
        { ...a, cutouts: [{ kind: 'round', from: 'holesA 1', centre: [40, 40], diameterMm: 9 }] },
        { ...b, cutouts: [{ kind: 'round', from: 'holesB 1', centre: [40, 30], diameterMm: 9 }] },
      ],
    };
  };

  // Two sides of a triangle and the angle between them: the law of cosines.
  test.each([30, 60, 90])('across a fold of %d degrees is what the mould lines say', (deg) => {
    const blank = blankOf(holed(deg)) as NonNullable<ReturnType<typeof blankOf>>;
    const opening = ((180 - deg) * Math.PI) / 180;
    const wanted = Math.sqrt(20 ** 2 + 30 ** 2 - 2 * 20 * 30 * Math.cos(opening));
    const measure = blank.asked.measures.find((m) => m.name === 'hole holesA 1 to hole holesB 1');
    expect(measure?.askedMm).toBeCloseTo(wanted, 5);
    const proof = proofOf(blank.dxf, blank.asked);
    expect(foundOf(proof, 'hole holesA 1 to hole holesB 1')).toBeCloseTo(wanted, 3);
    expect([foundOf(proof, 'leg A'), foundOf(proof, 'leg B')]).toEqual(
      [60, 40].map((v) => expect.closeTo(v, 3)),
    );
    expect(proof.angles).toEqual([
      expect.objectContaining({ askedDeg: 180 - deg, foundDeg: 180 - deg }),
    ]);
  });

  // DIN 6935 measures to the outermost tangents: a hem of 60 and 40 with r = t = 3 has its holes 20
  // and 30 from there.
  test('in a hem the holes lie by how far they are from the outermost point of the bend', () => {
    const blank = blankOf(holed(180)) as NonNullable<ReturnType<typeof blankOf>>;
    // On the outside faces, r + t apart twice over, and 10 along.
    const wanted = Math.hypot(10, 12);
    expect(foundOf(proofOf(blank.dxf, blank.asked), 'hole holesA 1 to hole holesB 1')).toBeCloseTo(
      wanted,
      3,
    );
  });

  // The blank of the other K is longer or shorter than this part's by the difference of the two
  // allowances.
  test('is not what a blank for another K gives: each leg is off by half the difference', () => {
    const [asked, other] = [
      blankOf(holed(90), { id: 'k', k: 0.42 }),
      blankOf(holed(90), { id: 'k', k: 0.32 }),
    ] as const;
    if (asked === undefined || other === undefined) throw new Error('not flat');
    // A pi / 180 t K, by hand: 0.5 pi 3 x 0.1.
    const difference = (Math.PI / 2) * 3 * 0.1;
    const proof = proofOf(other.dxf, {
      ...other.asked,
      bends: other.asked.bends.map((b, i) => ({
        ...b,
        allowanceMm: asked.asked.bends[i]?.allowanceMm ?? 0,
      })),
    });
    expect(stopsOf(proof)).toEqual(['proof-failed']);
    expect(foundOf(proof, 'leg A')).toBeCloseTo(60 - difference / 2, 3);
    expect(foundOf(proof, 'leg B')).toBeCloseTo(40 - difference / 2, 3);
  });

  // The plane that halves the corner of a square box lies half a gap before either end: the gap is
  // what was asked.
  test('of the corners of a box: the gap between the ends of its walls', () => {
    const blank = blankOf(box(100, 80, 40, 90, 2, 2, { cornerGapMm: 0.8 })) as NonNullable<
      ReturnType<typeof blankOf>
    >;
    const gaps = proofOf(blank.dxf, blank.asked).measures.filter((m) => m.atLeast === true);
    expect(gaps.map((m) => m.name)).toEqual(
      ['F3/F0', 'F0/F1', 'F1/F2', 'F2/F3'].map((c) => `gap at corner ${c}, at least`),
    );
    for (const { askedMm, foundMm } of gaps)
      expect([askedMm, foundMm]).toEqual([0.8, expect.closeTo(0.8, 3)]);
  });

  test('of facets on the middle of the sheet, with slots, and of an inside measure', () => {
    const facets = part(
      [panel('a', rectangle(0, 0, 80, 60)), panel('b', rectangle(0, 0, 80, 40))],
      [
        {
          ...fold('A', { panel: 'a', edge: 2 }, { panel: 'b', edge: 0 }, 30, 'up', 20),
          midSurface: true,
        },
      ],
    );
    const slotted = {
      ...angle(60, 40, 200, 90, 3, 6),
      folds: angle(60, 40, 200, 90, 3, 6).folds.map((f) => ({
        ...f,
        slots: { longestMm: 50, landMm: 12, widthMm: 3 },
      })),
    };
    for (const given of [
      facets,
      slotted,
      { ...angle(60, 40, 80, 120, 3, 3), measure: 'inside' as const },
    ]) {
      const blank = blankOf(given) as NonNullable<ReturnType<typeof blankOf>>;
      const proof = proofOf(blank.dxf, blank.asked);
      expect([given.name, stopsOf(proof)]).toEqual([given.name, []]);
      expect(proof.worstMm).toBeLessThan(ROUNDING_MM);
    }
  });
});
