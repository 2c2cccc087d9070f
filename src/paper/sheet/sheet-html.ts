import { codeSvg } from '../draw/square-code.ts';
import { unbroken } from '../../text/unbroken.ts';
import { htmlComment } from '../write/html-comment.ts';
import { pictureSvg } from '../write/picture-svg.ts';
import {
  BOX_MM,
  CODE_MM,
  contentMm,
  GUTTER_MM,
  MARGIN_MM,
  type NoticeBlock,
  type Overview,
  type PictureBlock,
  type SheetBlock,
  type SheetContent,
  type SheetHead,
  type SheetLink,
  handedName,
  type StepsBlock,
  type TableBlock,
  type TextBlock,
  TYPE_MM,
} from './content.ts';
import { titleFields } from './title-strip.ts';
import { type SheetName } from '../../model/paper.ts';
import { paperMarkWords } from '../../model/paper-mark.ts';
import { singleLine } from '../../text/single-line.ts';
import { xmlText } from '../../text/xml.ts';

/**
 * The sheet as one HTML page that asks for nothing else: styles and pictures in it, no script.
 * Printed it has margins and numbered pages.
 */
export function sheetHtml({ paper, head, blocks, links = [] }: SheetContent): string {
  const title = handedName(head);
  return [
    '<!DOCTYPE html>',
    `<html lang="en"><head><meta charset="utf-8">`,
    `<!-- ${htmlComment(head.mark)} -->`,
    `<title>${text(title)}</title>`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="generator" content="blankwright">',
    `<style>${styleFor(paper)}@page{size:${paper === 'letter' ? 'letter' : paper.toUpperCase()};margin:${MARGIN_MM}mm ${MARGIN_MM}mm ${MARGIN_MM + 6}mm;@bottom-left{content:"${cssText(title)}";font:${TYPE_MM.small}mm ${FONT}}@bottom-right{content:"page " counter(page) " of " counter(pages);font:${TYPE_MM.small}mm ${FONT}}}</style>`,
    '</head><body><main>',
    ...(links.length === 0 ? [] : [linksHtml(links)]),
    headHtml(head),
    ...blocks.map((block, i) => blockHtml(block, `b${i}`)),
    titleHtml(head),
    '</main></body></html>',
    '',
  ].join('\n');
}

/**
 * Letters of the widths that the pictures were laid out for, under the names they have on the
 * common systems; where there are none of these, wider ones made smaller.
 */
const FONT = 'Helvetica,Arial,"Liberation Sans","Nimbus Sans",Arimo,"Made Narrower",sans-serif';
const NARROWER = ['normal', 'bold']
  .map(
    (weight) =>
      `@font-face{font-family:"Made Narrower";font-weight:${weight};size-adjust:${weight === 'bold' ? 84 : 88}%;src:local("DejaVu Sans${weight === 'bold' ? ' Bold' : ''}"),local("Verdana${weight === 'bold' ? ' Bold' : ''}")}`,
  )
  .join('\n');

