import { sheetHtml } from '../../paper/sheet/sheet-html.ts';
import { sheetPages } from '../../paper/sheet/sheet-pages.ts';
import { writePdf } from '../../paper/write/pdf.ts';
import { assemblySheet } from '../assembly/assembly-sheet.ts';
import { type OutputSource, shared, type Written } from './output.ts';

/** The papers of the whole for a screen. */
export const assemblyHtml = (source: OutputSource): Written => {
  const content = contentOf(source);
  return content === undefined ? {} : { contents: sheetHtml(content) };
};

/** The papers of the whole for printing. */
export function assemblyPdf(source: OutputSource): Written {
  const content = contentOf(source);
  if (content === undefined) return {};
  const { name, mark } = content.head;
  return { contents: writePdf(sheetPages(content), { title: `${name}: assembly`, mark }) };
}

const contentOf = shared(({ set, note, revision }) =>
  set === undefined ? undefined : assemblySheet({ set, note, revision }),
);
