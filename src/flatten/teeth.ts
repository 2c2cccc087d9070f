import type { Loop, Vertex } from '../geometry/loop.ts';
import { pieceOf } from '../geometry/piece.ts';
import { along, distance, leftOf, sub, unit } from '../geometry/vec2.ts';
import type { Fold, FoldSide, Part } from '../model/part.ts';

/** A tooth on an edge: from where to where along it, and how far it stands out, mm. */
export interface Tooth {
  readonly from: number;
  readonly to: number;
  readonly outMm: number;
  /** Diameter of the half round in the corner at either side of its foot; 0 for none. */
  readonly reliefMm: number;
}

/**
 * An edge with teeth. Beside the foot of each that has a relief a half round is cut into the panel,
 * as wide as the narrowest slot of the cutter: the inward corner there is not cut sharp either, and the edge would
 * stand off the other sheet on what is left in it (common practice).
 */
export const toothedEdge = (outline: Loop, index: number, teeth: readonly Tooth[]): Vertex[] => {
  const first = outline[index] as Vertex;
  const { from, to } = pieceOf(outline, index);
  const dir = unit(sub(to, from));
  const out = leftOf(dir);
  const name = first.edge === undefined ? {} : { edge: first.edge };
  const at = (x: number, outMm: number, bulge: number): Vertex => {
    const [px, py] = along(along(from, dir, x), out, -outMm);
    return { x: px, y: py, bulge };
  };
  return [
    first,
    ...teeth
      .toSorted((a, b) => a.from - b.from)
      .flatMap((tooth): Vertex[] => {
        const corners = [
          at(tooth.from, 0, 0),
          at(tooth.from, tooth.outMm, 0),
          at(tooth.to, tooth.outMm, 0),
        ];
        return tooth.reliefMm === 0
          ? [...corners, { ...at(tooth.to, 0, 0), ...name }]
          : [
              at(tooth.from - tooth.reliefMm, 0, -1),
              ...corners,
              at(tooth.to, 0, -1),
              { ...at(tooth.to + tooth.reliefMm, 0, 0), ...name },
            ];
      }),
  ];
};

/** The same part with teeth on free edges, by panel and number of the edge. */
export const withTeeth = (
  part: Part,
  teeth: ReadonlyMap<string, ReadonlyMap<number, readonly Tooth[]>>,
): Part => {
  const moved = (side: FoldSide): FoldSide => {
    const before = [...(teeth.get(side.panel) ?? [])].filter(([edge]) => edge < side.edge);
    const added = before.reduce((sum, [, own]) => sum + verticesOf(own), 0);
    return { ...side, edge: side.edge + added };
  };
  return {
    ...part,
    panels: part.panels.map((panel) => {
      const own = teeth.get(panel.id);
      return own === undefined
        ? panel
        : {
            ...panel,
            outline: panel.outline.flatMap((vertex, i) => {
              const edge = own.get(i);
              return edge === undefined ? [vertex] : toothedEdge(panel.outline, i, edge);
            }),
          };
    }),
    folds: part.folds.map((fold): Fold => ({
      ...fold,
      parent: moved(fold.parent),
      child: moved(fold.child),
    })),
    ...(part.wishes !== undefined && {
      wishes: part.wishes.map((wish) => reachingOver(part, wish, teeth)),
    }),
  };
};

/** How many vertices teeth add to an outline. */
const verticesOf = (teeth: readonly Tooth[]): number =>
  teeth.reduce((sum, { reliefMm }) => sum + (reliefMm === 0 ? 4 : 6), 0);

type Wish = NonNullable<Part['wishes']>[number];

const FACING = { left: [-1, 0], right: [1, 0], up: [0, 1], down: [0, -1] } as const;

/** What was measured to an edge is found to the ends of its teeth. */
const reachingOver = (
  part: Part,
  wish: Wish,
  teeth: ReadonlyMap<string, ReadonlyMap<number, readonly Tooth[]>>,
): Wish => {
  if (wish.kind !== 'length') return wish;
  const out = wish.between.map((feature) => {
    if (feature.kind !== 'edge') return 0;
    const panel = part.panels.find(({ id }) => id === feature.panel);
    const looks = FACING[feature.facing];
    const found = [...(teeth.get(feature.panel) ?? [])].find(([edge]) => {
      if (panel === undefined) return false;
      const { from, to } = pieceOf(panel.outline, edge);
      const [dx, dy] = sub(to, from);
      return (dy * looks[0] - dx * looks[1]) / distance(from, to) > ALMOST;
    });
    return Math.max(0, ...(found?.[1] ?? []).map(({ outMm }) => outMm));
  });
  const more = out.reduce((sum, mm) => sum + mm, 0);
  return more === 0 ? wish : { ...wish, input: `${wish.input} + tabs`, mm: wish.mm + more };
};

const ALMOST = 0.999;