const styleFor = (paper: SheetName): string =>
  [
    NARROWER,
    `*{box-sizing:border-box}`,
    `body{margin:0;background:#fff;color:#000;font:${TYPE_MM.text}mm/1.25 ${FONT};overflow-wrap:anywhere}`,
    `main{width:${contentMm(paper)}mm;margin:0 auto}`,
    `@media screen{main{margin:${MARGIN_MM}mm auto;max-width:calc(100vw - 8px)}}`,
    `header{border-bottom:.5mm solid #000;padding-bottom:1mm;margin-bottom:1mm;display:flex;gap:${GUTTER_MM / 2}mm}header>div{flex:1;min-width:0}.code{flex:none}`,
    `.title{display:flex;flex-wrap:wrap;border:.35mm solid #000;margin-top:3mm;break-inside:avoid}.title div{flex:1 1 auto;padding:.5mm .9mm;border-right:.13mm solid #000}.title small{display:block;font-size:${TYPE_MM.small}mm}`,
    `.who{display:flex;justify-content:space-between;align-items:flex-start;gap:4mm}`,
    `h1,.hand,.stop{font-size:${TYPE_MM.name}mm;line-height:1.25;margin:0;font-weight:bold}`,
    `.hand{border:.7mm solid #000;padding:0 3mm;white-space:nowrap}`,
    `.what{font-size:${TYPE_MM.head + 1.5}mm;font-weight:bold}`,
    `h2{font-size:${TYPE_MM.title}mm;line-height:1.25;margin:3mm 0 1mm;border-bottom:.35mm solid #000;break-after:avoid}`,
    `p{margin:0}.caption{font-size:${TYPE_MM.small}mm}`,
    `svg{font-family:${FONT};display:block;max-width:100%;height:auto}`,
    `.overview,.steps,.halves{display:flex;flex-wrap:wrap;gap:0 ${GUTTER_MM}mm}`,
    `.overview{flex-wrap:nowrap}.facts{margin:3mm 0 0;flex:1}.facts dt{font-size:${TYPE_MM.small}mm}.facts dd{margin:0 0 1.4mm;font-weight:bold;font-size:${TYPE_MM.text + 0.4}mm}.facts dd.big{font-size:${TYPE_MM.head}mm}`,
    `section,.step,tr{break-inside:avoid}section.long{break-inside:auto}`,
    `table{border-collapse:collapse;width:100%;break-inside:auto}.halves>table{width:calc(50% - ${GUTTER_MM / 2}mm);align-self:flex-start}`,
    `th,td{padding:.5mm 1.1mm;text-align:right;border-bottom:.13mm solid #000}th{font-size:${TYPE_MM.small}mm;vertical-align:bottom;border-bottom-width:.35mm;overflow-wrap:normal}`,
    `@media screen and (max-width:700px){.overview{flex-wrap:wrap}.halves>table,.two .step{width:100%}.cells{flex-wrap:wrap}section,.overview{overflow-x:auto}td.w{overflow-wrap:normal}section svg,.overview svg{max-width:max(100%,150mm)}}`,
    `table.close td{font-size:${TYPE_MM.small}mm;padding-top:.17mm;padding-bottom:.17mm}`,
    `td.big{font-size:${TYPE_MM.big}mm;font-weight:bold;overflow-wrap:normal}td.n{overflow-wrap:normal}th.w,td.w{text-align:left}`,
    `.step{width:100%;padding:1mm 0}.two .step{width:calc(50% - ${GUTTER_MM / 2}mm)}.step h3{margin:0;font-size:${TYPE_MM.big}mm;line-height:1.25}.cells{display:flex;justify-content:space-between;margin-top:1mm}`,
    `td.box,th.box{width:${BOX_MM.column}mm}td.box i{display:block;width:${BOX_MM.side}mm;height:${BOX_MM.side}mm;border:.25mm solid #000}`,
    `.notice{display:flex;gap:3mm;border:.6mm solid #000;padding:.7mm 1.5mm;margin:1mm 0 1.5mm;font-weight:bold}.notice b{flex:none;overflow-wrap:normal;font-size:${TYPE_MM.title}mm;line-height:1.1}`,
    `nav{padding:2mm 0}nav a{color:#000;font-weight:bold;margin-right:4mm}@media print{nav{display:none}}`,
    `ul{margin:0;padding:0;list-style:none}li{display:flex;gap:3mm;padding-bottom:.5mm;font-size:${TYPE_MM.note}mm;break-inside:avoid}li b{flex:none;min-width:2mm}`,
  ].join('\n');

const text = (value: string): string => xmlText(unbroken(singleLine(value)));

/**
 * For a string in a style sheet within HTML: all but plain letters by their numbers (CSS Syntax 3,
 * escapes).
 */
const cssText = (value: string): string =>
  [...singleLine(value)]
    .map((c) =>
      /[A-Za-z0-9 ,.]/.test(c)
        ? c
        : `\\${(c.codePointAt(0) as number).toString(16).padStart(6, '0')}`,
    )
    .join('');

const headHtml = ({
  name,
  hand,
  quantity,
  sheet,
  lines,
  whole,
  stop,
  paperMark,
}: SheetHead): string =>
  [
    `<header><div><div class="who"><h1>${text(name)}</h1>${hand === undefined ? '' : `<div class="hand">${text(hand)}</div>`}</div>`,
    `<p class="what">${text(`${quantity}, ${sheet}`)}</p>`,
    ...(lines.length === 0 ? [] : [`<p>${text(lines.join('. '))}</p>`]),
    ...(whole === undefined
      ? []
      : [
          `<p>Joined to others: see <a href="${encodeURIComponent(`${whole}.html`)}">${text(whole)}</a></p>`,
        ]),
    ...(stop === undefined ? [] : [`<p class="stop">${text(stop)}</p>`]),
    `</div><div class="code" role="img" aria-label="${text(`Square code: ${paperMarkWords(paperMark)}`)}">${codeSvg(paperMark, CODE_MM)}</div></header>`,
  ].join('\n');

/** The title block, at the end: on a screen there are no pages. */
const titleHtml = (head: SheetHead): string =>
  `<footer class="title">${titleFields(head)
    .map(({ heading, text: words }) => `<div><small>${text(heading)}</small>${text(words)}</div>`)
    .join('')}</footer>`;

