import { printedIn } from '../../text/printed.ts';
import { fitShort } from '../../fit/short.ts';
import { linksHome, type SheetContent } from '../../paper/sheet/content.ts';
import { sheetName } from '../../model/paper.ts';
import { sheetContent } from '../../paper/sheet/sheet-content.ts';
import { sheetHtml } from '../../paper/sheet/sheet-html.ts';
import { sheetPages } from '../../paper/sheet/sheet-pages.ts';
import { writePdf } from '../../paper/write/pdf.ts';
import { type OutputSource, shared, type Written } from './output.ts';

/** The job sheet for a screen. */
export const jobSheetHtml = (source: OutputSource): Written => ({
  contents: sheetHtml(contentOf(source)),
});

/** The job sheet for paper. */
export function jobSheetPdf(source: OutputSource): Written {
  const { result, mark } = source.made;
  const pages = sheetPages(contentOf(source));
  return { contents: writePdf(pages, { title: `${result.name}: job sheet`, mark }) };
}

const contentOf = shared((source): SheetContent => {
  const { made, report, note, shop, set, home, printUnits, isHanded, findings } = source;
  const { paper, sizes, paperMark, revision, date } = source;
  const { result } = made;
  return sheetContent({
    isHanded,
    units: printUnits,
    links: linksHome(home),
    made: { ...made, result: { ...result, findings: [...result.findings, ...findings] } },
    ...(result.fit !== null && { fit: fitShort(result.fit, printedIn(printUnits)) }),
    ...(report !== undefined && { report }),
    ...(note !== undefined && { note }),
    paper: sheetName(paper),
    sizes,
    paperMark,
    revision,
    date,
    ...(shop !== undefined && { shop }),
    ...(set !== undefined && { whole: `${set.base}-assembly` }),
  });
});
