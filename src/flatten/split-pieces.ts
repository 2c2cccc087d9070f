import { pieceOf } from '../geometry/piece.ts';
import type { Loop } from '../geometry/loop.ts';
import { NOISE_MM } from '../geometry/tolerance.ts';
import { distance, dot, leftOf, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { Fold, FoldSide, Panel, Part } from '../model/part.ts';
import type { Facing, Wish } from '../model/wish.ts';
import {
  type Draft,
  type DraftPanel,
  type DraftVertex,
  foldPieceOf,
  jointOf,
  panelOf,
} from './draft.ts';

/** The groups of panels that folds still join, as parts. The first holds the root. */
export function piecesOf(draft: Draft, cut: ReadonlySet<string>): Part[] {
  const { part } = draft;
  const kept = part.folds.filter(({ id }) => !cut.has(id));
  const rootOf = (panel: string): string => {
    const link = kept.find(({ child }) => child.panel === panel);
    return link === undefined ? panel : rootOf(link.parent.panel);
  };
  const roots = [...new Set([part.root, ...part.panels.map(({ id }) => rootOf(id))])];
  return roots.map((root) => {
    const panels = part.panels.filter(({ id }) => rootOf(id) === root);
    const folds = kept.filter(({ parent }) => rootOf(parent.panel) === root);
    const has = (id: string): boolean => folds.some((f) => f.id === id);
    return {
      ...part,
      root,
      panels: panels.map(({ id }) => drawnPanel(panelOf(draft, id))),
      folds: folds.map((fold) => drawnFold(draft, fold)),
      ...(part.corners !== undefined && {
        corners: part.corners.filter((corner) => corner.folds.every(has)),
      }),
      wishes: (part.wishes ?? []).filter((wish) =>
        isOnPiece(wish, new Set(panels.map(({ id }) => id)), has, facingCuts(draft, cut)),
      ),
    };
  });
}

/** An outline without pieces that trimming left no length of. */
export const drawnLoop = (loop: Loop<DraftVertex>): Loop<DraftVertex> =>
  loop.filter((v, i) => {
    const next = loop[(i + 1) % loop.length] as DraftVertex;
    return distance([v.x, v.y], [next.x, next.y]) > NOISE_MM;
  });

const drawnPanel = ({ panel, loop }: DraftPanel): Panel => ({
  ...panel,
  outline: drawnLoop(loop).map(({ x, y, bulge }) => ({ x, y, bulge })),
});

/** A fold on the stretch that both of its panels still have. */
function drawnFold(draft: Draft, fold: Fold): Fold {
  const joint = jointOf(draft, fold.id);
  const stretchOf = (panel: string, at: Vec2, dir: Vec2) => {
    const loop = drawnLoop(panelOf(draft, panel).loop);
    const edge = foldPieceOf(loop, fold.id);
    const { from, to } = pieceOf(loop, edge);
    const along = (p: Vec2): number => dot(sub(p, at), dir);
    return { panel, edge, from: along(from), to: along(to) };
  };
  const parent = stretchOf(fold.parent.panel, joint.parentAt, joint.parentDir);
  // The child's edge runs against the parent's.
  const child = stretchOf(fold.child.panel, joint.childAt, joint.childDir);
  const [from, to] = [Math.max(parent.from, -child.to), Math.min(parent.to, -child.from)];
  return {
    ...fold,
    parent: sideOf(parent, from, to),
    child: sideOf(child, -to, -from),
  };
}

/** A side with its stretch, where that is not all of its edge. */
const sideOf = (
  whole: { panel: string; edge: number; from: number; to: number },
  from: number,
  to: number,
): FoldSide => ({
  panel: whole.panel,
  edge: whole.edge,
  ...(from > whole.from + SAME_END_MM && { from: from - whole.from }),
  ...(to < whole.to - SAME_END_MM && { to: to - whole.from }),
});

/** Ends of two panels nearer than this are the same: no cutter tells them apart. */
const SAME_END_MM = 1e-5;

/** The panels that were cut, each with the way that the new edge faces in its own coordinates. */
const facingCuts = (
  draft: Draft,
  cut: ReadonlySet<string>,
): ReadonlyMap<string, readonly Vec2[]> => {
  const found = new Map<string, Vec2[]>();
  for (const id of cut) {
    const { fold, parentDir, childDir } = jointOf(draft, id);
    const sides = [
      [fold.parent.panel, parentDir],
      [fold.child.panel, childDir],
    ] as const;
    for (const [panel, dir] of sides) {
      const out = leftOf(unit(dir));
      found.set(panel, [...(found.get(panel) ?? []), [-out[0], -out[1]]]);
    }
  }
  return found;
};

const WAYS: Readonly<Record<Facing, Vec2>> = {
  left: [-1, 0],
  right: [1, 0],
  up: [0, 1],
  down: [0, -1],
};

/** Whether what an input means can still be found on one piece, and not from a new edge. */
function isOnPiece(
  wish: Wish,
  panels: ReadonlySet<string>,
  hasFold: (id: string) => boolean,
  cuts: ReadonlyMap<string, readonly Vec2[]>,
): boolean {
  if (wish.kind === 'angle') return wish.panels.every((id) => panels.has(id));
  if (wish.kind === 'diameter' || wish.kind === 'rolled') return panels.has(wish.panel);
  return wish.between.every(
    (feature) =>
      panels.has(feature.panel) &&
      (feature.kind !== 'fold' || hasFold(feature.fold)) &&
      (feature.kind !== 'edge' ||
        (cuts.get(feature.panel) ?? []).every((way) => dot(way, WAYS[feature.facing]) < 0.5)),
  );
}