const blockHtml = (block: SheetBlock, id: string): string => {
  switch (block.kind) {
    case 'overview':
      return overviewHtml(block, id);
    case 'picture':
      return pictureHtml(block, id);
    case 'table':
      return tableHtml(block);
    case 'steps':
      return stepsHtml(block, id);
    case 'texts':
      return textsHtml(block);
    case 'notice':
      return noticeHtml(block);
  }
};

const linksHtml = (links: readonly SheetLink[]): string =>
  `<nav>${links.map(({ to, text: words }) => `<a href="${text(to)}">${text(words)}</a>`).join(' ')}</nav>`;

const noticeHtml = ({ lead, text: words }: NoticeBlock): string =>
  `<p class="notice"><b>${text(lead)}</b><span>${text(words)}</span></p>`;

const overviewHtml = ({ picture, facts, blank }: Overview, id: string): string =>
  [
    '<section class="overview">',
    ...(blank === undefined
      ? []
      : [
          `<div style="width:${blank.picture.widthMm}mm">`,
          ...pictureLines(blank, `${id}-blank`),
          '</div><div>',
        ]),
    ...(picture === undefined ? [] : [pictureSvg(picture, id)]),
    `<dl class="facts">${facts.map((f) => `<dt>${text(f.name)}</dt><dd${f.isBig === true ? ' class="big"' : ''}>${text(f.value)}</dd>`).join('\n')}</dl>`,
    ...(blank === undefined ? [] : ['</div>']),
    '</section>',
  ].join('\n');

const captionsHtml = (captions: readonly string[]): string[] =>
  captions.map((c) => `<p class="caption">${text(c)}</p>`);

const pictureLines = ({ title, picture, captions }: PictureBlock, id: string): string[] => [
  `<h2>${text(title)}</h2>`,
  pictureSvg(picture, id),
  ...captionsHtml(captions),
];

const pictureHtml = (block: PictureBlock, id: string): string =>
  ['<section>', ...pictureLines(block, id), '</section>'].join('\n');

/** More rows than these may be parted by the end of a page. */
const LONG_ROWS = 12;

const tableHtml = ({
  title,
  columns,
  rows,
  across = 1,
  captions = [],
  isClose = false,
}: TableBlock): string => {
  const half = Math.ceil(rows.length / across);
  const parts = across === 1 ? [rows] : [rows.slice(0, half), rows.slice(half)];
  const kinds = columns.map(({ isBig, isText, isBox }) =>
    [
      ...(isBig === true ? ['big'] : []),
      ...(isBox === true ? ['box'] : []),
      isText === true || isBox === true ? 'w' : 'n',
    ].join(' '),
  );
  const cells = (tag: 'th' | 'td', texts: readonly string[]): string =>
    `<tr>${texts.map((t, i) => `<${tag} class="${kinds[i] ?? ''}">${tag === 'td' && columns[i]?.isBox === true ? '<i></i>' : text(t)}</${tag}>`).join('')}</tr>`;
  const tables = parts.map(
    (part) =>
      `<table${isClose ? ' class="close"' : ''}><thead>${cells(
        'th',
        columns.map((c) => c.name),
      )}</thead><tbody>${part.map((row) => cells('td', row)).join('\n')}</tbody></table>`,
  );
  const body =
    rows.length === 0 ? [] : across === 1 ? tables : ['<div class="halves">', ...tables, '</div>'];
  return [
    `<section${half > LONG_ROWS ? ' class="long"' : ''}>`,
    `<h2>${text(title)}</h2>`,
    ...body,
    ...captionsHtml(captions),
    '</section>',
  ].join('\n');
};

const stepsHtml = ({ title, captions, across, steps }: StepsBlock, id: string): string =>
  [
    `<section class="long"><h2>${text(title)}</h2>`,
    ...captionsHtml(captions),
    `<div class="steps${across === 2 ? ' two' : ''}">`,
    ...steps.map((step, i) =>
      [
        `<div class="step"><h3>${text(step.title)}</h3>`,
        ...step.lines.map((l) => `<p>${text(l)}</p>`),
        '<div class="cells">',
        ...step.pictures.map((p, k) => pictureSvg(p, `${id}-${i}-${k}`)),
        '</div></div>',
      ].join('\n'),
    ),
    '</div></section>',
  ].join('\n');

const textsHtml = ({ title, texts }: TextBlock): string =>
  [
    `<section><h2>${text(title)}</h2><ul>`,
    ...texts.map(
      ({ lead, text: line }) =>
        `<li><b>${lead === undefined ? '&ndash;' : text(lead)}</b><span>${text(line)}</span></li>`,
    ),
    '</ul></section>',
  ].join('\n');
