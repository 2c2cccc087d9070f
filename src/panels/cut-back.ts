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
  ([1, -1] as const).some((way) => isCutAt(shape, edge, way, folding));

/**
 * The same of the end at which the edge stops (1) or begins (-1) on the way round its panel. Folds
 * that are wide beside their panels, as a comb of tabs in thick sheet, lead round in circles: an edge
 * that was come to before is `seen`, and has nothing more to tell.
 */
const isCutAt = (
  shape: Shape,
  edge: string,
  way: 1 | -1,
  folding: Folding,
  seen = new Set<string>(),
): boolean => {
  const key = `${shape.id}\n${edge}`;
  if (seen.has(key)) return false;
  seen.add(key);
  return foldsPast(shape, edge, way, folding).some(({ bend, other, beforeMm }) => {
    const across = folding.panels.find((panel) => panel.shape.id === other.panel)?.shape;
    // Metal that runs on beside a fold is not cut.
    if (across === undefined || beforeMm > reachMm(bend, folding)) return false;
    // Both panels run counter-clockwise, so the fold ends on one where it begins on the other.
    const own = foldsOn(across, other.edge, way === 1 ? -1 : 1, folding);
    const asideMm = (own.find((fold) => fold.bend === bend)?.beforeMm ?? 0) - beforeMm;
    const met = foldsPast(across, other.edge, way, folding);
    const isMet = met.some(
      (fold) =>
        Math.max(asideMm, fold.beforeMm) < reachMm(bend, folding) + reachMm(fold.bend, folding),
    );
    return (
      isMet ||
      (met.length === 0 &&
        asideMm < 2 * reachMm(bend, folding) &&
        isCutAt(across, neighbourOf(across, other.edge, way), way, folding, seen))
    );
  });
};

/** The name of the edge before or after another. */
const neighbourOf = ({ outline }: Shape, edge: string, way: number): string => {
  const index = outline.findIndex((vertex) => vertex.edge === edge);
  return outline[(index + way + outline.length) % outline.length]?.edge ?? '';
};

/**
 * The folds on the next edge round the corner. What lies between and is so short that bends take it,
 * as a corner that was rounded, is passed over.
 */
const foldsPast = (shape: Shape, edge: string, way: 1 | -1, folding: Folding): FoldOnEdge[] => {
  const { outline } = shape;
  const index = outline.findIndex((vertex) => vertex.edge === edge);
  const mostMm = Math.max(0, ...folding.bends.map((bend) => reachMm(bend, folding)));
  let passedMm = 0;
  for (let k = 1; index >= 0 && k < outline.length && passedMm <= mostMm; k++) {
    const at = (index + way * k + outline.length) % outline.length;
    const folds = foldsOn(shape, outline[at]?.edge, way, folding);
    if (folds.length > 0)
      return folds.map((fold) => ({ ...fold, beforeMm: fold.beforeMm + passedMm }));
    const { from, to } = pieceOf(outline, at);
    passedMm += distance(from, to);
  }
  return [];
};

interface FoldOnEdge {
  readonly bend: Bend;
  /** The side of the fold on the other panel. */
  readonly other: { readonly panel: string; readonly edge: string };
  /** How much of the edge lies before the fold, as one comes from that way, mm. */
  readonly beforeMm: number;
}

/** What is folded on an edge, seen from where it begins (1) or from where it stops (-1). */
const foldsOn = (
  shape: Shape,
  edge: string | undefined,
  way: 1 | -1,
  { bends }: Folding,
): FoldOnEdge[] => {
  const index = shape.outline.findIndex((vertex) => vertex.edge === edge);
  if (edge === undefined || index < 0) return [];
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
