import { type PaperMark, paperMarkWords } from '../../model/paper-mark.ts';
import { codeSvg } from '../draw/square-code.ts';
import { unbroken } from '../../text/unbroken.ts';
import { singleLine } from '../../text/single-line.ts';
import { xmlText } from '../../text/xml.ts';

/** The first page of a job, or of what is handed over of it: texts as they are read. */
export interface FrontPage {
  readonly title: string;
  /** What it is the first page of, and how much there is to make. */
  readonly lines: readonly string[];
  /** What somebody has to decide before metal is cut, the worst first. */
  readonly decisions: readonly FrontText[];
  readonly cautions: readonly FrontText[];
  readonly sheets: readonly FrontSheet[];
  /** Bars of tube, with what is cut off each. */
  readonly bars: readonly FrontSheet[];
  readonly parts: readonly FrontPart[];
  readonly papers: readonly FrontLink[];
}

/** A text, and behind it what it is about. */
export interface FrontText {
  readonly lead?: string;
  readonly text: string;
  readonly about: string;
}

/** What is cut from one sheet. */
export interface FrontSheet {
  readonly name: string;
  readonly facts: readonly string[];
}

export interface FrontPart {
  readonly name: string;
  readonly facts: readonly string[];
  /** What it is warned of, in a few words each. */
  readonly warnings: readonly string[];
  /** Why there is nothing to cut. */
  readonly refused?: string | undefined;
  /** The address of a picture of its blank, or of something else that it says. */
  readonly picture?: string | undefined;
  readonly shows?: string | undefined;
  /** What is found again by the square code beside it. */
  readonly paperMark?: PaperMark | undefined;
  /** The page to read first. */
  readonly sheet?: string | undefined;
  readonly links: readonly FrontLink[];
}

export interface FrontLink {
  readonly to: string;
  readonly text: string;
}

const STYLE = `*{box-sizing:border-box}body{font:16px/1.4 Helvetica,Arial,sans-serif;color:#000;background:#fff;margin:0 auto;padding:12px;max-width:70em;overflow-wrap:anywhere}
h1{font-size:1.8em;line-height:1.15;margin:.2em 0}h2{font-size:1.25em;border-bottom:2px solid #000;margin:1.4em 0 .5em}h3{font-size:1.15em;margin:0}
p{margin:.2em 0}ul{margin:0;padding:0;list-style:none}li{margin:.4em 0;padding-left:.6em;border-left:4px solid #000}li.stop{border-left-width:12px}
.cautions{border:3px solid #000;padding:.3em .8em .5em}.cautions h2{border:0;margin:.2em 0}.cautions li{border-left:0;padding-left:0}
.about{color:#444}.sheets,.parts{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,17em),1fr));gap:12px}
.sheets>div,.part{border:1px solid #888;padding:.6em;min-width:0}.part img{display:block;width:100%;height:11em;object-fit:contain}
a{color:#000}.part h3 a,nav a,summary,.links a{display:inline-block;min-height:44px;padding:.55em 0;margin-right:1em;font-weight:bold}
.code{display:flex;gap:.5em;align-items:center;font-size:.8em;color:#444}.code svg{flex:none}.code p{min-width:0}
.warn{border-left:4px solid #000;padding-left:.5em}.refused{font-weight:bold;border-left:12px solid #000;padding-left:.5em}
@media print{a{text-decoration:none}summary,.links,nav{display:none}.part,li,.sheets>div{break-inside:avoid}}`;

/** The page in HTML that asks for nothing but pictures of blanks: no script, no style from outside. */
export const frontHtml = (page: FrontPage): string =>
  [
    '<!DOCTYPE html>',
    '<html lang="en">',
    `<head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${text(page.title)}</title>`,
    `<style>${STYLE}</style></head>`,
    `<body><h1>${text(page.title)}</h1>`,
    ...page.lines.map((line) => `<p>${text(line)}</p>`),
    ...listed('To be decided first', page.decisions),
    ...(page.cautions.length === 0
      ? []
      : ['<div class="cautions">', ...listed('Cautions', page.cautions), '</div>']),
    ...sheetsHtml('Sheet that is needed', page.sheets),
    ...sheetsHtml('Tube that is needed', page.bars),
    '<h2>Parts</h2><div class="parts">',
    ...page.parts.map(partHtml),
    '</div>',
    ...(page.papers.length === 0 ? [] : ['<h2>Lists</h2>', `<nav>${linksOf(page.papers)}</nav>`]),
    '</body></html>',
    '',
  ].join('\n');

const text = (given: string): string => xmlText(unbroken(singleLine(given)));

const listed = (title: string, texts: readonly FrontText[]): string[] =>
  texts.length === 0
    ? []
    : [
        `<h2>${text(title)}</h2><ul>`,
        ...texts.map(
          ({ lead, text: words, about }) =>
            `<li${lead === 'Not made' ? ' class="stop"' : ''}>${lead === undefined ? '' : `<b>${text(lead)}:</b> `}${text(words)} <span class="about">(${text(about)})</span></li>`,
        ),
        '</ul>',
      ];

const sheetsHtml = (heading: string, sheets: readonly FrontSheet[]): string[] =>
  sheets.length === 0
    ? []
    : [
        `<h2>${heading}</h2><div class="sheets">`,
        ...sheets.map(
          ({ name, facts }) =>
            `<div><h3>${text(name)}</h3>${facts.map((fact) => `<p>${text(fact)}</p>`).join('')}</div>`,
        ),
        '</div>',
      ];

const linksOf = (links: readonly FrontLink[]): string =>
  links.map(({ to, text: words }) => `<a href="${text(to)}">${text(words)}</a>`).join(' ');

const partHtml = ({
  name,
  facts,
  warnings,
  refused,
  picture,
  shows = 'blank',
  sheet,
  paperMark,
  links,
}: FrontPart): string => {
  const first = sheet ?? links[0]?.to;
  const linked = (inner: string): string =>
    first === undefined ? inner : `<a href="${text(first)}">${inner}</a>`;
  return [
    '<div class="part">',
    ...(picture === undefined
      ? []
      : [`<img src="${text(picture)}" alt="${text(name)}: ${text(shows)}" loading="lazy">`]),
    `<h3>${linked(text(name))}</h3>`,
    ...facts.map((fact) => `<p>${text(fact)}</p>`),
    ...(refused === undefined ? [] : [`<p class="refused">Not made: ${text(refused)}</p>`]),
    ...(warnings.length === 0
      ? []
      : [`<p class="warn"><b>To decide:</b> ${text(warnings.join('; '))}</p>`]),
    ...(links.length === 0
      ? []
      : [
          `<details><summary>Papers and files</summary><div class="links">${linksOf(links)}</div></details>`,
        ]),
    ...(paperMark === undefined
      ? []
      : [
          `<div class="code">${codeSvg(paperMark, CODE_MM)}<p>${text(paperMarkWords(paperMark))}</p></div>`,
        ]),
    '</div>',
  ].join('\n');
};

/** Side of a square code, mm. */
const CODE_MM = 22;
