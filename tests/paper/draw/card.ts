import { cardPages } from '../../../src/paper/draw/card-template.ts';
import type { MadePart } from '../../../src/use/made-part.ts';
import type { PaperSize } from '../../../src/model/paper.ts';
import type { Label, Picture } from '../../../src/model/picture.ts';

/** The pages of the card of a part that is made. */
export const pagesOf = (
  { flat, datum, drawing, result: { name, hand } }: MadePart,
  paper: PaperSize,
): Picture[] => {
  if (flat === undefined || datum === undefined || drawing === undefined)
    throw new Error(`${name} is not made`);
  return cardPages({
    flat,
    datum,
    drawing,
    name,
    hand,
    about: '1 off',
    paper,
    paperMark: { part: name },
  });
};

/** All that is written on a page beside its drawing. */
export const labelsOf = ({ items }: Picture): Label[] =>
  items.filter((item) => item.kind === 'label');
