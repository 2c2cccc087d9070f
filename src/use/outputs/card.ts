import { cardAbout, cardPages } from '../../paper/draw/card-template.ts';
import { writePdf } from '../../paper/write/pdf.ts';
import { cautionsAmong } from '../../data/cautions.ts';
import { printedIn } from '../../text/printed.ts';
import { figure } from '../../text/figures.ts';
import type { OutputSource, Written } from './output.ts';

/** The blank in full size on as many sheets of paper as it needs, to be laid on card or metal. */
export function cardPdf({
  made,
  paper,
  note,
  revision,
  printUnits,
  isHanded,
}: OutputSource): Written {
  const { flat, drawing, result, mark } = made;
  const { name, hand, quantity, material } = result;
  const about = cardAbout({
    quantity,
    sheet: `${material.id} ${figure(material.thicknessMm, 3)} mm`,
    flat,
    print: printedIn(printUnits),
    ...(revision !== undefined && { revision }),
    ...(note !== undefined && { note }),
  });
  const pages = cardPages({
    flat,
    drawing,
    name,
    about,
    paper,
    cautions: cautionsAmong(result.findings).map(({ short }) => short),
    ...(isHanded && { hand }),
  });
  return { contents: writePdf(pages, { title: `${name}: card template`, mark }) };
}
