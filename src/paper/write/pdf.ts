import { arcOf, pointAfterTurn } from '../../geometry/arc.ts';
import type { Piece } from '../../geometry/piece.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { Label, Picture, PictureItem, Stroke } from '../../model/picture.ts';
import { textWidthMm } from '../draw/text-width.ts';
import { MM_PER_INCH } from '../../text/units.ts';
import { greyHex } from './grey.ts';
import { fileNumber } from '../../dxf/write/numbers.ts';
import { singleLine } from '../../dxf/write/text.ts';

export interface PdfHead {
  readonly title: string;
  /** By which the file is known again: a comment near its start. */
  readonly mark: string;
}

type Doc = PDFKit.PDFDocument;

/** Points of 1/72 inch, by which PDF counts (ISO 32000-1, 8.3.2.3), in a millimetre. */
const POINTS_PER_MM = 72 / MM_PER_INCH;

/**
 * Pictures as the pages of a PDF in true size, one page each, as large as its picture. Texts in
 * Helvetica, one of the fonts that every reader has; letters outside its code page (Windows 1252)
 * lose their accents or become `?`. The same pages give the same bytes.
 */
export async function writePdf(
  pages: readonly Picture[],
  { title, mark }: PdfHead,
): Promise<Uint8Array> {
  const { default: PDFDocument } = await import('pdfkit');
  const doc = new PDFDocument({
    autoFirstPage: false,
    margin: 0,
    info: {
      Title: winAnsi(title),
      Producer: 'blankwright',
      Creator: 'blankwright',
      CreationDate: NO_DATE,
    },
  });
  // A comment of its own line, as any line that begins with % is (ISO 32000-1, 7.2.3); in UTF-8, as
  // files are known again by it.
  (doc as unknown as { _write: (bytes: Uint8Array) => void })._write(
    Buffer.from(`%${singleLine(mark)}\n`, 'utf8'),
  );
  const parts: Uint8Array[] = [];
  const done = new Promise<void>((resolve, reject) => {
    doc.on('data', (part: Uint8Array) => parts.push(part));
    doc.on('end', resolve);
    doc.on('error', reject);
  });
  for (const page of pages) drawPage(doc, page);
  doc.end();
  await done;
  return Buffer.concat(parts);
}

/** A file says when it was made; the same part made twice must not differ. */
const NO_DATE = new Date(0);

const drawPage = (doc: Doc, { widthMm, heightMm, items }: Picture): void => {
  doc.addPage({ size: [widthMm * POINTS_PER_MM, heightMm * POINTS_PER_MM], margin: 0 });
  doc.save();
  // The library counts from the top; one scale for the whole page, so that a millimetre is one
  // everywhere.
  doc.transform(POINTS_PER_MM, 0, 0, POINTS_PER_MM, 0, 0);
  doc.lineJoin('round').lineCap('butt');
  for (const item of items) drawItem(doc, item, [0, heightMm]);
  doc.restore();
};

/**
 * `[0, top]` of the page for what lies in no group; y of a picture runs up, that of the library
 * down.
 */
const at = ([x, y]: Vec2, [left, top]: Vec2): Vec2 => [fileNumber(left + x), fileNumber(top - y)];

const drawItem = (doc: Doc, item: PictureItem, from: Vec2): void => {
  switch (item.kind) {
    case 'curve':
      if (item.pieces.length === 0) return;
      trace(doc, item.pieces, from);
      stroked(doc, item.stroke);
      return;
    case 'area':
      for (const rim of item.rims) {
        trace(doc, rim, from);
        doc.closePath();
      }
      painted(doc, item.fill, item.stroke);
      return;
    case 'round': {
      const [x, y] = at(item.centre, from);
      doc.circle(x, y, item.radiusMm);
      painted(doc, item.fill, item.stroke);
      return;
    }
    case 'label':
      drawLabel(doc, item, from);
      return;
    case 'group':
      drawGroup(doc, item, from);
  }
};

const drawGroup = (
  doc: Doc,
  { at: origin, clip, items }: PictureItem & { readonly kind: 'group' },
  from: Vec2,
): void => {
  const inner: Vec2 = [from[0] + origin[0], from[1] - origin[1]];
  doc.save();
  if (clip !== undefined) {
    const [x, y] = at([clip.minX, clip.maxY], inner);
    doc.rect(x, y, clip.maxX - clip.minX, clip.maxY - clip.minY).clip();
  }
  for (const item of items) drawItem(doc, item, inner);
  doc.restore();
};

