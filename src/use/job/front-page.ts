import { printedFinding } from '../../model/printed-finding.ts';
import { MM_PER_INCH } from '../../text/units.ts';
import type { CutGroup, TubeGroup } from '../../contract/cut-list.ts';
import { laidLines } from '../../cutlist/cut-list-text.ts';
import type { FindingResult, PartResult } from '../../contract/part.ts';
import { cautionsAmong } from '../../data/cautions.ts';
import { isCaution } from '../../model/finding-line.ts';
import type {
  FrontLink,
  FrontPart,
  FrontPage,
  FrontSheet,
  FrontText,
} from '../../paper/sheet/front-html.ts';
import type { PaperMark } from '../../model/paper-mark.ts';
import { figure } from '../../text/figures.ts';
import type { Printed } from '../../text/printed.ts';
import { warningsOf } from './warnings-text.ts';

/** A part that is told of on the first page. */
export interface FrontEntry {
  /** What the blank is called. */
  readonly name: string;
  /** What the user calls the part that it belongs to. */
  readonly of: string;
  readonly part?: PartResult;
  readonly refused?: string | undefined;
  readonly note?: string | undefined;
  readonly revision?: string | undefined;
  readonly picture?: string | undefined;
  /** What the picture shows; the blank when left out. */
  readonly shows?: string | undefined;
  readonly sheet?: string | undefined;
  readonly paperMark?: PaperMark | undefined;
  readonly links: readonly FrontLink[];
}

export interface FrontOf {
  readonly title: string;
  /** What it is the first page of. */
  readonly about?: readonly string[];
  readonly entries: readonly FrontEntry[];
  readonly groups: readonly CutGroup[];
  /** Tubes on their bars; none when left out. */
  readonly tubes?: readonly TubeGroup[];
  readonly papers: readonly FrontLink[];
  readonly print: Printed;
}

/** The first page of a job or an archive, from what became of its parts. */
export const frontPage = ({
  title,
  about = [],
  entries,
  groups,
  tubes = [],
  papers,
  print,
}: FrontOf): FrontPage => {
  const made = entries.filter(({ refused }) => refused === undefined);
  const count = (isTube: boolean): number =>
    made.reduce(
      (sum, { part }) => sum + ((part?.tube !== undefined) === isTube ? (part?.quantity ?? 0) : 0),
      0,
    );
  const [blanks, tubeCount] = [count(false), count(true)];
  const refused = entries.length - made.length;
  return {
    title,
    lines: [
      ...about,
      `${blanks} ${blanks === 1 ? 'blank' : 'blanks'} to cut${tubeCount === 0 ? '' : `; ${tubeCount} ${tubeCount === 1 ? 'tube' : 'tubes'} to bend`}${refused === 0 ? '' : `; ${refused} ${refused === 1 ? 'part' : 'parts'} not made`}.`,
    ],
    decisions: decisionsOf(entries, print).map((d) => ({ ...d, text: print.words(d.text) })),
    cautions: cautionTexts(made).map((c) => ({ ...c, text: print.words(c.text) })),
    sheets: groups.map((group) => sheetOf(group, print)),
    bars: tubes.map((group) => barsOf(group, print)),
    parts: entries.map((entry) => partOf(entry, print)),
    papers,
  };
};

/** What was refused, then the warnings, each once. */
const decisionsOf = (entries: readonly FrontEntry[], print: Printed): FrontText[] => [
  ...entries.flatMap(({ of, refused }): FrontText[] =>
    refused === undefined ? [] : [{ lead: 'Not made', text: refused, about: of }],
  ),
  ...warningsOf(
    entries.flatMap(({ of, part, refused }) =>
      part === undefined || refused !== undefined
        ? []
        : [
            {
              name: of,
              parts: [{ findings: part.findings.map((f) => printedFinding(f, print)) }],
            },
          ],
    ),
  ).map(({ message, of }): FrontText => ({ lead: 'Warning', text: message, about: of.join(', ') })),
];

/** Each caution once, with the parts that it concerns, in the order of the work. */
const cautionTexts = (entries: readonly FrontEntry[]): FrontText[] => {
  const told = entries.filter(({ part }) => part !== undefined);
  const findings = told.flatMap(({ part }): readonly FindingResult[] => part?.findings ?? []);
  return cautionsAmong(findings).map(({ text }) => {
    const of = told.filter(({ part }) =>
      part?.findings.some((f) => isCaution(f) && f.message === text),
    );
    return {
      text,
      about: of.length === told.length ? 'all parts' : [...new Set(of.map((e) => e.of))].join(', '),
    };
  });
};

