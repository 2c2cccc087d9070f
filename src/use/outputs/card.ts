import { cardAbout, cardPages } from '../../paper/draw/card-template.ts';
import type { FindingResult } from '../../contract/part.ts';
import type { PaperSize } from '../../model/paper.ts';
import type { RuleName } from '../../rules/index.ts';
import { writePdf } from '../../paper/write/pdf.ts';
import { cautionsAmong } from '../../data/cautions.ts';
import { printedIn } from '../../text/printed.ts';
import { figure } from '../../text/figures.ts';
import { paperWords } from './outputs-asked.ts';
import type { OutputSource, Written } from './output.ts';

/** The blank in full size on as many sheets of paper as it needs, to be laid on card or metal. */
export function cardPdf({
  made,
  paper,
  note,
  revision,
  date,
  paperMark,
  printUnits,
  isHanded,
}: OutputSource): Written {
  const { flat, datum, drawing, result, mark } = made;
  const { name, hand, quantity, material } = result;
  const print = printedIn(printUnits);
  const about = cardAbout({
    quantity,
    sheet: `${material.id} ${figure(material.thicknessMm, 3)} mm`,
    flat,
    print,
    revision,
    date,
    sha: paperMark.sha,
    note,
  });
  const pages = cardPages({
    flat,
    datum,
    drawing,
    name,
    about,
    paper,
    paperMark,
    print,
    cautions: cautionsAmong(result.findings).map(({ short }) => short),
    ...(isHanded && { hand }),
  });
  return {
    contents: writePdf(pages, { title: `${name}: card template`, mark }),
    findings: pages.length > MANY_PAGES ? [manyPages(pages.length, paper)] : [],
  };
}

/** More pages than these are work to lay together. */
const MANY_PAGES = 4;

const manyPages = (count: number, paper: PaperSize): FindingResult => ({
  rule: 'card-of-many-pages' satisfies RuleName,
  severity: 'note',
  message: `The card takes ${count} pages of ${paperWords(paper)}. Fewer: --paper ${paper === 'a4' ? 'a3, ' : ''}"roll 610", or plotter, which puts it on one page at true size.`,
});
