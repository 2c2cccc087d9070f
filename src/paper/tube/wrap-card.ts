import type { Loop } from '../../geometry/loop.ts';
import { piecesOf } from '../../geometry/piece.ts';
import type { Drawing, DrawingItem } from '../../model/drawing.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import type { PaperSize } from '../../model/paper.ts';
import type { Picture, PictureItem } from '../../model/picture.ts';
import { cardLayout } from '../draw/card-layout.ts';
import { CAPITAL } from '../draw/card-lines.ts';
import { cardSheets } from '../draw/card-sheets.ts';
import { CENTRE, EDGE, HOLE } from '../draw/line-types.ts';
import { line } from '../draw/strokes.ts';

export interface WrapCard {
  /** Patterns at true size, their lower left corner at the origin. */
  readonly drawing: Drawing;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Both names: of the tube, and of what it sits on. */
  readonly title: string;
  readonly about: string;
  readonly paper: PaperSize;
  readonly paperMark: PaperMark;
  /** Cautions in a few words each. */
  readonly cautions: readonly string[];
}

const SIDE =
  'Printed side out. Cut along the heavy line, wrap it round with its straight edge square to the tube: where the edges do not meet, it is printed to a wrong scale.';

/** Patterns to be wrapped round a tube, on as many pages of paper as they need. */
export function wrapCardPages(card: WrapCard): Picture[] {
  const { drawing, widthMm, heightMm, paper } = card;
  const outlines = drawing.items.flatMap((item): Loop[] =>
    item.kind === 'loop' && item.role === 'outline' ? [item.loop] : [],
  );
  return cardSheets(drawing.items.flatMap(inked), cardLayout(widthMm, heightMm, paper), {
    paperMark: card.paperMark,
    title: card.title,
    about: card.about,
    cautions: card.cautions.length === 0 ? '' : `CAUTION: ${card.cautions.join('; ')}.`,
    side: SIDE,
    outlines,
    widthMm,
  });
}

const inked = (item: DrawingItem): PictureItem[] => {
  switch (item.kind) {
    case 'loop':
      return [
        {
          kind: 'area',
          rims: [piecesOf(item.loop)],
          stroke: item.role === 'outline' ? EDGE : HOLE,
        },
      ];
    case 'circle':
      return [{ kind: 'round', centre: item.centre, radiusMm: item.radius, stroke: HOLE }];
    case 'line':
      return [line(item.from, item.to, CENTRE)];
    case 'text':
      return [
        {
          kind: 'label',
          at: item.at,
          sizeMm: item.heightMm / CAPITAL,
          angleDeg: item.angleDeg,
          text: item.text,
        },
      ];
  }
};
