import { singleLine } from '../../text/single-line.ts';

import { zlibSync } from 'fflate';

export interface PdfHead {
  readonly title: string;
  /** By which the file is known again: a comment near its start. */
  readonly mark: string;
}

/** One page: its size in points of 1/72 inch, and the operators that paint it. */
export interface PdfPage {
  readonly width: number;
  readonly height: number;
  /** A letter for each byte. Fonts are called `/F1`, Helvetica, and `/F2`, Helvetica-Bold. */
  readonly content: string;
}

/** The objects that there are once; those of the pages follow. */
const [CATALOG, PAGES, REGULAR, BOLD, INFO, FIRST_PAGE] = [1, 2, 3, 4, 5, 6];

/**
 * Pages as a PDF of version 1.4 (ISO 32000-1, clause 7): objects, a table of where each begins, and
 * a trailer. It bears no date and no identifier, which may be left out (14.3.3, 14.4), so that the
 * same pages give the same bytes.
 */
export const pdfFile = (pages: readonly PdfPage[], { title, mark }: PdfHead): Uint8Array => {
  const kids = pages.map((_, i) => `${FIRST_PAGE + 2 * i} 0 R`);
  const objects = [
    latin1(`<< /Type /Catalog /Pages ${PAGES} 0 R >>`),
    latin1(
      `<< /Type /Pages /Count ${pages.length} /Kids [${kids.join(' ')}] /Resources << /Font << /F1 ${REGULAR} 0 R /F2 ${BOLD} 0 R >> >> >>`,
    ),
    ...['Helvetica', 'Helvetica-Bold'].map((name) =>
      latin1(`<< /Type /Font /Subtype /Type1 /BaseFont /${name} /Encoding /WinAnsiEncoding >>`),
    ),
    latin1(`<< /Title ${utf16(title)} /Creator (blankwright) /Producer (blankwright) >>`),
    ...pages.flatMap(({ width, height, content }, i) => [
      latin1(
        `<< /Type /Page /Parent ${PAGES} 0 R /MediaBox [0 0 ${width} ${height}] /Contents ${FIRST_PAGE + 2 * i + 1} 0 R >>`,
      ),
      streamOf(content),
    ]),
  ];
  return numbered(head(mark), objects);
};

/**
 * Four bytes above 127 say that the file is not text (7.5.2); the mark is a comment of its own line
 * (7.2.3), in UTF-8, as files are known again by it.
 */
const head = (mark: string): Uint8Array =>
  joined([
    latin1('%PDF-1.4\n%\u00e2\u00e3\u00cf\u00d3\n'),
    new TextEncoder().encode(`%${singleLine(mark)}\n`),
  ]);

const streamOf = (content: string): Uint8Array => {
  const packed = zlibSync(latin1(content), { level: 9 });
  return joined([
    latin1(`<< /Length ${packed.length} /Filter /FlateDecode >>\nstream\n`),
    packed,
    latin1('\nendstream'),
  ]);
};

/** Objects from number 1 on, the table of their places (7.5.4: 20 bytes a line), the trailer. */
const numbered = (start: Uint8Array, objects: readonly Uint8Array[]): Uint8Array => {
  const parts = [start];
  let length = start.length;
  const places = objects.map((object, i) => {
    const place = length;
    const whole = joined([latin1(`${i + 1} 0 obj\n`), object, latin1('\nendobj\n')]);
    parts.push(whole);
    length += whole.length;
    return `${String(place).padStart(10, '0')} 00000 n \n`;
  });
  const size = objects.length + 1;
  return joined([
    ...parts,
    latin1(`xref\n0 ${size}\n0000000000 65535 f \n${places.join('')}`),
    latin1(`trailer\n<< /Size ${size} /Root ${CATALOG} 0 R /Info ${INFO} 0 R >>\n`),
    latin1(`startxref\n${length}\n%%EOF\n`),
  ]);
};

/** A text string in UTF-16, its byte order mark first (7.9.2.2), as hexadecimal digits (7.3.4.3). */
const utf16 = (text: string): string => {
  const line = `\ufeff${singleLine(text)}`;
  const digits = Array.from({ length: line.length }, (_, i) =>
    line.charCodeAt(i).toString(16).padStart(4, '0'),
  );
  return `<${digits.join('')}>`;
};

/** In a loop, because a page is long and `Uint8Array.from` takes many times as long. */
const latin1 = (text: string): Uint8Array => {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes;
};

const joined = (parts: readonly Uint8Array[]): Uint8Array => {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};