const sheetOf = (
  { material, thicknessMm, total, sheets, tooLarge, laid }: CutGroup,
  print: Printed,
): FrontSheet => ({
  name: `${material}, ${figure(thicknessMm, 3)} mm`,
  facts: [
    `${total.quantity} ${total.quantity === 1 ? 'blank' : 'blanks'}, ${figure(total.massKg, 2)} kg, ${areaText(total.areaMm2, print)}`,
    `cut ${print.way(total.cutLengthMm)}, ${total.pierces} pierces, ${total.folds} folds`,
    ...(laid === null ? [] : laidLines(laid)),
    ...(sheets === null || sheets.count === 0 || laid !== null
      ? []
      : [
          `at least ${sheets.count} ${sheets.count === 1 ? 'sheet' : 'sheets'} of ${print.tape(sheets.lengthMm, 0)} x ${print.tape(sheets.widthMm, 0)} ${print.word}`,
        ]),
    ...(tooLarge.length === 0 ? [] : [`larger than any sheet in stock: ${tooLarge.join(', ')}`]),
  ],
});

/** The bars of a tube, with what is cut off each. */
const barsOf = (
  { material, diameterMm, wallMm, lengthMm, massKg, bars, tooLong }: TubeGroup,
  print: Printed,
): FrontSheet => ({
  name: `${material} tube, ${figure(diameterMm)} x ${figure(wallMm)} mm`,
  facts: [
    `${print.way(lengthMm)}, ${figure(massKg, 2)} kg`,
    ...bars.map(
      ({ barMm, cuts, leftMm }) =>
        `bar of ${print.tape(barMm, 0)} ${print.word}: ${cuts.map((cut) => `${cut.name} ${print.tape(cut.lengthMm, 1)}`).join(' + ')}; left ${print.tape(leftMm, 0)}`,
    ),
    ...(tooLong.length === 0 ? [] : [`longer than any bar: ${tooLong.join(', ')}`]),
  ],
});

/** A sheet's worth of metal, in m² or in square feet. */
const areaText = (mm2: number, { unit }: Printed): string =>
  unit === 'mm' ? `${figure(mm2 / 1e6, 3)} m²` : `${figure(mm2 / MM2_PER_FT2, 2)} ft²`;

const MM2_PER_FT2 = (12 * MM_PER_INCH) ** 2;

const partOf = (
  { name, part, refused, note, revision, picture, shows, sheet, paperMark, links }: FrontEntry,
  print: Printed,
): FrontPart => ({
  name,
  facts: [
    ...(part === undefined || refused !== undefined ? [] : factsOf(part, print)),
    ...(revision === undefined ? [] : [`Revision ${revision}`]),
    ...(note === undefined ? [] : [note]),
  ],
  warnings:
    refused !== undefined
      ? []
      : [
          ...new Set(
            (part?.findings ?? [])
              .filter((f) => f.severity === 'warn')
              .map(({ rule }) => rule.replaceAll('-', ' ')),
          ),
        ],
  refused: refused === undefined ? undefined : print.words(refused),
  picture,
  shows,
  sheet,
  // Of a refused part there is nothing to be found again.
  ...(refused === undefined && { paperMark }),
  links,
});

const factsOf = (
  { quantity, hand, material, blank, folded, bends, tube }: PartResult,
  { tape, word }: Printed,
): string[] => [
  `${quantity} off, ${hand} hand, ${material.id} ${tube === undefined ? '' : `tube ${figure(tube.diameterMm)} x `}${figure(material.thicknessMm, 3)} mm`,
  ...(tube === undefined
    ? []
    : [
        `Cut ${tape(tube.cutLengthMm, 1)} ${word}, ${tube.bends.length} ${tube.bends.length === 1 ? 'bend' : 'bends'}`,
      ]),
  ...(blank === null
    ? []
    : [
        `Blank ${tape(blank.widthMm, 1)} x ${tape(blank.heightMm, 1)} ${word}, ${figure(blank.massKg, 3)} kg`,
      ]),
  ...(folded === null || bends.length === 0
    ? []
    : [
        `Folded ${folded.sizeMm.map((v) => tape(v, 1)).join(' x ')} ${word}, ${bends.length} ${bends.length === 1 ? 'fold' : 'folds'}`,
      ]),
];
