import { withChords } from '../geometry/chords.ts';
import { pieceOf } from '../geometry/piece.ts';
import { dot, leftOf, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import type { Fold, Part } from '../model/part.ts';

/** Greatest distance of chords from their curve, mm: legs are told to a tenth. */
const LEG_CHORDS_MM = 0.05;

/**
 * The shorter of the two legs of a fold, mm: how far its panels reach from the line where their
 * faces meet. General tolerances of angles go by it (ISO 2768-1, table 3).
 */
export const shorterLegMm = ({ panels }: Pick<Part, 'panels'>, { parent, child }: Fold): number =>
  Math.min(
    ...[parent, child].map(({ panel: id, edge }) => {
      const panel = panels.find((p) => p.id === id);
      if (panel === undefined) throw new Error(`no panel ${id}`);
      const { from, to } = pieceOf(panel.outline, edge);
      const inwards = leftOf(unit(sub(to, from)));
      return Math.max(
        ...withChords(panel.outline, LEG_CHORDS_MM).map(({ x, y }) =>
          Math.abs(dot(sub([x, y] as Vec2, from), inwards)),
        ),
      );
    }),
  );
