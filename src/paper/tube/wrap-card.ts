import type { Loop } from '../../geometry/loop.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import type { PaperSize } from '../../model/paper.ts';
import type { Picture } from '../../model/picture.ts';
import { cardLayout } from '../draw/card-layout.ts';
import { cardSheets } from '../draw/card-sheets.ts';
import type { Patterns } from '../../tube/cope/coped-tube.ts';
import { patternItems } from './pattern-picture.ts';

export interface WrapCard extends Patterns {
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
  return cardSheets(patternItems(card), cardLayout(widthMm, heightMm, paper), {
    paperMark: card.paperMark,
    title: card.title,
    about: card.about,
    cautions: card.cautions.length === 0 ? '' : `CAUTION: ${card.cautions.join('; ')}.`,
    side: SIDE,
    outlines,
    widthMm,
  });
}
