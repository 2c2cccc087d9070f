import { figure } from '../../text/figures.ts';
import type { PartResult } from '../../contract/part.ts';
import { singleLine } from '../../text/single-line.ts';
import { xmlText } from '../../text/xml.ts';

export interface IndexEntry {
  readonly name: string;
  readonly folder: string;
  /** Reason why there is nothing to cut. */
  readonly refused: string | undefined;
  readonly note: string | undefined;
  readonly revision: string | undefined;
  readonly parts: readonly (PartResult & { readonly files: readonly string[] })[];
}

export interface JobIndex {
  readonly title: string;
  readonly parts: readonly IndexEntry[];
}

/** Name of the cut list, which stands beside the index. */
export const CUT_LIST = 'cutlist.csv';

const STYLE = `body{font:16px/1.4 Helvetica,Arial,sans-serif;color:#000;background:#fff;margin:1.5em;max-width:70em}
h1{font-size:1.7em;margin:0 0 .2em}table{border-collapse:collapse;width:100%}
th,td{border:1px solid #999;padding:.4em .6em;text-align:left;vertical-align:top}th{background:#eee}
td.blank{width:9em;text-align:center}td.blank img{max-width:8em;max-height:6em}
.name{font-size:1.25em;font-weight:bold}.stop{font-weight:bold;border-left:.5em solid #000;padding-left:.5em}
.warn{margin:.2em 0 0}ul{margin:0;padding-left:1.1em}@media print{a{color:#000;text-decoration:none}tr{break-inside:avoid}}`;

/**
 * The first page of a job's folder: every part with its blank, its files and its remarks. It refers
 * only to files beside it.
 */
export const jobIndexHtml = ({ title, parts }: JobIndex): string => {
  const refused = parts.filter((p) => p.refused !== undefined).length;
  const blanks = parts.reduce(
    (sum, p) =>
      sum + (p.refused === undefined ? p.parts.reduce((n, one) => n + one.quantity, 0) : 0),
    0,
  );
  return [
    '<!DOCTYPE html>',
    '<html lang="en">',
    `<head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${text(title)}</title>`,
    `<style>${STYLE}</style></head>`,
    `<body><h1>${text(title)}</h1>`,
    `<p>${blanks} ${blanks === 1 ? 'blank' : 'blanks'} to cut${refused === 0 ? '' : `; ${refused} ${refused === 1 ? 'part' : 'parts'} not made`}. All that is cut, by material and thickness: <a href="${CUT_LIST}">${CUT_LIST}</a>.</p>`,
    '<table><thead><tr><th>Blank</th><th>Part</th><th>Sheet</th><th>Size</th><th>Files</th></tr></thead><tbody>',
    ...parts.flatMap((part) =>
      part.refused === undefined ? part.parts.map((one) => row(part, one)) : [refusedRow(part)],
    ),
    '</tbody></table></body></html>',
    '',
  ].join('\n');
};

const text = (given: string): string => xmlText(singleLine(given));

const link = (folder: string, file: string): string => `${folder}/${file}`;

const row = ({ folder, note, revision }: IndexEntry, part: IndexEntry['parts'][number]): string => {
  const { name, family, hand, quantity, material, blank, bends, findings, files } = part;
  const picture = files.find((f) => f.endsWith('.svg'));
  const about = [
    `${text(family)}, ${hand} hand, ${quantity} off`,
    ...(revision === undefined ? [] : [`revision ${text(revision)}`]),
    ...(note === undefined ? [] : [text(note)]),
  ];
  const warnings = findings
    .filter((f) => f.severity === 'warn')
    .map((f) => `<p class="warn"><b>Warning:</b> ${text(f.message)}</p>`);
  return [
    '<tr>',
    `<td class="blank">${picture === undefined ? '' : `<img src="${link(folder, picture)}" alt="Blank of ${text(name)}">`}</td>`,
    `<td><span class="name">${text(name)}</span><br>${about.join('<br>')}${warnings.join('')}</td>`,
    `<td>${text(material.id)}<br>${figure(material.thicknessMm, 3)} mm</td>`,
    `<td>${blank === null ? '' : `${figure(blank.widthMm, 1)} x ${figure(blank.heightMm, 1)} mm<br>${figure(blank.massKg, 3)} kg`}<br>${bends.length} ${bends.length === 1 ? 'fold' : 'folds'}</td>`,
    `<td><ul>${files.map((f) => `<li><a href="${link(folder, f)}">${text(f)}</a></li>`).join('')}</ul></td>`,
    '</tr>',
  ].join('');
};

const refusedRow = ({ name, refused = '' }: IndexEntry): string =>
  `<tr><td class="blank"></td><td colspan="4"><span class="name">${text(name)}</span><p class="stop">Not made: ${text(refused)}</p></td></tr>`;
