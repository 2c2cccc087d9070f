import { printedFinding } from '../../model/printed-finding.ts';
import { boltLines, fitText } from '../fit/fit-text.ts';
import { reportText } from './report-text.ts';
import { atLeast, figure } from '../../text/figures.ts';
import type { ReadList } from '../../contract/read-list.ts';
import type { Finding } from '../../model/finding.ts';
import { findingLine, isCaution } from '../../model/finding-line.ts';
import { cautionsAmong } from '../../data/cautions.ts';
import { type Printed, printedIn, type PrintUnit } from '../../text/printed.ts';
import { NO_RULE, tubeHeading, tubeLines } from './tube-text.ts';
import { rulesUsed } from '../../model/rules-used.ts';
import type { BendResult, MakeResult, PartResult } from '../../contract/part.ts';

/**
 * Everything that a person is told about what was made: its parts, what was read, fit and figures.
 * A fit that a paper alone asked for (`tellsFit` is false) stands on that paper; only whether the
 * bolts go in is told.
 */
export const makeTexts = (
  { parts, lists, reports }: MakeResult,
  units?: PrintUnit,
  tellsFit = true,
): string[] => [
  ...partTexts(parts, printedIn(units), tellsFit),
  ...lists.map(listText),
  ...(tellsFit ? fitTexts(parts, printedIn(units)) : []),
  ...reports.map((report) => reportText(report, printedIn(units))),
];

const fitTexts = (parts: MakeResult['parts'], print: Printed): string[] =>
  parts.flatMap(({ name, fit }) => (fit === null ? [] : [fitText(name, fit, print)]));

/**
 * The parts of one family as a person reads them: what was made, how it is folded, what to look out
 * for. It is plain text, one a part; a note that holds for several parts is told with the first, and
 * warnings that hold for both hands with the one that comes first.
 */
const partTexts = (parts: MakeResult['parts'], print: Printed, tellsFit: boolean): string[] => {
  const told = new Set<string>();
  return parts.map((part, i) => {
    const other = parts.slice(0, i).find((p) => p.piece === part.piece && p.hand !== part.hand);
    const again = part.findings.filter((f) => isOf(other, f));
    const findings = part.findings.filter(
      (f) => !again.includes(f) && (f.severity !== 'note' || !told.has(f.message)),
    );
    for (const { message } of findings) told.add(message);
    return [
      part.rule === NO_RULE ? tubeHeading(part) : heading(part),
      ...cautionLine(part),
      ...tubeLines(part, print),
      ...blankLines(part, print),
      ...part.bends.map((bend) => bendLine(bend, print)),
      ...orderLine(part),
      ...proofLine(part, print),
      ...(tellsFit ? [] : (part.fit?.bolts ?? []).flatMap((fit) => boltLines(fit, print))),
      ...(other === undefined || again.length === 0
        ? []
        : [`  warn   ${again.length === 1 ? 'one' : again.length} as of ${other.name}`]),
      ...findings
        .filter((f) => !isCaution(f))
        .map((f) => `  ${findingLine(printedFinding(f, print))}`),
      ...findings.filter(isCaution).map((f) => `  ${findingLine(f)}`),
      ...part.files.map((f) => `  wrote  ${f}`),
    ].join('\n');
  });
};

/** Whether a warning was told of the part of the other hand already. */
const isOf = (other: PartResult | undefined, { severity, message }: Finding): boolean =>
  severity === 'warn' &&
  other?.findings.some((f) => f.severity === severity && f.message === message) === true;

/** In a few words before all else; in full they stand behind the findings, each once. */
const cautionLine = ({ findings }: PartResult): string[] => {
  const cautions = cautionsAmong(findings).map(({ short }) => short);
  return cautions.length === 0 ? [] : [`  CAUTION ${cautions.join('; ')}`];
};

const heading = ({ name, family, hand, quantity, material, rule, bends }: PartResult): string =>
  `${name} (${family}, ${hand} hand${quantity > 1 ? `, ${quantity} off` : ''}): ${material.id}, ${figure(material.thicknessMm, 3)} mm, bends by ${rulesUsed(rule, bends)}${bends[0]?.measure === 'inside' ? '; setbacks and deductions of inside dimensions' : ''}`;

const blankLines = ({ blank, folded }: PartResult, print: Printed): string[] => {
  if (blank === null || folded === null) return [];
  const size = folded.sizeMm.map((v) => print.tape(v)).join(' x ');
  return [
    `  blank  ${print.tape(blank.widthMm)} x ${print.tape(blank.heightMm)} ${print.word}, ${figure(blank.massKg, 3)} kg, cut length ${print.machine(blank.cutLengthMm, 0)} ${print.word}, ${blank.pierces} ${blank.pierces === 1 ? 'pierce' : 'pierces'}`,
    `  folded ${size} ${print.word} outside`,
  ];
};

const bendLine = (b: BendResult, { machine }: Printed): string =>
  `  fold   ${b.id}: ${figure(b.angleDeg)} deg ${b.direction}, inside radius ${machine(b.insideRadiusMm)}, allowance ${machine(b.allowanceMm, 3)}, setback ${machine(b.setbackMm, 3)}, deduction ${machine(b.deductionMm, 3)}, K ${figure(b.kFactor, 3)}`;

const orderLine = ({ foldPlan }: PartResult): string[] =>
  foldPlan?.feasible === true
    ? [`  order  ${foldPlan.steps.map((s) => s.bend).join(', ')} on ${foldPlan.machine}`]
    : [];

const proofLine = ({ proof }: PartResult, { words }: Printed): string[] =>
  proof === null
    ? []
    : [
        words(
          `  proof  the DXF, read again and folded up, is within ${atLeast(proof.worstMm, 4)} mm of what was asked in ${proof.measures.length} measures`,
        ),
      ];

/**
 * A line such as `holesA: 2 holes read`: without quotes, a terminal takes the text behind a `;` for
 * a command of its own.
 */
const listText = ({ input, count, what, endsOpen }: ReadList): string =>
  `${input}: ${count} ${what} read${endsOpen ? "; the text stops at a ';': if more should follow, put quotes round all of it on a command line" : ''}`;
