import type { Bump } from '../../bending/bump.ts';
import { kFactorAllowanceMm } from '../../bending/rules/k-factor.ts';
import { signedArea } from '../../geometry/measure.ts';
import type { Loop } from '../../geometry/loop.ts';
import { STILL } from '../../geometry/motion2.ts';
import { along, sub, type Vec2 } from '../../geometry/vec2.ts';
import type { FlatBend, FlatPanel } from '../../model/flat.ts';
import type { Fold, Panel } from '../../model/part.ts';
import type { PartToFold } from './plan-steps.ts';

/** A part with one of its bends in hits, and the names of the hits from its parent on. */
export interface BumpedPart {
  readonly fold: PartToFold;
  readonly hits: readonly string[];
}

/**
 * The part with a wide bend taken apart into its hits, each a bend of its own, and the flats between
 * them, each a panel: the first and the last stay with the panels that they run on from. The flat
 * pattern lies as it did; `hitRadiusMm` is what the tool gives at a hit.
 */
export function bumpedPart(
  whole: PartToFold,
  bend: FlatBend,
  { hits, angleDeg }: Bump,
  hitRadiusMm: number,
): BumpedPart {
  const { part, flat } = whole;
  const { thicknessMm } = flat;
  const takenMm = kFactorAllowanceMm(bend.kFactor, {
    thicknessMm,
    insideRadiusMm: hitRadiusMm,
    angleDeg,
  });
  const half = Math.min(takenMm / bend.allowanceMm, MOST_TAKEN / hits) / 2;
  const at = (share: number, end: 0 | 1): Vec2 =>
    between(bend.parentTangent[end], bend.childTangent[end], share);
  const from = (i: number): number => (i === 0 ? 0 : (i - 0.5) / hits + half);
  const to = (i: number): number => (i === hits ? 1 : (i + 0.5) / hits - half);
  const flats = Array.from({ length: hits + 1 }, (_, i): FlatPanel => {
    const corners = [at(from(i), 1), at(from(i), 0), at(to(i), 0), at(to(i), 1)];
    const region: Loop = corners.map(([x, y]) => ({ x, y, bulge: 0 }));
    return { id: flatName(bend.id, i), placement: STILL, region, areaMm2: signedArea(region) };
  });
  const bends = Array.from({ length: hits }, (_, i): FlatBend => {
    const line = (share: number): readonly [Vec2, Vec2] => [at(share, 0), at(share, 1)];
    return {
      ...bend,
      id: hitName(bend.id, i),
      parent: flatName(bend.id, i),
      child: flatName(bend.id, i + 1),
      angleDeg,
      insideRadiusMm: hitRadiusMm,
      allowanceMm: (from(i + 1) - to(i)) * bend.allowanceMm,
      setbackMm: 0,
      deductionMm: 0,
      parentTangent: line(to(i)),
      childTangent: line(from(i + 1)),
      centreLine: line((i + 0.5) / hits),
    };
  });
  const fold = part.folds.find(({ id }) => id === bend.id) as Fold;
  const panels = flats.map(({ id, region }): Panel => ({ id, outline: region, cutouts: [] }));
  const last = flatName(bend.id, hits);
  return {
    hits: bends.map(({ id }) => id),
    fold: {
      ...whole,
      part: {
        ...part,
        panels: [...part.panels, ...panels],
        folds: [
          ...part.folds.filter(({ id }) => id !== bend.id),
          ...bends.map((hit): Fold => hitFold(fold, hit)),
          joined(`${bend.id} begin`, bend.parent, flatName(bend.id, 0)),
          joined(`${bend.id} end`, last, bend.child),
        ],
      },
      flat: {
        ...flat,
        panels: [...flat.panels, ...flats],
        bends: [...flat.bends.filter(({ id }) => id !== bend.id), ...bends],
      },
    },
  };
}

/** The share of a pitch that a hit takes at most, so that a flat is left between two of them. */
const MOST_TAKEN = 0.8;

const between = (a: Vec2, b: Vec2, share: number): Vec2 => along(a, sub(b, a), share);

const flatName = (bend: string, i: number): string => `flat ${i} of ${bend}`;
const hitName = (bend: string, i: number): string => `hit ${i + 1} of ${bend}`;

/** The edges of a flat towards the bend's parent and towards its child. */
const [NEAR, FAR] = [0, 2];

const hitFold = (
  { direction }: Fold,
  { id, parent, child, angleDeg, insideRadiusMm }: FlatBend,
): Fold => ({
  id,
  parent: { panel: parent, edge: FAR },
  child: { panel: child, edge: NEAR },
  angleDeg,
  direction,
  insideRadiusMm,
});

/** A fold of no angle: its panels count as one. */
const joined = (id: string, parent: string, child: string): Fold => ({
  id,
  parent: { panel: parent, edge: 0 },
  child: { panel: child, edge: 0 },
  angleDeg: 0,
  direction: 'up',
  insideRadiusMm: 0,
});
