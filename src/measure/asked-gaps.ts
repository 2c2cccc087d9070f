import { pieceOf } from '../geometry/piece.ts';
import { movePoint } from '../geometry/motion2.ts';
import { distance, middle, type Vec2 } from '../geometry/vec2.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Fold, FoldSide, Panel, Part } from '../model/part.ts';
import type { AskedMeasure, Place } from '../contract/asked.ts';
import { placementOf } from './panel-lines.ts';

/**
 * The gap between the ends of two flanges at an open corner where both were cut. It is never less
 * than asked for, and more where they also have to pass each other in the flat.
 */
export const gapsOf = (part: Part, flat: FlatPattern): AskedMeasure[] =>
  part.panels.flatMap((panel) =>
    panel.outline.flatMap((v, i): AskedMeasure[] => {
      const [before, after] = [(i + panel.outline.length - 1) % panel.outline.length, i].map(
        (edge) => foldOn(part, panel, edge),
      );
      if (before === undefined || after === undefined || before.fold === after.fold) return [];
      const folds: readonly [string, string] = [before.fold.id, after.fold.id];
      const corner = part.corners?.find((c) => c.folds.every((f) => folds.includes(f)));
      const isOpen =
        corner?.style !== 'butt' &&
        before.fold.direction === after.fold.direction &&
        [before, after].every(({ fold }) => fold.angleDeg > 0 && fold.midSurface !== true);
      const at = movePoint(placementOf(flat, panel), [v.x, v.y]);
      const ends = [before, after].map(({ away }) => cutEnd(flat, away.panel, at));
      const [a, b] = ends;
      if (!isOpen || a === undefined || b === undefined) return [];
      return [
        {
          name: `gap at corner ${folds.join('/')}, at least`,
          askedMm: corner?.gapMm ?? part.cornerGapMm,
          between: [a, b],
          atLeast: true,
        },
      ];
    }),
  );

/** The fold that takes up a whole edge of a panel, and its other side. */
const foldOn = (
  part: Part,
  panel: Panel,
  edge: number,
): { readonly fold: Fold; readonly away: FoldSide } | undefined => {
  for (const fold of part.folds) {
    for (const [side, away] of [
      [fold.parent, fold.child],
      [fold.child, fold.parent],
    ] as const) {
      if (
        side.panel === panel.id &&
        side.edge === edge &&
        side.from === undefined &&
        side.to === undefined
      )
        return { fold, away };
    }
  }
  return undefined;
};

/** The edge at which a flange was cut off; of several, the one nearest to a corner. */
const cutEnd = (flat: FlatPattern, panel: string, corner: Vec2): Place | undefined => {
  let best: { readonly place: Place; readonly far: number } | undefined;
  flat.outline.forEach((v, i) => {
    const { from, to, bulge } = pieceOf(flat.outline, i);
    if (
      v.origin.kind !== 'trim' ||
      v.origin.panel !== panel ||
      bulge !== 0 ||
      distance(from, to) < LEAST_END_MM
    )
      return;
    const far = distance(middle(from, to), corner);
    if (best === undefined || far < best.far)
      best = { place: { kind: 'edge', panel, of: -1, from, to }, far };
  });
  return best?.place;
};

/** A shorter end, mm, has no useful direction. */
const LEAST_END_MM = 1;
