import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { beadSection } from '../../src/bending/bead.ts';
import { edgeStiffness } from '../../src/bending/edge-stiffness.ts';
import { drawnBackMm, leastRampMm, louvreAreaMm2, rampStretch } from '../../src/bending/louvre.ts';
import { fuzzRuns } from '../helpers/extent.ts';
import published from '../published/forming.json' with { type: 'json' };

const caseOf = (id: string) => {
  const found = published.cases.find((c) => c.id === id);
  if (found === undefined) throw new Error(id);
  const { inputs, expected }: { inputs: Figures; expected: Figures } = found;
  const figure = (from: Figures, key: string): number => from[key] ?? NaN;
  return {
    given: (key: string) => figure(inputs, key),
    wanted: (key: string) => figure(expected, key),
  };
};
type Figures = Readonly<Record<string, number | undefined>>;

// Each case has its source in tests/published/forming.json.
describe('against worked figures', () => {
  test('free area of ten louvres', () => {
    const { given, wanted } = caseOf('louvre-area');
    const one = louvreAreaMm2({
      lengthMm: given('length'),
      rampMm: given('end_ramp_each'),
      heightMm: given('height'),
      thicknessMm: given('t'),
      depthMm: 16,
    });
    expect(one).toBeCloseTo(wanted('per_louvre_mm2'), 6);
    expect(given('n') * one).toBeCloseTo(wanted('free_area_mm2'), 6);
  });

  test('section of a half-inch bead', () => {
    const { given, wanted } = caseOf('bead-length');
    const bead = beadSection(given('width'), given('depth'));
    expect(bead.radiusMm).toBeCloseTo(wanted('radius'), 4);
    expect(bead.arcMm).toBeCloseTo(wanted('arc'), 4);
    expect(bead.extraMm).toBeCloseTo(wanted('extra'), 4);
    expect(bead.heldStretch).toBeCloseTo(wanted('mean_stretch_if_edges_held'), 4);
  });

  test('a strip with a folded edge', () => {
    const { given, wanted } = caseOf('folded-edge-stiffness');
    const edge = edgeStiffness(given('width'), given('t'), given('flange_outside'));
    expect(edge.foldedMm4).toBeCloseTo(wanted('I_mm4'), 0);
    expect(edge.flatMm4).toBeCloseTo(wanted('I_flat'), 1);
    expect(edge.ratio).toBeCloseTo(wanted('ratio'), 1);
  });
});

const sizes = fc.double({ min: 0.5, max: 100, noNaN: true });

describe('by another way', () => {
  // The section is stepped along its circle, whose points are found from its three given ones.
  test('the length round a bead is that of its chords', () => {
    fc.assert(
      fc.property(sizes, fc.double({ min: 0.02, max: 0.5, noNaN: true }), (wide, share) => {
        const deep = share * wide;
        const { radiusMm, arcMm } = beadSection(wide, deep);
        const height = (x: number) =>
          Math.sqrt(Math.max(0, radiusMm ** 2 - x ** 2)) - radiusMm + deep;
        const steps = 4000;
        // Finer towards the edges, where a half circle stands upright.
        const xs = Array.from(
          { length: steps + 1 },
          (_, i) => (-wide / 2) * Math.cos((Math.PI * i) / steps),
        );
        const length = xs
          .slice(1)
          .reduce((sum, x, i) => sum + Math.hypot(x - xs[i]!, height(x) - height(xs[i]!)), 0);
        expect(Math.abs(length / arcMm - 1)).toBeLessThan(1e-5);
      }),
      { numRuns: fuzzRuns(100) },
    );
  });

  test('the second moment is that of thin layers', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 200, noNaN: true }),
        fc.double({ min: 0.5, max: 3, noNaN: true }),
        fc.double({ min: 4, max: 40, noNaN: true }),
        (wide, t, flange) => {
          const steps = 4000;
          const layers = [
            ...Array.from({ length: steps }, (_, i) => ({
              y: ((i + 0.5) * t) / steps,
              area: (wide * t) / steps,
            })),
            ...Array.from({ length: steps }, (_, i) => ({
              y: t + ((i + 0.5) * (flange - t)) / steps,
              area: (t * (flange - t)) / steps,
            })),
          ];
          const area = layers.reduce((sum, l) => sum + l.area, 0);
          const middle = layers.reduce((sum, l) => sum + l.area * l.y, 0) / area;
          const moment = layers.reduce((sum, l) => sum + l.area * (l.y - middle) ** 2, 0);
          expect(edgeStiffness(wide, t, flange).foldedMm4 / moment).toBeCloseTo(1, 5);
        },
      ),
      { numRuns: fuzzRuns(50) },
    );
  });

  test('the shortest ramp stretches just as much as it may', () => {
    fc.assert(
      fc.property(sizes, fc.double({ min: 0.02, max: 0.5, noNaN: true }), (heightMm, stretch) => {
        const rampMm = leastRampMm(heightMm, stretch);
        expect(rampStretch({ rampMm, heightMm })).toBeCloseTo(stretch, 9);
      }),
      { numRuns: fuzzRuns(200) },
    );
  });

  // Euclid's triangle of 3, 4 and 5: a roof of 10 that rises by 8 reaches 6 far.
  test('a lanced edge draws back by what its roof reaches less', () => {
    expect(drawnBackMm({ depthMm: 10, heightMm: 8 })).toBeCloseTo(4, 12);
  });
});
