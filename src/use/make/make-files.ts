import type { FindingResult, MakeResult, PartResult, ReportResult } from '../../contract/part.ts';
import type { Template } from '../../forms/template.ts';
import type { MarkedFile } from '../../model/output-file.ts';
import { type MadePart, type MadeTube, withResult } from '../made-part.ts';
import { setOfPart, setsOf } from '../assembly/assembled.ts';
import { type FilesRequest, filesOf } from '../outputs/files-of.ts';
import { isCardOf } from '../outputs/card-of.ts';
import { isNeeded } from '../outputs/index.ts';
import type { RuleName } from '../../rules/index.ts';
import type { Done, Refused } from '../use-case.ts';
import { type MakeOptions, makeParts } from './make-parts.ts';

export interface MakeRequest extends Pick<
  FilesRequest,
  'outputs' | 'paper' | 'sizes' | 'note' | 'revision' | 'date' | 'cardOf' | 'home' | 'printUnits'
> {
  readonly template: Template;
  /** Inputs by name, as a file or flags give them. */
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly options?: MakeOptions | undefined;
  /** Rules whose warnings and notes are not told. */
  readonly silence?: readonly string[] | undefined;
  /** The function that makes the parts: `makeParts`, or one that does the same. */
  readonly make?: typeof makeParts | undefined;
}

/** Files of the parts, which the result names. There are none where a part is stopped. */
export interface MadeFiles extends Done<MakeResult> {
  readonly made: readonly MadePart[];
  readonly tubes: readonly MadeTube[];
  /** Number of findings that were not told. */
  readonly silenced: number;
}

/**
 * The parts of a set of inputs with all of their files: the cut files and those of `outputs`. It
 * throws nothing but what the template's own `build` throws.
 */
export async function makeFiles(request: MakeRequest): Promise<Refused | MadeFiles> {
  const { template, inputs, outputs = [], silence = [], make = makeParts } = request;
  const made = make(template, inputs, optionsOf(request));
  if (!made.ok) return made;
  let silenced = 0;
  const parts: { result: MadePart['result']; files: readonly MarkedFile[] }[] = [];
  const sets = isNeeded('assembly', outputs) ? setsOf(made.parts) : [];
  for (const [i, part] of made.parts.entries()) {
    const quiet = withResult(part, {
      findings: withoutSilenced(part.result, silence).findings,
    });
    silenced += part.result.findings.length - quiet.result.findings.length;
    const { options, paper, sizes, note, revision, date, cardOf, home, printUnits } = request;
    const report = reportOf(made.parts, made.reports, i);
    const shop = options?.shop;
    const set = setOfPart(sets, part);
    const isHanded = isOneOfTwo(part, made.parts);
    const about = {
      paper,
      sizes,
      report,
      note,
      revision,
      date,
      cardOf,
      shop,
      set,
      home,
      printUnits,
      isHanded,
    };
    const written = await filesOf({ part: quiet, outputs, ...about });
    const findings = [
      ...quiet.result.findings,
      ...written.findings,
      ...(i === 0 ? strangeCards(made.parts, cardOf) : []),
    ];
    parts.push({
      result: { ...quiet.result, findings },
      files: written.files,
    });
  }
  for (const [i, tube] of made.tubes.entries()) {
    const { tubeFiles } = await import('../outputs/tube-files.ts');
    const quiet = withoutSilenced(tube.result, silence);
    silenced += tube.result.findings.length - quiet.findings.length;
    const { paper, note, revision, date, home, printUnits } = request;
    const written = await tubeFiles({
      tube: { ...tube, result: quiet },
      outputs,
      report: reportOf(made.tubes, made.reports, i),
      isHanded: isOneOfTwo(tube, made.tubes),
      paper,
      note,
      revision,
      date,
      home,
      printUnits,
    });
    parts.push({
      result: { ...quiet, findings: [...quiet.findings, ...written.findings] },
      files: written.files,
    });
  }
  const isStopped = made.parts.some((part) => part.stopped);
  const told = parts.map(({ result, files }) => ({
    ...result,
    files: isStopped ? [] : files.map(({ name }) => name),
  }));
  return {
    ok: true,
    result: { parts: told, reports: made.reports, lists: made.lists },
    findings: told.flatMap(({ findings }) => findings),
    files: isStopped ? [] : parts.flatMap(({ files }) => files),
    made: made.parts,
    tubes: made.tubes,
    silenced,
  };
}

/** The report that goes with the papers of the first part; of each hand's first where both have one. */
const reportOf = (
  all: readonly Pick<MadePart, 'result'>[],
  reports: readonly ReportResult[],
  i: number,
): ReportResult | undefined => {
  const hand = all[i]?.result.hand;
  const isFirst = all.findIndex(({ result }) => result.hand === hand) === i;
  if (reports.length < 2) return i === 0 ? reports[0] : undefined;
  return isFirst ? reports[i === 0 ? 0 : 1] : undefined;
};

/** Names of `cardOf` that none of the parts has: one that is misspelt would leave a card out unseen. */
const strangeCards = (
  parts: readonly MadePart[],
  cardOf: readonly string[] = [],
): FindingResult[] => {
  const known = parts.flatMap(({ result: { piece, name } }) => [
    ...(piece === null ? [] : [piece]),
    name,
  ]);
  return cardOf
    .filter((name) => !isCardOf([name], known))
    .map((name) => ({
      rule: 'card-of-no-piece' satisfies RuleName,
      severity: 'warn',
      message: `No card was made of ${name}: there is no piece of that name. There are: ${[...new Set(known)].join(', ')}.`,
      inputs: [],
    }));
};

/** Whether there is another hand: it is made too, or this one is the mirror image of what was said. */
const isOneOfTwo = (
  { result: { piece, hand } }: Pick<MadePart, 'result'>,
  all: readonly Pick<MadePart, 'result'>[],
): boolean =>
  hand === 'right' || all.some(({ result }) => result.piece === piece && result.hand !== hand);

/** The options, with the fit worked out where it is asked for or an output reports it. */
const optionsOf = ({ options = {}, outputs = [] }: MakeRequest): MakeOptions =>
  options.fit === undefined && isNeeded('fit', outputs) ? { ...options, fit: {} } : options;

/** What is told of a part without warnings and notes whose rules the user has silenced; a stop stays. */
const withoutSilenced = (result: PartResult, silence: readonly string[]): PartResult => ({
  ...result,
  findings: result.findings.filter(
    ({ rule, severity }) => severity === 'stop' || !silence.includes(rule),
  ),
});
