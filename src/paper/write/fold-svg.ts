import { type FoldCards, foldStrip } from '../draw/fold-pages.ts';
import { singleLine } from '../../text/single-line.ts';
import { xmlText } from '../../text/xml.ts';
import { pictureSvg } from './picture-svg.ts';

/** The cards one under the other as one SVG page in the width of A4. */
export const foldSvg = (cards: FoldCards, mark: string): string => {
  const [open, ...rest] = pictureSvg(foldStrip(cards), 'cell').split('\n');
  return [
    open,
    `<title>${xmlText(singleLine(cards.heading))}</title>`,
    `<desc>${xmlText(singleLine(mark))}</desc>`,
    ...rest,
  ].join('\n');
};
