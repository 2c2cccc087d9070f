import { setbackMm } from '../bending/setback.ts';
import { pieceOf } from '../geometry/piece.ts';
import { distance } from '../geometry/vec2.ts';
import type { Part } from '../model/part.ts';
import { roundTheLoop } from './cut-shape.ts';
import type { Shape } from './shape.ts';
import type { Bend } from './tree.ts';

/** The panels of a part, its folds, and what of its sheet matters at corners. */
export interface Folding {
  readonly panels: readonly { readonly shape: Shape }[];
  readonly bends: readonly Bend[];
  readonly sheet: Pick<Part, 'thicknessMm' | 'cornerGapMm' | 'measure'>;
}

/**
 * Whether a free edge of a panel may be cut back along its length, to clear what stands beside it.
 * Round the corner at either end of the edge another panel is folded on. Where that panel bears a
 * fold next to the same corner, the two that meet there share the gap of the corner. Where its edge
 * at the corner is free but cut back itself, what is folded on there is cut with it.
 */
export const isCutBack = (shape: Shape, edge: string, folding: Folding): boolean =>
  ([1, -1] as const).some((way) => isCutAt(shape, edge, way, folding, folding.panels.length));

/** The same of the end at which the edge stops (1) or begins (-1) on the way round its panel. */
const isCutAt = (
  shape: Shape,
  edge: string,
  way: 1 | -1,
  folding: Folding,
  stepsLeft: number,
): boolean => {
  const beside = neighbourOf(shape, edge, way);
  return sidesOn(shape, beside, way, folding).some(({ bend, other, beforeMm }) => {
    const across = folding.panels.find((panel) => panel.shape.id === other.panel)?.shape;
    if (across === undefined) return false;
    // Both panels run counter-clockwise, so the fold ends on one where it begins on the other.
    const own = sidesOn(across, other.edge, -way as 1 | -1, folding).find((s) => s.bend === bend);
    const next = neighbourOf(across, other.edge, way);
    const asideMm = (own?.beforeMm ?? 0) - beforeMm;
    const met = sidesOn(across, next, way, folding).filter((s) => s.bend !== bend);
    const isMet = met.some(
      (s) => Math.max(asideMm, s.beforeMm) < reachMm(bend, folding) + reachMm(s.bend, folding),
    );
    return (
      isMet ||
      (met.length === 0 &&
        stepsLeft > 0 &&
        asideMm < 2 * reachMm(bend, folding) &&
        isCutAt(across, next, way, folding, stepsLeft - 1))
    );
  });
};

/** The name of the edge before or after another. */
const neighbourOf = ({ outline }: Shape, edge: string, way: 1 | -1): string => {
  const index = outline.findIndex((vertex) => vertex.edge === edge);
  return outline[(index + way + outline.length) % outline.length]?.edge ?? '';
};

interface FoldOnEdge {
  readonly bend: Bend;
  /** The side of the fold on the other panel. */
  readonly other: { readonly panel: string; readonly edge: string };
  /** How much of the edge lies before the fold, as one comes from that way, mm. */
  readonly beforeMm: number;
}

/** What is folded on an edge, seen from where it begins (1) or from where it stops (-1). */
const sidesOn = (shape: Shape, edge: string, way: 1 | -1, { bends }: Folding): FoldOnEdge[] => {
  const index = shape.outline.findIndex((vertex) => vertex.edge === edge);
  if (index < 0) return [];
  const piece = pieceOf(shape.outline, index);
  const long = distance(piece.from, piece.to);
  return bends.flatMap((bend): FoldOnEdge[] => {
    const isParent = bend.parent === shape.id && bend.parentSide.edge === edge;
    if (!isParent && !(bend.child === shape.id && bend.childSide.edge === edge)) return [];
    const { stretch } = isParent ? bend.parentSide : bend.childSide;
    const [from, to] = roundTheLoop(shape, edge, stretch) ?? [0, long];
    return [
      {
        bend,
        other: isParent
          ? { panel: bend.child, edge: bend.childSide.edge }
          : { panel: bend.parent, edge: bend.parentSide.edge },
        beforeMm: way === 1 ? from : long - to,
      },
    ];
  });
};

/** How far from its corner a fold may begin and still meet its neighbour there, mm. */
const reachMm = ({ angleDeg, insideRadiusMm }: Bend, { sheet }: Folding): number =>
  2 * setbackMm(angleDeg, insideRadiusMm, sheet.thicknessMm, 'outside') +
  sheet.thicknessMm +
  sheet.cornerGapMm;
