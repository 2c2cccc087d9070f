import { paperMarkWords } from '../../model/paper-mark.ts';
import { codeSvg } from '../draw/square-code.ts';
import { unbroken } from '../../text/unbroken.ts';
import { foldCells } from '../draw/fold-cells.ts';
import type { FoldCards, StrokeCard } from '../draw/fold-pages.ts';
import { singleLine } from '../../text/single-line.ts';
import { xmlText } from '../../text/xml.ts';
import { htmlComment } from './html-comment.ts';
import { pictureSvg } from './picture-svg.ts';

/** Side of the square code, mm. */
const CODE_MM = 30;
/** Pictures as wide as a phone, at a size at which their letters are read there. */
const CELL = { widthMm: 92, heightMm: 72 };

/**
 * The cards as one HTML page for a phone: one stroke a screen, from one to the next by links, nothing
 * asked of a network, no script. What the pictures show stands in words beside them.
 */
export const foldHtml = (
  { heading, captions, paperMark, strokes }: FoldCards,
  mark: string,
): string =>
  [
    '<!DOCTYPE html>',
    '<html lang="en"><head><meta charset="utf-8">',
    `<!-- ${htmlComment(mark)} -->`,
    `<title>${text(heading)}</title>`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="generator" content="blankwright">',
    `<style>${STYLE}</style></head><body><main>`,
    ...strokes.map((stroke, i) => strokeHtml(stroke, i, strokes.length)),
    `<section id="start"><h1>${text(heading)}</h1>`,
    ...captions.map((c) => `<p>${text(c)}</p>`),
    '<ol>',
    ...strokes.map(
      ({ title }, i) => `<li><a href="#s${i + 1}">${text(title.replace(/^\d+\. /, ''))}</a></li>`,
    ),
    '</ol>',
    `<div class="code">${codeSvg(paperMark, CODE_MM)}<p>${text(paperMarkWords(paperMark))}</p></div>`,
    `<nav><a class="go" href="#s1">Begin</a></nav></section>`,
    '</main></body></html>',
    '',
  ].join('\n');

const text = (value: string): string => xmlText(unbroken(singleLine(value)));

const strokeHtml = ({ title, lines, scene }: StrokeCard, i: number, count: number): string => {
  const cells = scene === undefined ? [] : foldCells(scene, CELL);
  const back = i === 0 ? '#start' : `#s${i}`;
  const next = i + 1 === count ? '#start' : `#s${i + 2}`;
  return [
    `<section id="s${i + 1}" aria-labelledby="t${i + 1}"><p class="of">${i + 1} of ${count}</p><h2 id="t${i + 1}">${text(title)}</h2>`,
    '<dl>',
    ...lines.map(([word, line]) => `<div><dt>${text(word)}</dt><dd>${text(line)}</dd></div>`),
    '</dl>',
    ...cells.map(
      ({ title: name, picture }, k) =>
        `<figure><figcaption>${text(name)}</figcaption><div role="img" aria-label="${text(`${name}. ${lines.map((l) => l.join(' ')).join('. ')}`)}">${pictureSvg(picture, `c${i}-${k}`)}</div></figure>`,
    ),
    `<nav><a href="${back}">Back</a><a class="go" href="${next}">${i + 1 === count ? 'All steps' : 'Next'}</a></nav></section>`,
  ].join('\n');
};

/**
 * A stroke is shown where it is called for; with none called for, the list of all. On dark paper the
 * pictures are turned over, black for white. Printed, all stand one after the other.
 */
const STYLE = [
  ':root{color-scheme:light dark}*{box-sizing:border-box}',
  'body{margin:0;background:#fff;color:#000;font:18px/1.35 Helvetica,Arial,sans-serif;overflow-wrap:anywhere}',
  'main{max-width:640px;margin:0 auto}',
  'section{display:none;padding:12px 12px 84px;min-height:100vh}section:target,section:target~#start{display:block}section:target~#start{display:none}#start{display:block}#start:target{display:block}',
  'h1,h2{margin:0 0 8px;line-height:1.2}h2{font-size:28px}h1{font-size:26px}.of{margin:0;font-size:16px}',
  'dl{margin:0}dl div{padding:4px 0;border-top:1px solid}dt{font-weight:bold;font-size:15px}dd{margin:0}',
  '.code{display:flex;gap:12px;align-items:center}.code svg{flex:none}.code p{margin:0;font-size:15px}',
  'figure{margin:12px 0 0}figcaption{font-weight:bold}figure svg{display:block;width:100%;height:auto}',
  'ol{padding-left:28px}li{padding:8px 0}a{color:inherit}',
  'nav{position:fixed;left:0;right:0;bottom:0;display:flex;background:#fff;border-top:2px solid;max-width:640px;margin:0 auto}nav a{flex:1;padding:18px;text-align:center;font-size:22px;font-weight:bold;text-decoration:none}nav .go{background:#000;color:#fff}',
  '@media (prefers-color-scheme:dark){body,nav{background:#000;color:#fff}nav .go{background:#fff;color:#000}figure svg{filter:invert(1)}}',
  '@media print{section,section:target~#start{display:block;break-after:page;min-height:0}nav{display:none}}',
].join('\n');