const trace = (doc: Doc, pieces: readonly Piece[], from: Vec2): void => {
  const [first] = pieces;
  if (first === undefined) return;
  doc.moveTo(...at(first.from, from));
  for (const p of pieces) {
    if (p.bulge === 0) doc.lineTo(...at(p.to, from));
    else traceArc(doc, p, from);
  }
};

/**
 * No piece of an arc turns farther than this: a cubic curve with arms of 4/3 tan(w / 4) leaves a
 * unit arc of 15 degrees by under 1e-9 of its radius (the error falls with the sixth power of the
 * angle from 2.7e-4 at a quarter turn; Goldapp, "Approximation of circular arcs by cubic
 * polynomials", 1991).
 */
const STEP_RAD = Math.PI / 12;

const traceArc = (doc: Doc, { from: start, to, bulge }: Piece, from: Vec2): void => {
  const { centre, sweepRad } = arcOf(start, to, bulge);
  const count = Math.ceil(Math.abs(sweepRad) / STEP_RAD);
  const arm = (4 / 3) * Math.tan(sweepRad / count / 4);
  let a: Vec2 = start;
  for (let i = 1; i <= count; i += 1) {
    const b = i === count ? to : pointAfterTurn(start, to, bulge, (Math.abs(sweepRad) * i) / count);
    const c1: Vec2 = [a[0] - arm * (a[1] - centre[1]), a[1] + arm * (a[0] - centre[0])];
    const c2: Vec2 = [b[0] + arm * (b[1] - centre[1]), b[1] - arm * (b[0] - centre[0])];
    doc.bezierCurveTo(...at(c1, from), ...at(c2, from), ...at(b, from));
    a = b;
  }
};

const stroked = (doc: Doc, stroke: Stroke): void => {
  prepare(doc, stroke);
  doc.stroke();
};

const painted = (doc: Doc, fill: number | undefined, stroke: Stroke | undefined): void => {
  if (stroke !== undefined) prepare(doc, stroke);
  if (fill !== undefined) doc.fillColor(greyHex(fill));
  if (fill !== undefined && stroke !== undefined)
    doc.fillAndStroke(undefined, undefined, 'even-odd');
  else if (fill !== undefined) doc.fill('even-odd');
  else if (stroke !== undefined) doc.stroke();
};

const prepare = (doc: Doc, { widthMm, dashMm = [], shade = 0 }: Stroke): void => {
  doc.lineWidth(widthMm).strokeColor(greyHex(shade));
  if (dashMm.length === 0) doc.undash();
  else doc.dash([...dashMm] as unknown as number, {});
};

const drawLabel = (
  doc: Doc,
  { at: place, sizeMm, text, align = 'left', isBold = false, angleDeg = 0 }: Label,
  from: Vec2,
): void => {
  const line = winAnsi(text);
  if (line === '') return;
  const [x, y] = at(place, from);
  const share = { left: 0, middle: 1 / 2, right: 1 }[align];
  doc.save();
  doc
    .font(isBold ? 'Helvetica-Bold' : 'Helvetica')
    .fontSize(sizeMm)
    .fillColor('#000000');
  if (angleDeg !== 0) doc.rotate(-angleDeg, { origin: [x, y] });
  // Kerning is left off, so that a text is as wide as its layout took it to be.
  doc.text(line, x - share * textWidthMm(line, sizeMm, isBold), y, {
    lineBreak: false,
    baseline: 'alphabetic',
    features: [],
  });
  doc.restore();
};

/** Beyond Latin-1, what Windows 1252 has in its places 80 to 9F (hexadecimal). */
const ELSEWHERE = new Set('€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ');

const winAnsi = (text: string): string =>
  [...singleLine(text).normalize('NFC')]
    .map((letter) => (fits(letter) ? letter : plain(letter)))
    .join('');

const fits = (letter: string): boolean =>
  (letter >= ' ' && letter <= '~') ||
  (letter >= '\u00a1' && letter <= '\u00ff') ||
  ELSEWHERE.has(letter);

/** Without its accents, where that leaves letters of the page. */
const plain = (letter: string): string => {
  const bare = letter.normalize('NFKD').replace(/\p{M}/gu, '');
  return bare !== '' && [...bare].every(fits) ? bare : '?';
};
