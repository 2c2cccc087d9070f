import { flatMotion } from '../fold/joint.ts';
import { compose, type Motion2, movePoint, STILL } from '../geometry/motion2.ts';
import type { Loop } from '../geometry/loop.ts';
import { middle, type Vec2 } from '../geometry/vec2.ts';
import type { FlatVertex } from '../model/flat.ts';
import {
  childPanelOf,
  type Draft,
  type DraftPanel,
  type DraftVertex,
  foldPieceOf,
  jointOf,
  panelOf,
} from './draft.ts';

/**
 * A bend zone in the flat: its tangent lines and the line between them, each from the same end to
 * the same end.
 */
export interface Strip {
  readonly fold: string;
  readonly parentTangent: readonly [Vec2, Vec2];
  readonly childTangent: readonly [Vec2, Vec2];
  readonly centreLine: readonly [Vec2, Vec2];
}

/** The blank before corner reliefs: one walk round the tree of panels. */
export interface Walk {
  readonly outline: readonly FlatVertex[];
  readonly strips: readonly Strip[];
  /** Takes each panel's coordinates to those of the root. */
  readonly placements: ReadonlyMap<string, Motion2>;
}

/**
 * Walks round the root's region. At each tangent line the walk turns out along the side of the bend
 * zone, goes round the child's region from the far end of its tangent line to the near one, and
 * comes back along the other side.
 */
export const walkOutline = (draft: Draft): Walk => {
  const outline: FlatVertex[] = [];
  const strips: Strip[] = [];
  const placements = new Map<string, Motion2>();
  const visit = (target: DraftPanel, placement: Motion2): void => {
    const { loop, link } = target;
    placements.set(target.panel.id, placement);
    const entry = link === undefined ? -1 : foldPieceOf(loop, link);
    const n = loop.length;
    for (let k = 1; k <= n; k++) {
      const v = loop[(entry + k) % n] as DraftVertex;
      const [x, y] = movePoint(placement, [v.x, v.y]);
      if (v.fold === undefined || v.fold === link) {
        // The link's own piece is inside the metal, so the walk goes back from its start along the
        // strip's side.
        outline.push({
          x,
          y,
          bulge: v.bulge,
          origin: v.fold === undefined ? v.origin : { kind: 'strip', fold: v.fold },
        });
        continue;
      }
      outline.push({ x, y, bulge: 0, origin: { kind: 'strip', fold: v.fold } });
      const childPlacement = compose(placement, flatMotion(jointOf(draft, v.fold)));
      const next = loop[(entry + k + 1) % n] as DraftVertex;
      strips.push(
        stripOf(draft, v.fold, [x, y], movePoint(placement, [next.x, next.y]), childPlacement),
      );
      visit(childPanelOf(draft, v.fold), childPlacement);
    }
  };
  visit(panelOf(draft, draft.part.root), STILL);
  return { outline, strips, placements };
};

const stripOf = (
  draft: Draft,
  fold: string,
  near: Vec2,
  far: Vec2,
  childPlacement: Motion2,
): Strip => {
  const { loop } = childPanelOf(draft, fold);
  const i = foldPieceOf(loop, fold);
  const [q, p] = [loop[i], loop[(i + 1) % loop.length]].map((v) =>
    movePoint(childPlacement, [v?.x ?? 0, v?.y ?? 0]),
  ) as [Vec2, Vec2];
  return {
    fold,
    parentTangent: [near, far],
    childTangent: [p, q],
    centreLine: [middle(near, p), middle(far, q)],
  };
};

/**
 * Adjoining panels of a carved loop. Where two tangent lines run into one another, the folds need a
 * corner relief.
 */
export const adjoiningFolds = (
  loop: Loop<DraftVertex>,
): { readonly before: string; readonly after: string; readonly at: Vec2 }[] =>
  loop.flatMap((v, i) => {
    const next = loop[(i + 1) % loop.length] as DraftVertex;
    return v.fold !== undefined && next.fold !== undefined
      ? [{ before: v.fold, after: next.fold, at: [next.x, next.y] as const }]
      : [];
  });
